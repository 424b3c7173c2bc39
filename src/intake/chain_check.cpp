// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/chain_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <span>
#include <thread>
#include <utility>

#include "base/failure.h"
#include "base/units.h"
#include "intake/chain_judgement.h"
#include "shot/calibrator_tone.h"
#include "shot/chain_evidence.h"
#include "shot/clip_faults.h"
#include "shot/find.h"
#include "shot/room.h"

namespace ringfall::intake {
namespace {

using namespace std::chrono_literals;

constexpr double kNearby_m = 3.0;          // the finder need not wait for an arrow
constexpr double kCheckWindow_s = 0.1;
constexpr double kSettled_s = 0.3;         // after the start, and around the clap
constexpr double kDiedAway_s = 2.0;
constexpr double kAboveFloor_db = 6.0;
constexpr double kToneBlock_s = 0.5;
constexpr double kTonePurity_db = 10.0;
constexpr double kToneOff = 0.03;

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

/// Reads on until `seconds` of sound are there, or `enough` says so after a piece.
template <typename Enough>
void read_to(audio::SoundSource& source, std::vector<float>& samples, double seconds, Enough enough) {
  const auto wanted = static_cast<std::size_t>(seconds * source.info().sample_rate_hz);
  std::vector<float> block(4800);
  while (samples.size() < wanted) {
    const std::size_t got = source.read(std::span(block).first(std::min(block.size(), wanted - samples.size())));
    samples.insert(samples.end(), block.begin(), block.begin() + static_cast<std::ptrdiff_t>(got));
    if (enough(std::span<const float>(block).first(got))) return;
    const auto pulse = source.health().pulse;
    if (pulse == audio::SourcePulse::ended) return;
    if (pulse == audio::SourcePulse::lost) {
      throw DeviceFailure(source.info().name + ": no more sound comes from it; check the plug and try again");
    }
    if (got == 0) std::this_thread::sleep_for(4ms);
  }
}

void read_to(audio::SoundSource& source, std::vector<float>& samples, double seconds) {
  read_to(source, samples, seconds, [](std::span<const float>) { return false; });
}

/// Median level of short windows: a creak does not lift it.
std::optional<double> floor_db(std::span<const float> samples, double rate_hz, double begin_s, double end_s) {
  const auto window = static_cast<std::size_t>(kCheckWindow_s * rate_hz);
  const auto end = std::min(samples.size(), static_cast<std::size_t>(std::max(0.0, end_s) * rate_hz));
  std::vector<double> powers;
  for (auto at = static_cast<std::size_t>(begin_s * rate_hz); at + window <= end; at += window) {
    double sum = 0.0;
    for (const float sample : samples.subspan(at, window)) sum += static_cast<double>(sample) * static_cast<double>(sample);
    powers.push_back(sum / static_cast<double>(window));
  }
  if (powers.size() < 5) return std::nullopt;
  return power_to_db(std::max(median(powers), 1e-15));
}

std::optional<double> highest_hz(const shot::ChainEvidence& evidence) {
  for (std::size_t k = std::min(evidence.floor_density_db.size(), evidence.shot_density_db.size()); k-- > 0;) {
    if (static_cast<double>(evidence.shot_density_db[k] - evidence.floor_density_db[k]) > kAboveFloor_db) return shot::fine_band_centre_hz(k);
  }
  return std::nullopt;
}

/// Median of the octaves from 500 Hz to 4 kHz (the 5th to the 8th from 31.5 Hz on).
std::optional<double> room_decay_s(shot::Clip clip) {
  clip.impact_sample = clip.onset_sample;
  const auto octaves = shot::impact_decay_s(clip, {});
  std::vector<double> known;
  for (std::size_t k = 4; k < 8 && k < octaves.size(); ++k) {
    if (octaves[k]) known.push_back(*octaves[k]);
  }
  if (known.size() < 2) return std::nullopt;
  return median(known);
}

}  // namespace

ChainCheck check_chain(audio::SoundSource& source, const ChainCheckTimes& times, const Prompt& prompt) {
  const double rate_hz = source.info().sample_rate_hz;
  ChainCheck check;
  std::vector<float> samples;
  prompt(fmt::format("Keep quiet for {:.0f} seconds.", times.quiet_s));
  read_to(source, samples, times.quiet_s);
  check.floor_before_db = floor_db(samples, rate_hz, kSettled_s, times.quiet_s);

  prompt("Clap once, hard, where the bow will be; then keep quiet.");
  std::optional<shot::FoundEvent> clap;
  shot::FindSettings find;
  find.expect = 1;
  find.distance_m = kNearby_m;
  shot::ShotFinder finder(rate_hz, find, [&](shot::FoundEvent&& found) {
    if (!clap || found.event.edge_db > clap->event.edge_db) clap = std::move(found);
  });
  finder.push(samples);
  clap.reset();  // what came before does not count
  read_to(source, samples, times.quiet_s + times.wait_s, [&](std::span<const float> heard) {
    finder.push(heard);
    return clap.has_value();
  });
  if (!clap) finder.finish();
  check.heard_clap = clap.has_value();
  shot::ChainEvidence evidence;
  if (clap) {
    const double clap_s = static_cast<double>(clap->event.onset_sample) / rate_hz;
    read_to(source, samples, clap_s + times.after_s);
    check.floor_after_db = floor_db(samples, rate_hz, clap_s + kDiedAway_s, static_cast<double>(samples.size()) / rate_hz);
    check.clap_peak_db = amplitude_to_db(clap->event.peak);
    evidence = shot::chain_evidence(clap->clip, {});
    check.highest_hz = highest_hz(evidence);
    check.room_decay_s = room_decay_s(clap->clip);
    check.findings = shot::clip_faults(clap->clip);
  }
  check.clock_rate_hz = source.health().clock_rate_hz;
  judge_chain(check, rate_hz);
  return check;
}

std::optional<double> hear_check_tone(audio::SoundSource& source, double tone_hz, double length_s) {
  const double rate_hz = source.info().sample_rate_hz;
  std::vector<float> samples;
  read_to(source, samples, length_s);
  const auto block = static_cast<std::size_t>(kToneBlock_s * rate_hz);
  std::vector<double> levels_db;
  for (std::size_t at = 0; at + block <= samples.size(); at += block) {
    const auto tone = shot::calibrator_tone(std::span(samples).subspan(at, block), rate_hz);
    if (tone.purity_db >= kTonePurity_db && std::abs(tone.tone_hz / tone_hz - 1.0) < kToneOff) levels_db.push_back(tone.rms_db);
  }
  // The tone's first and last block may hold its ends.
  if (levels_db.size() < 3) return std::nullopt;
  return median(levels_db);
}

}  // namespace ringfall::intake
