// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/critical_band.h"

#include <cmath>

#include "base/check.h"

namespace ringfall::signal {

double critical_bandwidth_hz(double centre_hz) {
  check(centre_hz > 0, "a band has a positive centre");
  const double khz = centre_hz / 1000.0;
  return 25.0 + 75.0 * std::pow(1.0 + 1.4 * khz * khz, 0.69);
}

FrequencyBand critical_band(double centre_hz) {
  const double width = critical_bandwidth_hz(centre_hz);
  const double low = centre_hz < 500.0 ? centre_hz - 0.5 * width
                                       : 0.5 * (std::sqrt(width * width + 4.0 * centre_hz * centre_hz) - width);
  return {low, low + width};
}

FrequencyBand critical_band_below(double centre_hz) {
  const double f = centre_hz;
  const double low = f < 171.4    ? 20.0
                     : f <= 1600.0 ? -149.5 + 1.001 * f - 6.90e-5 * f * f
                                   : 6.8 + 0.806 * f - 8.20e-6 * f * f;
  return {low, critical_band(f).low_hz};
}

FrequencyBand critical_band_above(double centre_hz) {
  const double f = centre_hz;
  const double high = f <= 1600.0 ? 149.5 + 1.035 * f + 7.70e-5 * f * f : 3.3 + 1.215 * f + 2.16e-5 * f * f;
  return {critical_band(f).high_hz, high};
}

double tone_proximity_hz(double frequency_hz) {
  check(frequency_hz > 0, "a tone has a positive frequency");
  return 21.0 * std::pow(10.0, 1.2 * std::pow(std::abs(std::log10(frequency_hz / 212.0)), 1.8));
}

}  // namespace ringfall::signal
