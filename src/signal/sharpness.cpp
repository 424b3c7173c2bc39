// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/sharpness.h"

#include <array>
#include <cmath>

namespace ringfall::signal {
namespace {

// So that the reference sound has 1.00 acum; signal.Sharpness.ReferenceSound fails where it has not.
constexpr double kFactor = 0.1078;

/// g(z) z at the places of N'.
const SpecificLoudness& weights() {
  static const SpecificLoudness table = [] {
    SpecificLoudness w{};
    for (std::size_t i = 0; i < w.size(); ++i) {
      const double z = 0.1 * static_cast<double>(i + 1);
      w[i] = z * (z <= 15.8 ? 1.0 : 0.15 * std::exp(0.42 * (z - 15.8)) + 0.85);
    }
    return w;
  }();
  return table;
}

}  // namespace

double sharpness_factor() { return kFactor; }

std::optional<double> sharpness_acum(const SpecificLoudness& specific_sone_per_bark) {
  const SpecificLoudness& w = weights();
  double moment = 0.0, sum = 0.0;
  for (std::size_t i = 0; i < w.size(); ++i) {
    moment += w[i] * specific_sone_per_bark[i];
    sum += specific_sone_per_bark[i];
  }
  if (!(sum > 0.0)) return std::nullopt;
  return kFactor * moment / sum;
}

}  // namespace ringfall::signal
