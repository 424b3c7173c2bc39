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
constexpr std::size_t kEqualShots = 3;
constexpr double kEqualPeaks_db = 0.03;        // three peaks this near by chance: once in 2000 recordings (spread 0.5 dB)
constexpr double kUnequalTails_db = 0.2;       // one sound copied has equal tails too
constexpr double kGainDip_db = -1.8;
constexpr double kSingleGainDip_db = -3.0;     // one shot alone must show it plainly
constexpr double kCodedTop_db = -0.3;
constexpr double kVoicePath_hz = 9000.0;
constexpr double kNarrow_hz = 14000.0;         // a cut at 11 kHz takes 3 dB off an edge's peak
constexpr double kCut_db = 30.0;               // fall within a sixth of an octave that no bow or room has
constexpr double kLowCutSlope_db = 10.0;       // over the octave below the corner; a 2nd-order cut has 12
constexpr double kLowCutOctave_db = 2.5;       // where the place's own floor rises by half of that, two octaves tell
constexpr double kLowCutTwo_db = 8.0;
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
  const bool equal = peaks.size() >= kEqualShots && tails.size() >= kEqualShots && spread(peaks) < kEqualPeaks_db && spread(tails) > kUnequalTails_db;
  const bool held = peaks.size() >= kLimiterShots && tails.size() >= kLimiterShots && spread(peaks) < kLimiterPeakSpread_db &&
                    spread(tails) > kLimiterTailSpread_db;
  if (!equal && !held) return;
  findings.push_back(
      {"limited", Severity::void_, {Quantity::levels, Quantity::loudness, Quantity::ring_down},
       fmt::format("All {} shots peak within {:.2f} dB, as no archer shoots: a limiter holds the peaks down, so levels, loudness and "
                   "ring-down (counted from the peak) can't be told. Turn the limiter off or lower the gain.",
                   peaks.size(), spread(peaks))});
}

/// How far the background sinks under what it was before the shots: median over the shots at each time, the lowest that
/// holds for two frames.
std::optional<double> lowest_over_floor_db(Shots shots) {
  std::size_t frames = 0;
  for (const auto& shot : shots) frames = std::max(frames, shot.over_floor_db.size());
  std::vector<double> medians;
  for (std::size_t k = 0; k < frames; ++k) {
    std::vector<double> column;
    for (const auto& shot : shots) {
      if (k < shot.over_floor_db.size()) column.push_back(static_cast<double>(shot.over_floor_db[k]));
    }
    if (2 * column.size() < shots.size()) break;
    medians.push_back(signal::upper_median(std::move(column)));
  }
  std::optional<double> lowest;
  for (std::size_t k = 0; k + 1 < medians.size(); ++k) {
    const double held = std::max(medians[k], medians[k + 1]);
    if (!lowest || held < *lowest) lowest = held;
  }
  return lowest;
}

void judge_gain(Shots shots, ChainFindings& all) {
  const auto lowest = lowest_over_floor_db(shots);
  if (!lowest || *lowest > (shots.size() >= 3 ? kGainDip_db : kSingleGainDip_db)) return;
  all.recording.push_back(
      {"gain_not_constant", Severity::void_,
       {Quantity::levels, Quantity::loudness, Quantity::ring_down, Quantity::hum, Quantity::ping},
       fmt::format("After a shot the background is {:.1f} dB lower than before it, which no bow can do: an automatic gain "
                   "control turns the microphone down. Levels and ring times mean nothing until it is off.",
                   -*lowest)});
}

