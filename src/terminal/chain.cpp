// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

#include "audio/sound_system.h"
#include "base/text.h"
#include "intake/chain_check.h"
#include "terminal/exit_status.h"
#include "terminal/listen_verbs.h"
#include "terminal/output.h"
#include "terminal/sound_json.h"
#include "terminal/sound_in.h"

namespace ringfall::terminal {
namespace {

constexpr double kTone_hz = 1000.0;
constexpr double kTone_s = 4.0;
constexpr double kToneRate_hz = 48000.0;
constexpr double kToneAmplitude = 0.1;  // -20 dB re full scale
constexpr double kFade_s = 0.02;

std::vector<float> check_tone() {
  std::vector<float> samples(static_cast<std::size_t>(kTone_s * kToneRate_hz));
  for (std::size_t k = 0; k < samples.size(); ++k) {
    const double t = static_cast<double>(k) / kToneRate_hz;
    const double fade = std::clamp(std::min(t, kTone_s - t) / kFade_s, 0.0, 1.0);
    samples[k] = static_cast<float>(kToneAmplitude * fade * std::sin(2.0 * std::numbers::pi * kTone_hz * t));
  }
  return samples;
}

void print_json(const std::string& text) { put(text); }

int hear_tone(const ChainRequest& request, audio::SoundSystem& system) {
  const auto source = sound_in(request.sound, system)();
  // A file played in holds the tone already.
  std::unique_ptr<audio::Playback> playback;
  if (!request.sound.file) playback = system.play(check_tone(), kToneRate_hz, request.output);
  const auto level_db = intake::hear_check_tone(*source, kTone_hz, kTone_s);
  if (request.json) {
    print_json(check_tone_json(kTone_hz, level_db));
    return level_db ? kDone : kNotMeasured;
  }
  if (!level_db) {
    print_out("No clear tone of {:.0f} Hz was heard: turn the loudspeaker up, and keep quiet.\n", kTone_hz);
    return kNotMeasured;
  }
  print_out("The check tone ({:.0f} Hz) comes in at {:.1f} dB re full scale. With loudspeaker, microphone and gain in the same "
             "place it is the same within 1 dB on another day; if not, do not compare levels with that day.\n", kTone_hz, *level_db);
  return kDone;
}

void print_check(const intake::ChainCheck& check) {
  print_out("floor before      {}\n", with_unit(check.floor_before_db, "dB re full scale", 1));
  print_out("floor after       {}\n", with_unit(check.floor_after_db, "dB re full scale", 1));
  print_out("clap's peak       {}\n", with_unit(check.clap_peak_db, "dB re full scale", 1));
  print_out("heard up to       {}\n", check.highest_hz ? frequency_text(*check.highest_hz) : "-");
  print_out("room rings        {}\n", check.room_decay_s ? duration_text(*check.room_decay_s) : "-");
  print_out("samples a second  {}\n\n", plain_number(check.clock_rate_hz, 0));
  for (const auto& verdict : intake::chain_verdicts(check)) print_out("  {}\n", verdict);
  if (!check.findings.empty()) print_out("\n");
  for (const Finding& finding : check.findings) print_out("{} ({}): {}\n", severity_name(finding.severity), finding.code, finding.sentence);
}

}  // namespace

int chain(const ChainRequest& request) {
  audio::SoundSystem system;
  if (request.tone) return hear_tone(request, system);
  const auto source = sound_in(request.sound, system)();
  const auto check = intake::check_chain(*source, {}, [&](const std::string& sentence) {
    request.json ? print_error("{}\n", sentence) : print_out("{}\n", sentence);
    if (!request.json) flush_output();
  });
  if (request.json) {
    print_json(chain_json(check));
  } else {
    print_check(check);
  }
  const bool fit = std::ranges::none_of(check.findings, [](const Finding& finding) { return finding.severity != Severity::note; });
  return fit ? kDone : kNotMeasured;
}

}  // namespace ringfall::terminal
