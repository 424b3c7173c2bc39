// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <span>

namespace ringfall::signal {

/// Where a sound's energy rises most steeply.
struct Rise {
  double position = 0.0;  ///< in samples from the span's start, sub-sample: the sound starts between the sample before and it
  double rise_db = 0.0;   ///< mean power of the millisecond after over that of the millisecond before
};

/// The steepest rise of short-time energy among the indices from .. to - 1 of x, in two steps.
/// 1. The n where 10 lg(power of the millisecond from n / power of the millisecond before n) is highest; where the millisecond
///    after is fainter than a tenth of the loudest one searched, twice what it lacks in dB is held against it,
///    so a faint click in silence does not win over the edge itself.
/// 2. Within 1 ms of that the n that splits the 4 ms around into the two likeliest stretches of noise, one faint
///    and one loud: lowest (n - a) ln(var before) + (b - n) ln(var after). This keeps the floor's chance out of the answer.
/// In   x: any unit, best without its rumble (a difference of samples); at least 3 ms before `from` and 2 ms after
///      `to`, else silence is assumed there; rate_hz 4000 .. 192000; `floor`: mean square below which a rise means nothing, > 0.
/// Accuracy: docs/measures/shots.md. Cost: about 20 ns a sample.
/// Source: step 1 common practice, no source; step 2 is the variance form of Akaike's criterion used for seismic
/// arrivals (Maeda 1985, from memory).  Tests: onset_test.cpp.
Rise steepest_rise(std::span<const float> x, double rate_hz, std::size_t from, std::size_t to, double floor);

}  // namespace ringfall::signal
