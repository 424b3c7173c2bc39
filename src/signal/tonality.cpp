// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/tonality.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "base/units.h"

namespace ringfall::signal {
namespace {

constexpr double kLargestToneShare = 0.15;  // of the critical band
constexpr double kLowBandEnds_hz = 171.4;

bool in_range(double tone_hz) { return tone_hz >= kLowestToneByEcma_hz && tone_hz <= kHighestToneByEcma_hz; }

bool covers(std::span<const double> spectrum, double bin_hz, FrequencyBand band) {
  return !spectrum.empty() && band.low_hz >= 0 &&
         band.high_hz <= (static_cast<double>(spectrum.size()) - 0.5) * bin_hz;
}

}  // namespace

double power_between(std::span<const double> spectrum, double bin_hz, FrequencyBand band) {
  check(bin_hz > 0, "bins have a width");
  // In bins, with bin k covering k .. k + 1.
  const double low = std::max(0.0, band.low_hz / bin_hz + 0.5);
  const double high = std::min(static_cast<double>(spectrum.size()), band.high_hz / bin_hz + 0.5);
  double power = 0;
  for (double bin = std::floor(low); bin < high; bin += 1.0) {
    const double share = std::min(bin + 1.0, high) - std::max(bin, low);
    power += share * spectrum[static_cast<std::size_t>(bin)];
  }
  return power;
}

std::optional<double> tone_to_noise_ratio_db(std::span<const double> spectrum, double bin_hz, double tone_hz,
                                             FrequencyBand tone) {
  if (!in_range(tone_hz)) return std::nullopt;
  const FrequencyBand band = critical_band(tone_hz);
  if (!covers(spectrum, bin_hz, band)) return std::nullopt;
  if (!(tone.width_hz() > 0) || tone.low_hz < band.low_hz || tone.high_hz > band.high_hz ||
      tone.width_hz() > kLargestToneShare * band.width_hz())
    return std::nullopt;
  const double in_tone = power_between(spectrum, bin_hz, tone);
  const double rest = power_between(spectrum, bin_hz, band) - in_tone;
  if (!(in_tone > 0) || !(rest > 0)) return std::nullopt;
  return power_to_db(in_tone / (rest * band.width_hz() / (band.width_hz() - tone.width_hz())));
}

std::optional<double> prominence_ratio_db(std::span<const double> spectrum, double bin_hz, double tone_hz) {
  if (!in_range(tone_hz)) return std::nullopt;
  const FrequencyBand below = critical_band_below(tone_hz), above = critical_band_above(tone_hz);
  if (!covers(spectrum, bin_hz, below) || !covers(spectrum, bin_hz, above)) return std::nullopt;
  const double middle = power_between(spectrum, bin_hz, critical_band(tone_hz));
  double low = power_between(spectrum, bin_hz, below);
  if (tone_hz <= kLowBandEnds_hz) low *= 100.0 / below.width_hz();
  const double neighbours = 0.5 * (low + power_between(spectrum, bin_hz, above));
  if (!(middle > 0) || !(neighbours > 0)) return std::nullopt;
  return power_to_db(middle / neighbours);
}

std::optional<double> prominent_tone_to_noise_db(double tone_hz) {
  if (!in_range(tone_hz)) return std::nullopt;
  return 8.0 + 8.33 * std::max(0.0, std::log10(1000.0 / tone_hz));
}

std::optional<double> prominent_prominence_ratio_db(double tone_hz) {
  if (!in_range(tone_hz)) return std::nullopt;
  return 9.0 + 10.0 * std::max(0.0, std::log10(1000.0 / tone_hz));
}

}  // namespace ringfall::signal
