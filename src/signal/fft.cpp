// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/fft.h"

#include <fftw3.h>

#include <cmath>
#include <cstring>
#include <map>
#include <memory>
#include <mutex>
#include <numbers>
#include <utility>
#include <vector>

#include "base/check.h"

namespace ringfall::signal {
namespace {

enum class Kind { real_forward, real_inverse, complex_forward, complex_inverse };

/// In plain doubles: std::complex guards its products against infinities that cannot occur here.
struct Plain {
  double re = 0.0, im = 0.0;
};

struct FreeAligned {
  void operator()(void* memory) const { fftw_free(memory); }
};
template <class T>
using Aligned = std::unique_ptr<T[], FreeAligned>;

Aligned<double> aligned_reals(std::size_t n) { return Aligned<double>(fftw_alloc_real(n)); }
Aligned<fftw_complex> aligned_complexes(std::size_t n) {
  return Aligned<fftw_complex>(fftw_alloc_complex(n));
}

/// Plans live as long as the program: a handful of lengths are ever used. The planner is the one part of FFTW
/// that is not thread-safe, hence the lock; executing a plan is.
struct PlanCache {
  std::mutex lock;
  std::map<std::pair<Kind, std::size_t>, fftw_plan> plans;
  std::map<std::size_t, std::vector<Plain>> turns;

