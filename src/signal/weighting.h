// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <span>

namespace ringfall::signal {

/// Frequency weightings of IEC 61672-1:2013. z is flat.
enum class FrequencyWeighting { a, c, z };

/// Pole frequencies of the A and C weighting in Hz (IEC 61672-1:2013 Annex E), ascending: 20.599, 107.65, 737.86
/// and 12194.2, derived from the corner frequencies as the annex does, not typed in.
struct WeightingPoles {
  double f1_hz = 0.0, f2_hz = 0.0, f3_hz = 0.0, f4_hz = 0.0;
};
const WeightingPoles& weighting_poles();

/// Complex response of the causal analogue weighting at j 2 pi f, magnitude 1 (0 dB) at 1 kHz.
/// C: (jf)^2 / ((jf + f1)^2 (jf + f4)^2); A: C times (jf)^2 / ((jf + f2)(jf + f3)); each over its magnitude at 1 kHz.
/// frequency_hz >= 0; 0 at 0 Hz for A and C. About 10 ns.
/// Source: IEC 61672-1:2013 Annex E, formulae (E.1) to (E.6). Tested: signal.Weighting.*
std::complex<double> weighting_response(FrequencyWeighting weighting, double frequency_hz);

/// 20 lg |response|, dB re 1 kHz; -infinity at 0 Hz for A and C. Agrees with IEC 61672-1:2013 Table 3 to its
/// rounding (0.05 dB) at the exact mid-band frequencies 10^(n/10).
double weighting_db(FrequencyWeighting weighting, double frequency_hz);

/// Multiplies the bins of a spectrum, bin k at k * step_hz, by the response: the same, some times faster.
void apply_weighting(FrequencyWeighting weighting, double step_hz, std::span<std::complex<double>> bins);

}  // namespace ringfall::signal
