// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <portaudio.h>

#include <chrono>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "audio/device.h"
#include "audio/serial_thread.h"

namespace ringfall::audio {

/// PortAudio on a serial thread. What its methods do happens there; they are shared with jobs that may be left behind.
class PortAudio : public std::enable_shared_from_this<PortAudio> {
 public:
  PortAudio() = default;

  /// Runs `job` on the thread. DeviceFailure: not done in time, or what the job throws.
  void ask(std::function<void()> job, std::chrono::milliseconds limit);
  /// As ask, without waiting for more than `limit` and without failing.
  void ask_in_vain_if_need_be(std::function<void()> job, std::chrono::milliseconds limit) noexcept;

  // On the thread only:
  /// Looks at the devices afresh, unless a stream is open.
  std::vector<Device> look();
  /// Opens and starts a stream; `stream` is set. DeviceFailure names the device. Whoever asked for it and gave up waiting must
  /// see that it is closed again.
  void open(PaStream*& stream, const PaStreamParameters* input, const PaStreamParameters* output, double rate_hz,
            PaStreamCallback* callback, PaStreamFinishedCallback* finished, void* shared, const std::string& name);
  void close(PaStream* stream);
  void terminate();

 private:
  SerialThread thread_;
  bool initialized_ = false;
  int open_streams_ = 0;
};

}  // namespace ringfall::audio