  ~PlanCache() {
    for (auto& [key, plan] : plans) fftw_destroy_plan(plan);
    fftw_cleanup();
  }
};

PlanCache& plan_cache() {
  static PlanCache cache;
  return cache;
}

fftw_plan plan_for(Kind kind, std::size_t n) {
  PlanCache& cache = plan_cache();
  const std::scoped_lock hold(cache.lock);
  auto& plan = cache.plans[{kind, n}];
  if (plan == nullptr) {
    const auto reals = aligned_reals(n);
    const auto bins = aligned_complexes(n);
    const auto more_bins = aligned_complexes(n);
    const int length = static_cast<int>(n);
    // For aligned memory, which the vector instructions want: twice as fast to run, thrice as fast to plan
    // (docs/measures/speed.md).
    const unsigned flags = FFTW_ESTIMATE | FFTW_PRESERVE_INPUT;
    switch (kind) {
      case Kind::real_forward:
        plan = fftw_plan_dft_r2c_1d(length, reals.get(), bins.get(), flags);
        break;
      case Kind::real_inverse:
        plan = fftw_plan_dft_c2r_1d(length, bins.get(), reals.get(), flags);
        break;
      case Kind::complex_forward:
        plan = fftw_plan_dft_1d(length, bins.get(), more_bins.get(), FFTW_FORWARD, flags);
        break;
      case Kind::complex_inverse:
        plan = fftw_plan_dft_1d(length, bins.get(), more_bins.get(), FFTW_BACKWARD, flags);
        break;
    }
    check(plan != nullptr, "FFTW made no plan");
  }
  return plan;
}

/// e^{-j 2 pi k / n}, k = 0 .. n / 4, for even n.
std::span<const Plain> turns_of(std::size_t n) {
  PlanCache& cache = plan_cache();
  const std::scoped_lock hold(cache.lock);
  auto& turns = cache.turns[n];
  if (turns.empty()) {
    turns.resize(n / 4 + 1);
    for (std::size_t k = 0; k < turns.size(); ++k) {
      const double angle = 2.0 * std::numbers::pi * static_cast<double>(k) / static_cast<double>(n);
      turns[k] = {std::cos(angle), -std::sin(angle)};
    }
  }
  return turns;
}

double* raw(double* values) { return values; }
fftw_complex* raw(std::complex<double>* values) { return reinterpret_cast<fftw_complex*>(values); }

Aligned<double> aligned(const double*, std::size_t n) { return aligned_reals(n); }
Aligned<fftw_complex> aligned(const std::complex<double>*, std::size_t n) { return aligned_complexes(n); }

bool is_aligned(const void* values) {
  return fftw_alignment_of(static_cast<double*>(const_cast<void*>(values))) == 0;
}

/// Runs a plan on the callers' memory; what is not aligned there goes through a copy, so that the same plan, and with it
/// the same rounding, serves everyone.
template <class In, class Out, class Execute>
void run(std::span<const In> in, std::span<Out> out, const Execute& execute) {
  using RawIn = decltype(raw(std::declval<In*>()));
  using RawOut = decltype(raw(std::declval<Out*>()));
  decltype(aligned(in.data(), 0)) in_copy;
  decltype(aligned(out.data(), 0)) out_copy;
  // FFTW's interface takes no const; the plans are made to leave their input alone.
  RawIn from = raw(const_cast<In*>(in.data()));
  RawOut to = raw(out.data());
  const bool same = static_cast<const void*>(in.data()) == static_cast<const void*>(out.data());
  if (same || !is_aligned(in.data())) {
    in_copy = aligned(in.data(), in.size());
    from = in_copy.get();
    std::memcpy(from, in.data(), in.size_bytes());
  }
  if (!is_aligned(out.data())) {
    out_copy = aligned(out.data(), out.size());
    to = out_copy.get();
  }
  execute(from, to);
  if (out_copy) std::memcpy(static_cast<void*>(out.data()), to, out.size_bytes());
}

void transform(Kind kind, std::span<const std::complex<double>> in, std::span<std::complex<double>> out) {
  check(!in.empty() && in.size() == out.size(), "complex transform needs equal lengths");
  const fftw_plan plan = plan_for(kind, in.size());
  run(in, out, [plan](fftw_complex* from, fftw_complex* to) { fftw_execute_dft(plan, from, to); });
}

Plain at(const double* values, std::size_t k) { return {values[2 * k], values[2 * k + 1]}; }
void put(double* values, std::size_t k, Plain value) {
  values[2 * k] = value.re;
  values[2 * k + 1] = value.im;
}

/// Sum and difference of a bin and the mirrored one's conjugate, the difference turned.
struct Halves {
  Plain sum, turned;
};
Halves halves(Plain one, Plain mirrored, Plain turn) {
  const Plain difference{one.re - mirrored.re, one.im + mirrored.im};
  return {{one.re + mirrored.re, one.im - mirrored.im},
          {difference.re * turn.re - difference.im * turn.im, difference.re * turn.im + difference.im * turn.re}};
}

/// N reals as N/2 complex numbers (even samples real, odd ones imaginary), whose transform Z gives
/// X[k] = (Z[k] + Z*[N/2-k]) / 2 - j e^{-j 2 pi k / N} (Z[k] - Z*[N/2-k]) / 2. Runs about as fast as FFTW's own real transform
/// and plans eight times as fast (docs/measures/speed.md).
void fft_even(std::span<const double> in, std::span<std::complex<double>> out) {
  const std::size_t half = in.size() / 2;
  const std::span pairs(reinterpret_cast<const std::complex<double>*>(in.data()), half);
  transform(Kind::complex_forward, pairs, out.first(half));
  double* bins = reinterpret_cast<double*>(out.data());
  put(bins, half, at(bins, 0));
  const auto turns = turns_of(in.size());
  for (std::size_t k = 0; k <= half / 2; ++k) {
    const auto [sum, turned] = halves(at(bins, k), at(bins, half - k), turns[k]);
    put(bins, half - k, {0.5 * (sum.re - turned.im), -0.5 * (sum.im + turned.re)});
    put(bins, k, {0.5 * (sum.re + turned.im), 0.5 * (sum.im - turned.re)});
  }
}

/// The same way back; the scale is that of N reals.
void ifft_even(std::span<const std::complex<double>> in, std::span<double> out) {
  const std::size_t half = out.size() / 2;
  const double* bins = reinterpret_cast<const double*>(in.data());
  const auto joined = aligned_complexes(half + 1);
  double* pairs = reinterpret_cast<double*>(joined.get());
  const auto turns = turns_of(out.size());
  const double scale = 1.0 / static_cast<double>(out.size());
  for (std::size_t k = 0; k <= half / 2; ++k) {
    // The first and the last bin of a real signal have no imaginary part; one that is there counts for nothing.
    const Plain low = k == 0 ? Plain{bins[0], 0.0} : at(bins, k);
    const Plain high = k == 0 ? Plain{bins[2 * half], 0.0} : at(bins, half - k);
    const auto [sum, turned] = halves(low, high, {turns[k].re, -turns[k].im});
    put(pairs, half - k, {scale * (sum.re + turned.im), scale * (turned.re - sum.im)});
    put(pairs, k, {scale * (sum.re - turned.im), scale * (sum.im + turned.re)});
  }
  const std::span from(reinterpret_cast<const std::complex<double>*>(joined.get()), half);
  transform(Kind::complex_inverse, from, std::span(reinterpret_cast<std::complex<double>*>(out.data()), half));
}

}  // namespace

void fft_real(std::span<const double> in, std::span<std::complex<double>> out) {
  check(!in.empty() && out.size() == in.size() / 2 + 1, "fft_real needs N/2 + 1 bins");
  if (in.size() % 2 == 0) return fft_even(in, out);
  const fftw_plan plan = plan_for(Kind::real_forward, in.size());
  run(in, out, [plan](double* from, fftw_complex* to) { fftw_execute_dft_r2c(plan, from, to); });
}

void ifft_real(std::span<const std::complex<double>> in, std::span<double> out) {
  check(!out.empty() && in.size() == out.size() / 2 + 1, "ifft_real needs N/2 + 1 bins");
  if (out.size() % 2 == 0) return ifft_even(in, out);
  const fftw_plan plan = plan_for(Kind::real_inverse, out.size());
  run(in, out, [plan](fftw_complex* from, double* to) { fftw_execute_dft_c2r(plan, from, to); });
  const double scale = 1.0 / static_cast<double>(out.size());
  for (double& value : out) value *= scale;
}

void fft_complex(std::span<const std::complex<double>> in, std::span<std::complex<double>> out) {
  transform(Kind::complex_forward, in, out);
}

void ifft_complex(std::span<const std::complex<double>> in, std::span<std::complex<double>> out) {
  transform(Kind::complex_inverse, in, out);
  const double scale = 1.0 / static_cast<double>(out.size());
  for (auto& value : out) value *= scale;
}

std::size_t fast_length(std::size_t n) {
  check(n >= 1, "a transform has at least one point");
  std::size_t best = 0;
  for (std::size_t five = 1; five <= 5 * n; five *= 5) {
    for (std::size_t three = five; three <= 5 * n; three *= 3) {
      std::size_t length = three;
      while (length < n) length *= 2;
      if (best == 0 || length < best) best = length;
    }
  }
  return best;
}

}  // namespace ringfall::signal
