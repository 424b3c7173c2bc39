// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/ring_score.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/check.h"

namespace ringfall::shot {
namespace {

/// 2^((L-40)/10) = (p^2/p0^2)^(log10 2) / 16; the threshold 0.5 is 30 dB.
constexpr double kFloorSone = 0.5;
constexpr double kUnit_s = 0.02;
constexpr double kTop_s = 4.0;
/// A tone of kFaintRing_s that nothing points at makes it no score when it could have moved the score by this much: at a
/// floor of 45 dB one could by 2.3 even without a bow.
constexpr double kHiddenMatters = 2.5;
/// Where a refused line points at a tone, this much is enough: beside nothing heard, and beside tones heard.
constexpr double kDoubtMatters = 0.3;
constexpr double kDoubtBesideTonesMatters = 1.0;

/// The family's tones as mean squares re (20 uPa)^2 and their energy decays.
struct Voices {
  std::vector<double> square, decay_per_s;

  double sone_like(double t) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < square.size(); ++i) sum += square[i] * std::exp(-decay_per_s[i] * t);
    return std::max(0.0, std::pow(sum, std::numbers::ln2 / std::numbers::ln10) / 16.0 - kFloorSone);
  }
};

Voices voices_of(std::span<const Tone> tones, ToneFamily family) {
  Voices voices;
  for (const Tone& tone : tones) {
    if (tone.family != family) continue;
    check(tone.ring_time_s > 0, "a tone rings for some time");
    voices.square.push_back(std::pow(10.0, 0.1 * tone.level_db));
    voices.decay_per_s.push_back(6.0 * std::numbers::ln10 / tone.ring_time_s);
  }
  return voices;
}

/// The instant within 0 .. end where the tones fall below 30 dB: L(t) only falls.
double audible_until(const Voices& voices, double end) {
  if (voices.sone_like(end) > 0) return end;
  double loud = 0.0, quiet = end;
  for (int i = 0; i < 40; ++i) {
    const double middle = 0.5 * (loud + quiet);
    (voices.sone_like(middle) > 0 ? loud : quiet) = middle;
  }
  return loud;
}

/// Has the line been read as one of the tones after all (a pooled search knows more)?
bool known(std::span<const Tone> tones, const Tone& line) {
  constexpr double kSamePitch = 0.03;
  return std::any_of(tones.begin(), tones.end(), [&](const Tone& tone) {
    return std::abs(tone.frequency_hz - line.frequency_hz) < kSamePitch * line.frequency_hz;
  });
}

/// The score of the tones with every refused line beside them and the worst of what could hide.
std::optional<double> most_of(ToneFamily family, std::span<const Tone> tones, const TailTones& heard, const MeasureSettings& settings) {
  std::vector<Tone> together(tones.begin(), tones.end());
  for (const Tone& line : heard.doubtful) {
    if (line.family == family && !known(tones, line)) together.push_back(line);
  }
  std::optional<double> most;
  for (const Tone& hidden : heard.hidden) {
    if (hidden.family != family) continue;
    together.push_back(hidden);
    most = std::max(most.value_or(0.0), score_of(ring_amount(together, family, settings)));
    together.pop_back();
  }
  return most;
}

}  // namespace

double ring_amount(std::span<const Tone> tones, ToneFamily family, const MeasureSettings& settings,
                   std::optional<double> until_s) {
  const Voices voices = voices_of(tones, family);
  const double end = std::min(settings.tail_limit_s, until_s.value_or(settings.tail_limit_s)) -
                     tail_start_s(family, settings);
  if (voices.square.empty() || end <= 0 || voices.sone_like(0.0) <= 0) return 0.0;
  // Simpson's rule up to where the integrand ends: smooth there, so 64 steps are exact to 1e-6 for all ring times >= 25 ms.
  constexpr int kSteps = 64;
  const double last = audible_until(voices, end);
  double sum = voices.sone_like(0.0) + voices.sone_like(last);
  for (int i = 1; i < kSteps; ++i) sum += (i % 2 == 1 ? 4.0 : 2.0) * voices.sone_like(last * i / kSteps);
  return sum * last / (3.0 * kSteps);
}

double score_of(double ring_amount) {
  return std::clamp(10.0 * std::log2(1.0 + ring_amount / kUnit_s) / std::log2(1.0 + kTop_s / kUnit_s), 0.0, 10.0);
}

RingScore ring_score(ToneFamily family, std::span<const Tone> tones, const TailTones& heard,
                     const MeasureSettings& settings) {
  check(family != ToneFamily::mid, "hum and ping are scored, mid is shown");
  RingScore result;
  const bool hum = family == ToneFamily::hum;
  const auto faintest_db = hum ? heard.faintest_hum_db : heard.faintest_ping_db;
  // Lengths are in whole samples: half a millisecond's grace.
  const double clean_s = heard.tail_end_s - tail_start_s(family, settings) + 0.0005;
  result.tail_too_short = clean_s < (hum ? settings.hum_tail_needed_s : settings.ping_tail_needed_s);

  const Tone* strongest = nullptr;
  double square = 0.0;
  for (const Tone& tone : tones) {
    if (tone.family != family) continue;
    square += std::pow(10.0, 0.1 * tone.level_db);
    if (!strongest || tone.level_db > strongest->level_db) strongest = &tone;
  }
  const double amount = ring_amount(tones, family, settings);
  const double own = score_of(amount);
  result.at_most = most_of(family, tones, heard, settings);
  if (result.tail_too_short || !faintest_db) return result;

  const auto gain_by = [&](const Tone& hidden) {
    std::vector<Tone> together(tones.begin(), tones.end());
    together.push_back(hidden);
    return score_of(ring_amount(together, family, settings)) - own;
  };
  result.masked = gain_by({0.0, *faintest_db, kFaintRing_s, 0.0, family}) >= kHiddenMatters;
  const double doubt_matters = own < kDoubtMatters ? kDoubtMatters : kDoubtBesideTonesMatters;
  for (const Tone& line : heard.doubtful) {
    if (line.family == family && !known(tones, line)) result.masked |= gain_by(line) > doubt_matters;
  }
  if (strongest) result.parts = {10.0 * std::log10(square), strongest->ring_time_s, strongest->frequency_hz};
  if (amount > 0)
    result.mostly_extrapolated = ring_amount(tones, family, settings, heard.tail_end_s) < 0.5 * amount;
  if (!result.masked) result.score = own;
  return result;
}

}  // namespace ringfall::shot
