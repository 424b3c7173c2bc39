// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <atomic>
#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

namespace ringfall::desk {

/// What work may ask and tell while it runs.
class Ticket {
 public:
  bool cancelled() const { return cancelled_.load(); }
  /// Share done, 0 .. 1; nullopt: nobody knows. Wakes the window when it has moved by a hundredth.
  void report(std::optional<double> share);
  /// What goes on now, in place of the work's name; for work that asks the person for something.
  void say(const std::string& words) {
    const std::lock_guard guard(lock_);
    words_ = words;
  }

 private:
  friend class Lane;
  Ticket(const std::function<void()>& wake, bool cancelled) : wake_(wake), cancelled_(cancelled) {}
  const std::function<void()>& wake_;
  double woke_at_ = -1.0;
  std::atomic<bool> cancelled_;
  std::atomic<double> share_{-1.0};
  std::mutex lock_;
  std::string words_;
};

/// Work away from the window: one thread, one piece after the other, in order. Each piece gives back a closure that the
/// window's thread runs; so what views show changes on that thread only. Tests: desk.LaneThreads.*
class Lane {
 public:
  using Result = std::function<void()>;
  using Work = std::function<Result(Ticket&)>;
  struct Busy {
    std::string what;
    std::optional<double> share;
    std::size_t waiting = 0;
  };

  /// `wake` is called from the lane's thread when there is something to apply or the share done has moved; `complain` on the
  /// window's thread when a piece of work threw.
  Lane(std::function<void()> wake, std::function<void(const std::string&)> complain);
  /// Cancels what runs and forgets what waits.
  ~Lane();
  Lane(const Lane&) = delete;
  Lane& operator=(const Lane&) = delete;

  void post(std::string what, Work work);
  /// Runs what finished pieces gave back; true when there was any. Window's thread.
  bool apply();
  /// What runs now, or waits.
  std::optional<Busy> busy() const;
  /// Cancels what `busy` names: what runs, or what is about to.
  void cancel();
  /// Cancels and forgets all work of this name, whether it runs or waits; the rest goes on.
  void cancel(const std::string& what);
  /// Cancels what runs and forgets what waits.
  void cancel_all();
  /// Waits until nothing runs or waits (what was finished is still to be applied).
  void wait_idle();

 private:
  struct Piece {
    std::string what;
    Work work;
    bool cancelled = false;  ///< before it began: it still says that it was stopped
  };
  void run();

  std::function<void()> wake_;
  std::function<void(const std::string&)> complain_;
  mutable std::mutex lock_;
  std::condition_variable changed_;
  std::deque<Piece> waiting_;
  std::vector<Result> finished_;
  std::string running_;
  Ticket* ticket_ = nullptr;
  bool closing_ = false;
  std::thread thread_;
};

}  // namespace ringfall::desk
