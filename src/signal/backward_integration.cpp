// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/backward_integration.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/check.h"

namespace ringfall::signal {

std::vector<double> backward_integration_db(std::span<const double> mean_square, double rate_hz, double tail) {
  check(rate_hz > 0.0 && tail >= 0.0, "backward integration has a rate and no negative tail");
  std::vector<double> curve(mean_square.size());
  double sum = tail * rate_hz;
  for (std::size_t n = mean_square.size(); n-- > 0;) {
    sum += mean_square[n];
    curve[n] = sum;
  }
  const auto end = std::find_if(curve.begin(), curve.end(), [](double value) { return !(value > 0.0); });
  curve.erase(end, curve.end());
  const double whole = curve.empty() ? 1.0 : curve.front();
  // The natural logarithm is the quicker one, and there are a thousand points a curve.
  for (double& value : curve) value = 10.0 / std::numbers::ln10 * std::log(value / whole);
  return curve;
}

std::optional<DecayLine> fit_decay(std::span<const double> curve_db, double rate_hz, double upper_db,
                                   double lower_db) {
  check(rate_hz > 0.0 && upper_db > lower_db, "a decay is fitted downwards");
  std::size_t begin = 0;
  while (begin < curve_db.size() && curve_db[begin] > upper_db) ++begin;
  std::size_t end = begin;
  while (end < curve_db.size() && curve_db[end] >= lower_db) ++end;
  if (end == curve_db.size() || end - begin < 3) return std::nullopt;

  const auto count = static_cast<double>(end - begin);
  const double middle = (count - 1.0) / 2.0;
  double mean_db = 0.0;
  for (std::size_t n = begin; n < end; ++n) mean_db += curve_db[n];
  mean_db /= count;
  double cross = 0.0;
  double spread = 0.0;
  for (std::size_t n = begin; n < end; ++n) {
    const double level_db = curve_db[n] - mean_db;
    cross += (static_cast<double>(n - begin) - middle) * level_db;
    spread += level_db * level_db;
  }
  if (!(cross < 0.0)) return std::nullopt;
  const double time_spread = count * (count * count - 1.0) / 12.0;
  const double slope = cross / time_spread;
  DecayLine line;
  line.begin_s = static_cast<double>(begin) / rate_hz;
  line.end_s = static_cast<double>(end - 1) / rate_hz;
  line.slope_db_per_s = slope * rate_hz;
  line.level_at_begin_db = mean_db - slope * middle;
  line.nonlinearity_permille = std::max(0.0, 1000.0 * (1.0 - slope * cross / spread));
  return line;
}

}  // namespace ringfall::signal
