// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <cstddef>
#include <span>

namespace ringfall::signal {

/// Discrete Fourier transforms of fixed length. Plans are made once per length and kept (FFTW_ESTIMATE:
/// bit-reproducible); any thread may use any length at any time. No scaling unless said.

/// X[k] = sum x[n] e^{-j 2 pi k n / N}, k = 0 .. N/2. `in` has N >= 1 values, `out` N/2 + 1.
void fft_real(std::span<const double> in, std::span<std::complex<double>> out);

/// x[n] = (1/N) sum X[k] e^{+j 2 pi k n / N} for the N/2 + 1 bins of a real signal: undoes fft_real.
/// `in` has N/2 + 1 values and is left unchanged, `out` N.
void ifft_real(std::span<const std::complex<double>> in, std::span<double> out);

/// Complex transforms of N values, forward as above, inverse with 1/N. In and out may be the same memory.
void fft_complex(std::span<const std::complex<double>> in, std::span<std::complex<double>> out);
void ifft_complex(std::span<const std::complex<double>> in, std::span<std::complex<double>> out);

/// The smallest length >= n of the form 2^a 3^b 5^c, which FFTW does fast. n >= 1.
std::size_t fast_length(std::size_t n);

}  // namespace ringfall::signal
