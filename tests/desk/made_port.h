// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <utility>
#include <vector>

#include "desk/model/sound_port.h"
#include "support/memory_source.h"

namespace ringfall::desk {

/// One made-up microphone that hears `heard`, as far as `reins` let it, and a loudspeaker that keeps what it was given.
class MadePort final : public SoundPort {
 public:
  std::vector<audio::Device> devices() override {
    audio::Device device;
    device.number = 1;
    device.name = "made-up microphone";
    device.inputs = 1;
    device.usual_input = true;
    audio::Device speaker;
    speaker.number = 2;
    speaker.name = "made-up loudspeaker";
    speaker.outputs = 2;
    return {device, speaker};
  }
  std::unique_ptr<audio::SoundSource> open_input(const audio::InputWish& /*wish*/) override {
    return std::make_unique<audio::MemorySource>(heard, rate_hz, reins);
  }
  std::unique_ptr<audio::Playback> play(std::vector<float> samples, double /*sample_rate_hz*/) override {
    played.push_back(std::move(samples));
    return std::make_unique<Done>();
  }

  std::vector<float> heard;
  double rate_hz = 48000.0;
  audio::MemoryReins reins;
  std::vector<std::vector<float>> played;

 private:
  struct Done final : audio::Playback {
    double played_s() const override { return 0.0; }
    bool done() const override { return true; }
  };
};

}  // namespace ringfall::desk
