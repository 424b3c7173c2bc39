// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <thread>

#include "audio/sound_system.h"
#include "base/failure.h"
#include "intake/kept_clip.h"
#include "terminal/exit_status.h"
#include "terminal/keys.h"
#include "terminal/listen_verbs.h"
#include "terminal/output.h"

namespace ringfall::terminal {
namespace {

using namespace std::chrono_literals;

constexpr double kBefore_s = 0.25;
constexpr double kAfter_s = 1.0;
constexpr float kLoudest = 0.89F;  // -1 dB re full scale
constexpr auto kLookAtPlayer = 20ms;
constexpr auto kPause = 600ms;

struct Sound {
  std::int64_t shot;
  double rate_hz;
  std::vector<float> samples;
};

Sound sound_of(const logbook::Logbook& book, std::int64_t shot) {
  shot::Clip clip = intake::kept_clip(book, shot);
  const auto edge = clip.onset_sample - clip.first_sample;
  const auto size = static_cast<std::int64_t>(clip.samples.size());
  const auto begin = std::clamp<std::int64_t>(edge - std::llround(kBefore_s * clip.sample_rate_hz), 0, size);
  const auto end = std::clamp<std::int64_t>(edge + std::llround(kAfter_s * clip.sample_rate_hz), begin, size);
  return {shot, clip.sample_rate_hz, {clip.samples.begin() + begin, clip.samples.begin() + end}};
}

float loudest(const std::vector<Sound>& sounds) {
  float peak = 0.0F;
  for (const auto& sound : sounds) {
    for (const float sample : sound.samples) peak = std::max(peak, std::abs(sample));
  }
  return peak;
}

/// Until it is over or an end is asked for. DeviceFailure: it never moves.
void wait_for(const audio::Playback& playback, double length_s) {
  const auto begin = std::chrono::steady_clock::now();
  while (!playback.done() && !EndRequests::wanted()) {
    std::this_thread::sleep_for(kLookAtPlayer);
    if (std::chrono::steady_clock::now() - begin > std::chrono::duration<double>(length_s + 5.0)) {
      throw DeviceFailure("the sound output does not take the sound; try another one with --device");
    }
  }
}

}  // namespace

int play(const PlayRequest& request) {
  const logbook::Logbook book(request.logbook);
  std::vector<Sound> sounds;
  for (const std::int64_t shot : request.shots) sounds.push_back(sound_of(book, shot));
  const float peak = loudest(sounds);
  if (peak <= 0.0F) throw RequestFailure("there is nothing to hear: the sound is silent");
  // One gain for all of them: what is louder stays louder.
  for (auto& sound : sounds) {
    for (float& sample : sound.samples) sample *= kLoudest / peak;
  }
  const EndRequests ends;
  audio::SoundSystem system;
  for (int k = 0; k < request.times && !EndRequests::wanted(); ++k) {
    for (const auto& sound : sounds) {
      if (EndRequests::wanted()) break;
      print_out("shot {}\n", sound.shot);
      flush_output();
      const double length_s = static_cast<double>(sound.samples.size()) / sound.rate_hz;
      const auto playback = system.play(sound.samples, sound.rate_hz, request.device);
      wait_for(*playback, length_s);
      std::this_thread::sleep_for(kPause);
    }
  }
  return kDone;
}

}  // namespace ringfall::terminal
