// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace ringfall::signal {

/// hann: narrow, side lobes -31.5 dB falling 18 dB per octave. blackman_harris: four terms, all side lobes below -92 dB, for
/// a weak tone beside a strong one.
enum class WindowShape { hann, blackman_harris };

/// The window in its periodic form (w[n] = w[N - n], the form for spectra): sum over terms of
/// (-1)^i a_i cos(2 pi i n / N). count >= 1.
/// Source: [Harris1978] eq. (25), (33), table I.  Tests: stft_test.cpp against that table.
std::vector<double> make_window(WindowShape shape, std::size_t count);

/// Mean of the window: what a sine's amplitude shrinks by.
double coherent_gain(std::span<const double> window);

/// Equivalent noise bandwidth in bins: N sum w^2 / (sum w)^2. 1.5 for hann, 2.0 for blackman_harris.
double noise_bandwidth_bins(std::span<const double> window);

}  // namespace ringfall::signal