/// Coding with losses rounds flat tops and throws them over the ceiling: a peak up there was most likely cut before.
void judge_coded_tops(Shots shots, const ChainContext& context, ChainFindings& all) {
  if (!context.lossy) return;
  for (std::size_t k = 0; k < shots.size(); ++k) {
    if (shots[k].peak_db < kCodedTop_db) continue;
    all.per_shot[k].push_back(
        {"clipped", Severity::void_, {Quantity::levels, Quantity::loudness, Quantity::ring_down},
         fmt::format("The peak is at {:+.1f} dB re full scale in a file coded with losses, which rounds what was cut flat: level, "
                     "loudness, sharpness and ring-down can't be told. Lower the gain, and record as WAV or FLAC.",
                     shots[k].peak_db)});
  }
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
  const bool by_rate = !limit_hz && nyquist_hz < kNarrow_hz;
  if (by_rate) limit_hz = nyquist_hz;
  if (!limit_hz || *limit_hz >= 0.9 * std::min(nyquist_hz, 22000.0)) {
    if (!by_rate) return;
  }
  using enum Quantity;
  Finding finding{"band_limited", Severity::note, {}, fmt::format("Nothing is recorded above {}{}. ", frequency_text(*limit_hz),
                                                                  by_rate ? " (the file's sample rate)" : "")};
  if (*limit_hz < kVoicePath_hz) {
    finding.severity = Severity::void_;
    finding.voids = {ping, levels, loudness, ring_down};
    finding.sentence += "That is a voice path: most of the edge is missing, so levels, loudness, sharpness, ring-down and ping can't be "
                        "had. Record at 44.1 or 48 kHz without voice processing.";
  } else if (*limit_hz < kNarrow_hz) {
    finding.severity = Severity::caution;
    finding.voids = {levels, loudness, ring_down};
    finding.sentence += "A part of the edge is missing: peak and loudness are too low and the early ring-down too long. Record at 44.1 or "
                        "48 kHz.";
  } else {
    finding.sentence += "Ping and ring-down are not touched; the high-band level may be a little low.";
  }
  findings.push_back(std::move(finding));
}

void judge_low_cut(Shots shots, std::vector<Finding>& findings) {
  const auto bands = median_bands(shots, &ChainEvidence::floor_density_db);
  // The middle of half an octave: a steady line (mains, a fan) lifts less than half of its bands.
  const auto level_at = [&bands](double frequency_hz) {
    constexpr std::ptrdiff_t kQuarter = kFineBandsPerOctave / 4;
    const auto k = static_cast<std::ptrdiff_t>(std::lround(std::log2(frequency_hz / kFineBandLowest_hz) * kFineBandsPerOctave));
    const auto first = bands.begin() + std::max<std::ptrdiff_t>(k - kQuarter, 0);
    return signal::upper_median(std::vector<double>(first, bands.begin() + k + kQuarter + 1));
  };
  if (bands.size() < 6 * kFineBandsPerOctave) return;
  // A room's floor rises towards low frequencies; a floor that falls is the chain's doing.
  for (const double corner_hz : {80.0, 113.0, 160.0, 226.0}) {
    const double fall_db = level_at(corner_hz) - level_at(corner_hz / 2.0);
    const double further_db = corner_hz > 100.0 ? level_at(corner_hz / 2.0) - level_at(corner_hz / 4.0) : 0.0;
    const bool both = fall_db >= kLowCutOctave_db && further_db >= kLowCutOctave_db && fall_db + further_db >= kLowCutTwo_db;
    if (fall_db < kLowCutSlope_db && !both) continue;
    findings.push_back(
        {"low_cut", Severity::caution, {Quantity::hum, Quantity::levels, Quantity::ring_down},
         fmt::format("The background falls by {:.0f} dB per octave below about {}: a low-cut filter is on. Hum is a "
                     "lower bound, and the unweighted ring-down is that of what is left. Switch the filter off, or use a recorder without one.",
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
  judge_coded_tops(shots, context, all);
  judge_bandwidth(shots, context, all.recording);
  judge_low_cut(shots, all.recording);
  const auto steady_hz = common_steady_hz(shots);
  report_steady(steady_hz, all.recording);
  judge_rate_tag(steady_hz, all.recording);
  judge_wind(shots, all);
  return all;
}

}  // namespace ringfall::shot
