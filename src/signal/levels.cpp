// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/levels.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "base/check.h"
#include "base/units.h"

namespace ringfall::signal {
namespace {

/// Eight running sums: one alone waits for itself at every sample.
double sum_of_squares(std::span<const double> values) {
  std::array<double, 8> sums{};
  std::size_t n = 0;
  for (; n + sums.size() <= values.size(); n += sums.size()) {
    for (std::size_t lane = 0; lane < sums.size(); ++lane) sums[lane] += values[n + lane] * values[n + lane];
  }
  for (; n < values.size(); ++n) sums[0] += values[n] * values[n];
  double sum = 0.0;
  for (const double part : sums) sum += part;
  return sum;
}

/// Share of a sample's p^2 that the averager takes up over one sample, exact for p^2 constant over the sample.
double uptake(double sample_rate_hz, TimeWeighting weighting) {
  check(sample_rate_hz > 0.0, "a sample rate is positive");
  return -std::expm1(-1.0 / (sample_rate_hz * time_constant_s(weighting)));
}

}  // namespace

std::optional<double> mean_square_level_db(double mean_square_pa2) {
  if (!(mean_square_pa2 > 0.0)) return std::nullopt;
  return power_to_db(mean_square_pa2 / (kReferencePressure_pa * kReferencePressure_pa));
}

std::optional<double> equivalent_level_db(std::span<const double> pressure_pa) {
  if (pressure_pa.empty()) return std::nullopt;
  return mean_square_level_db(sum_of_squares(pressure_pa) / static_cast<double>(pressure_pa.size()));
}

std::optional<double> exposure_level_db(std::span<const double> pressure_pa, double sample_rate_hz) {
  check(sample_rate_hz > 0.0, "a sample rate is positive");
  return mean_square_level_db(sum_of_squares(pressure_pa) / sample_rate_hz);
}

std::optional<double> exposure_level_of_mean_square_db(std::span<const double> mean_square_pa2, double rate_hz) {
  check(rate_hz > 0.0, "a rate is positive");
  double sum = 0.0;
  for (const double value : mean_square_pa2) sum += value;
  return mean_square_level_db(sum / rate_hz);
}

std::optional<double> peak_level_db(std::span<const double> pressure_pa) {
  double highest = 0.0;
  for (const double value : pressure_pa) highest = std::max(highest, std::abs(value));
  return mean_square_level_db(highest * highest);
}

double time_constant_s(TimeWeighting weighting) { return weighting == TimeWeighting::fast ? 0.125 : 1.0; }

std::vector<std::optional<double>> time_weighted_trace(std::span<const double> pressure_pa, double sample_rate_hz,
                                                       TimeWeighting weighting, double step_s) {
  const double share = uptake(sample_rate_hz, weighting);
  check(step_s > 0.0, "a trace has a step");
  std::vector<std::optional<double>> trace;
  double average = 0.0;
  double next = 0.0;  // sample count at which the next value is due
  for (std::size_t n = 0; n < pressure_pa.size(); ++n) {
    average += share * (pressure_pa[n] * pressure_pa[n] - average);
    if (static_cast<double>(n) >= next) {
      trace.push_back(mean_square_level_db(average));
      next = static_cast<double>(trace.size()) * step_s * sample_rate_hz;
    }
  }
  return trace;
}

std::optional<TimeWeightedMaximum> time_weighted_maximum(std::span<const double> pressure_pa, double sample_rate_hz,
                                                         TimeWeighting weighting) {
  const double share = uptake(sample_rate_hz, weighting);
  double average = 0.0;
  double highest = 0.0;
  std::size_t place = 0;
  for (std::size_t n = 0; n < pressure_pa.size(); ++n) {
    average += share * (pressure_pa[n] * pressure_pa[n] - average);
    if (average > highest) {
      highest = average;
      place = n;
    }
  }
  const auto level_db = mean_square_level_db(highest);
  if (!level_db) return std::nullopt;
  return TimeWeightedMaximum{*level_db, static_cast<double>(place + 1) / sample_rate_hz};
}

}  // namespace ringfall::signal
