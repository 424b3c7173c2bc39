// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "audio/device.h"
#include "audio/sound_source.h"

namespace ringfall::audio {

/// How a microphone is to be opened.
struct InputWish {
  std::string device;                    ///< number, name or part of it; empty: the one used last if it is there, else the usual one
  std::optional<double> sample_rate_hz;  ///< nullopt: 48 kHz if the device says it can, else its usual rate
  int channel = 1;                       ///< counted from 1
};

/// Sound on its way out.
class Playback {
 public:
  virtual ~Playback() = default;  ///< stops it
  virtual double played_s() const = 0;
  /// All was played, or the device is gone.
  virtual bool done() const = 0;
};

/// The computer's sound devices, through PortAudio. One object a process. Every call into PortAudio is made on a thread of its
/// own with a time limit: a hung sound server makes calls fail (DeviceFailure), not the program.
/// What was found about hosts, rates and losses: docs/measures/listening.md. Tested: audio.Device.*, intake.EndToEnd.*
class SoundSystem {
 public:
  SoundSystem();
  ~SoundSystem();
  SoundSystem(const SoundSystem&) = delete;
  SoundSystem& operator=(const SoundSystem&) = delete;

  /// Those that are there now (while a stream is open: when it was opened). DeviceFailure: the sound system does not answer.
  std::vector<Device> devices();
  /// Opens and starts a microphone. The device's own samples, 32-bit float, no conversion asked for but the one to mono of
  /// the channel. DeviceFailure: it is not there, or can't be opened (now). RequestFailure: it has no such channel, or several are meant.
  std::unique_ptr<SoundSource> open_input(const InputWish& wish);
  /// Plays mono samples on all of an output's channels. `device` empty: the usual output. Fails as open_input.
  std::unique_ptr<Playback> play(std::vector<float> samples, double sample_rate_hz, const std::string& device);

 private:
  struct Part;
  std::shared_ptr<Part> part_;
};

}  // namespace ringfall::audio
