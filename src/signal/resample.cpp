// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/resample.h"

#include <soxr.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "base/check.h"
#include "base/failure.h"

namespace ringfall::signal {

std::vector<double> resample(std::span<const double> x, double from_hz, double to_hz) {
  check(from_hz > 0.0 && to_hz > 0.0, "sample rates are above 0");
  if (x.empty() || from_hz == to_hz) return {x.begin(), x.end()};

  const double exact = static_cast<double>(x.size()) * to_hz / from_hz;
  std::vector<double> out(std::max<std::size_t>(1, static_cast<std::size_t>(std::llround(exact))));
  const soxr_io_spec_t io = soxr_io_spec(SOXR_FLOAT64_I, SOXR_FLOAT64_I);
  const soxr_quality_spec_t quality = soxr_quality_spec(SOXR_VHQ, 0);
  std::size_t done = 0;
  // One call with the whole input also tells the end: the resampler fills in what lies in its delay.
  const soxr_error_t error = soxr_oneshot(from_hz, to_hz, 1, x.data(), x.size(), nullptr, out.data(), out.size(), &done,
                                          &io, &quality, nullptr);
  if (error) throw InternalError(std::string("resampling: ") + error);
  // The library's own length rule differs by up to a sample: past its end is silence.
  std::fill(out.begin() + static_cast<std::ptrdiff_t>(done), out.end(), 0.0);
  return out;
}

}  // namespace ringfall::signal
