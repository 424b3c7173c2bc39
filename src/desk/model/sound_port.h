// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <mutex>
#include <vector>

#include "audio/device.h"
#include "audio/sound_system.h"

namespace ringfall::desk {

/// The window's way to microphones and loudspeakers; tests put another in its place. Calls may take a while: they are made on a
/// lane.
class SoundPort {
 public:
  virtual ~SoundPort() = default;
  virtual std::vector<audio::Device> devices() = 0;
  virtual std::unique_ptr<audio::SoundSource> open_input(const audio::InputWish& wish) = 0;
  virtual std::unique_ptr<audio::Playback> play(std::vector<float> samples, double sample_rate_hz) = 0;
};

/// The computer's own. The sound system is started when it is first asked for, so that a window without sound costs none.
class ComputerSound final : public SoundPort {
 public:
  std::vector<audio::Device> devices() override { return system().devices(); }
  std::unique_ptr<audio::SoundSource> open_input(const audio::InputWish& wish) override { return system().open_input(wish); }
  std::unique_ptr<audio::Playback> play(std::vector<float> samples, double sample_rate_hz) override {
    return system().play(std::move(samples), sample_rate_hz, {});
  }

 private:
  audio::SoundSystem& system() {
    const std::lock_guard guard(lock_);
    if (!system_) system_ = std::make_unique<audio::SoundSystem>();
    return *system_;
  }
  std::mutex lock_;
  std::unique_ptr<audio::SoundSystem> system_;
};

}  // namespace ringfall::desk
