// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/chain_findings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>

#include "base/text.h"
#include "signal/median.h"

namespace ringfall::shot {
namespace {

using Shots = std::span<const ChainEvidence>;

constexpr std::size_t kLimiterShots = 5;
constexpr double kLimiterPeakSpread_db = 0.3;  // an archer's shots spread 0.5-1.5 dB (standard deviation)
constexpr double kLimiterTailSpread_db = 1.0;
constexpr double kGainStep_db = -2.0;
constexpr double kGainRecovery_db = 0.5;
constexpr double kSingleGainStep_db = -4.0;    // one shot alone must show it plainly
constexpr double kCut_db = 30.0;               // fall within a sixth of an octave that no bow or room has
constexpr double kLowCutSlope_db = 10.0;       // over the octave below the corner; a 2nd-order cut has 12
constexpr double kWindRise_db = 6.0;
constexpr double kRateTolerance = 0.007;       // mains is within 1 % in normal running, 0.1 % nearly always
constexpr double kRateError = 48000.0 / 44100.0;

double spread(const std::vector<double>& values) {
  const auto [low, high] = std::ranges::minmax(values);
  return high - low;
}

/// Median over shots of each fine band; empty when no shot has it.
std::vector<double> median_bands(Shots shots, std::vector<float> ChainEvidence::*which) {
  std::size_t bands = 0;
  for (const auto& shot : shots) bands = std::max(bands, (shot.*which).size());
  std::vector<double> result;
  for (std::size_t k = 0; k < bands; ++k) {
    std::vector<double> column;
    for (const auto& shot : shots) {
      if (k < (shot.*which).size()) column.push_back(static_cast<double>((shot.*which)[k]));
    }
    result.push_back(signal::upper_median(std::move(column)));
  }
  return result;
}

void judge_limiter(Shots shots, std::vector<Finding>& findings) {
  std::vector<double> peaks;
  std::vector<double> tails;
  for (const auto& shot : shots) {
    peaks.push_back(shot.peak_db);
    if (shot.tail_level_db) tails.push_back(*shot.tail_level_db);
  }
  if (peaks.size() < kLimiterShots || tails.size() < kLimiterShots) return;
  if (spread(peaks) >= kLimiterPeakSpread_db || spread(tails) <= kLimiterTailSpread_db) return;
  findings.push_back(
      {"limited", Severity::void_, {Quantity::levels, Quantity::loudness},
       fmt::format("All {} shots peak within {:.2f} dB while their tails differ by {:.1f} dB: a limiter holds the "
                   "peaks down, so levels and loudness can't be compared. Turn the limiter off or lower the gain.",
                   peaks.size(), spread(peaks), spread(tails))});
}

void judge_gain(Shots shots, ChainFindings& all) {
  std::vector<double> steps;
  std::vector<double> recoveries;
  for (std::size_t k = 0; k < shots.size(); ++k) {
    if (!shots[k].floor_step_db || !shots[k].floor_recovery_db) continue;
    steps.push_back(*shots[k].floor_step_db);
    recoveries.push_back(*shots[k].floor_recovery_db);
  }
  if (steps.empty()) return;
  const double step = signal::upper_median(steps);
  const double recovery = signal::upper_median(recoveries);
  const double limit = steps.size() >= 3 ? kGainStep_db : kSingleGainStep_db;
  if (step > limit || recovery < kGainRecovery_db) return;
  all.recording.push_back(
      {"gain_not_constant", Severity::void_,
       {Quantity::levels, Quantity::loudness, Quantity::ring_down, Quantity::hum, Quantity::ping},
       fmt::format("After a shot the background is {:.1f} dB lower than before it and creeps back: an automatic gain "
                   "control turns the microphone down. Levels and ring times mean nothing until it is off.",
                   -step)});
}

/// The lowest cut-off: a fine band from which the level falls by kCut_db within a sixth of an octave and stays down.
std::optional<double> cut_off_hz(const std::vector<double>& bands) {
  constexpr std::size_t kSixth = kFineBandsPerOctave / 6;
  for (std::size_t k = kSixth; k + 2 * kSixth < bands.size(); ++k) {
    if (fine_band_centre_hz(k) < 2000.0) continue;
    const double below = (bands[k - 1] + bands[k - 2]) / 2.0;
    const auto above = bands.begin() + static_cast<std::ptrdiff_t>(k + kSixth);
    const double rest = *std::max_element(above, bands.end());
    if (below - rest > kCut_db) return fine_band_centre_hz(k) / std::exp2(0.5 / kFineBandsPerOctave);
  }
  return std::nullopt;
}

void judge_bandwidth(Shots shots, const ChainContext& context, std::vector<Finding>& findings) {
  auto limit_hz = cut_off_hz(median_bands(shots, &ChainEvidence::shot_density_db));
  const double nyquist_hz = context.sample_rate_hz / 2.0;
  const bool by_rate = !limit_hz && nyquist_hz < 9000.0;
  if (by_rate) limit_hz = nyquist_hz;
  if (!limit_hz || *limit_hz >= 0.9 * std::min(nyquist_hz, 22000.0)) {
    if (!by_rate) return;
  }
  const bool spoils_ping = *limit_hz < 9000.0;
  findings.push_back(
      {"band_limited", spoils_ping ? Severity::void_ : Severity::note,
       spoils_ping ? std::vector{Quantity::ping, Quantity::loudness} : std::vector<Quantity>{},
       fmt::format("Nothing is recorded above {}{}. {}", frequency_text(*limit_hz),
                   by_rate ? " (the file's sample rate)" : "",
                   spoils_ping ? "That is a voice path: ping, sharpness, loudness and the high-band level can't be "
                                 "had. Record at 44.1 or 48 kHz without voice processing."
                               : "Ping and ring-down are not touched; the high-band level may be a little low.")});
}

void judge_low_cut(Shots shots, std::vector<Finding>& findings) {
  const auto bands = median_bands(shots, &ChainEvidence::floor_density_db);
  const auto level_at = [&bands](double frequency_hz) {
    const auto k = static_cast<std::size_t>(
        std::lround(std::log2(frequency_hz / kFineBandLowest_hz) * kFineBandsPerOctave));
    return (bands[k - 1] + bands[k] + bands[k + 1]) / 3.0;
  };
  if (bands.size() < 6 * kFineBandsPerOctave) return;
  // A room's floor rises towards low frequencies; a floor that falls is the chain's doing.
  for (const double corner_hz : {80.0, 113.0, 160.0, 226.0}) {
    const double fall_db = level_at(corner_hz) - level_at(corner_hz / 2.0);
    if (fall_db < kLowCutSlope_db) continue;
    findings.push_back(
        {"low_cut", Severity::caution, {Quantity::hum, Quantity::levels},
         fmt::format("The background falls by {:.0f} dB per octave below about {}: a low-cut filter is on. Hum is a "
                     "lower bound. Switch the filter off, or use a recorder without one.",
                     fall_db, frequency_text(corner_hz))});
    return;
  }
}

/// How many of the steady tones are multiples of `mains_hz`.
int multiples_of(const std::vector<double>& tones_hz, double mains_hz) {
  return static_cast<int>(std::ranges::count_if(tones_hz, [mains_hz](double tone_hz) {
    const double order = std::round(tone_hz / mains_hz);
    return order >= 1.0 && order <= 10.0 &&
           std::abs(tone_hz / (order * mains_hz) - 1.0) < kRateTolerance;
  }));
}

void judge_rate_tag(const std::vector<double>& steady_hz, std::vector<Finding>& findings) {
  constexpr int kEnough = 2;
  if (multiples_of(steady_hz, 50.0) >= kEnough || multiples_of(steady_hz, 60.0) >= kEnough) return;
  for (const double mains_hz : {50.0, 60.0}) {
    for (const double factor : {kRateError, 1.0 / kRateError}) {
      if (multiples_of(steady_hz, mains_hz * factor) < kEnough) continue;
      findings.push_back(
          {"rate_tag_doubtful", Severity::caution, {Quantity::tones, Quantity::ring_down},
           fmt::format("A steady hum sits at multiples of {:.1f} Hz, where mains at {:.0f} Hz would be with the sample "
                       "rate off by 8.8 % (44.1 against 48 kHz): frequencies and times may be off as much. Record "
                       "again, or correct the file's sample rate.",
                       mains_hz * factor, mains_hz)});
      return;
    }
  }
}

/// Tones that at least half of the shots (and two, if there are two) heard before the shot.
std::vector<double> common_steady_hz(Shots shots) {
  std::vector<double> common;
  for (const auto& shot : shots) {
    for (const double tone_hz : shot.steady_hz) {
      const auto near = [tone_hz](double other_hz) { return std::abs(other_hz / tone_hz - 1.0) < 0.01; };
      if (std::ranges::any_of(common, near)) continue;
      const auto seen = static_cast<std::size_t>(std::ranges::count_if(
          shots, [&near](const ChainEvidence& other) { return std::ranges::any_of(other.steady_hz, near); }));
      if (2 * seen >= shots.size() && (seen >= 2 || shots.size() == 1)) common.push_back(tone_hz);
    }
  }
  std::ranges::sort(common);
  return common;
}

void report_steady(const std::vector<double>& steady_hz, std::vector<Finding>& findings) {
  if (steady_hz.empty()) return;
  std::string list;
  for (std::size_t k = 0; k < steady_hz.size() && k < 6; ++k) {
    list += (k == 0 ? "" : ", ") + frequency_text(steady_hz[k]);
  }
  findings.push_back({"steady_tone", Severity::note, {},
                      fmt::format("A steady tone sounds all the time ({}): mains hum, a fan or the like. It was left "
                                  "out of the tones and of hum and ping.",
                                  list)});
}

void judge_wind(Shots shots, ChainFindings& all) {
  std::vector<double> floors;
  for (const auto& shot : shots) {
    if (shot.floor_low_db) floors.push_back(*shot.floor_low_db);
  }
  if (floors.size() < 3) return;
  const double usual = signal::upper_median(floors);
  for (std::size_t k = 0; k < shots.size(); ++k) {
    if (!shots[k].floor_low_db || *shots[k].floor_low_db - usual < kWindRise_db) continue;
    all.per_shot[k].push_back(
        {"wind", Severity::caution, {Quantity::hum, Quantity::levels},
         fmt::format("Below 100 Hz the background before this shot is {:.0f} dB above the usual: wind or handling. "
                     "Leave the shot out, or use a foam screen.",
                     *shots[k].floor_low_db - usual)});
  }
}

}  // namespace

ChainFindings chain_findings(Shots shots, const ChainContext& context) {
  ChainFindings all;
  all.per_shot.resize(shots.size());
  if (shots.empty()) return all;
  judge_limiter(shots, all.recording);
  judge_gain(shots, all);
  judge_bandwidth(shots, context, all.recording);
  judge_low_cut(shots, all.recording);
  const auto steady_hz = common_steady_hz(shots);
  report_steady(steady_hz, all.recording);
  judge_rate_tag(steady_hz, all.recording);
  judge_wind(shots, all);
  return all;
}

}  // namespace ringfall::shot
