// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <condition_variable>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>

namespace ringfall::audio {

/// A thread that does one job after the other for callers who wait for a limited time only. A sound system whose server hangs
/// can block a call for good: then the caller goes on, and the thread is left behind with all it holds.
/// Tested: audio.SerialThreads.*
class SerialThread {
 public:
  SerialThread();
  ~SerialThread();  ///< Ends the thread, or leaves it behind when it hangs in a job.
  SerialThread(const SerialThread&) = delete;
  SerialThread& operator=(const SerialThread&) = delete;

  /// Does the job and waits for it; false: it was not done in time (it may be done later all the same, so it must own
  /// whatever it touches). What the job throws is thrown here.
  bool run(std::function<void()> job, std::chrono::milliseconds limit);

 private:
  struct Shared {
    std::mutex lock;
    std::condition_variable wake;
    std::deque<std::function<void()>> jobs;
    bool ends = false;
  };
  std::shared_ptr<Shared> shared_;
};

}  // namespace ringfall::audio
