// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/fft.h"

#include <fftw3.h>

#include <cstring>
#include <map>
#include <memory>
#include <mutex>
#include <utility>

#include "base/check.h"

namespace ringfall::signal {
namespace {

enum class Kind { real_forward, real_inverse, complex_forward, complex_inverse };

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

  ~PlanCache() {
    for (auto& [key, plan] : plans) fftw_destroy_plan(plan);
    fftw_cleanup();
  }
};

fftw_plan plan_for(Kind kind, std::size_t n) {
  static PlanCache cache;
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

}  // namespace

void fft_real(std::span<const double> in, std::span<std::complex<double>> out) {
  check(!in.empty() && out.size() == in.size() / 2 + 1, "fft_real needs N/2 + 1 bins");
  const fftw_plan plan = plan_for(Kind::real_forward, in.size());
  run(in, out, [plan](double* from, fftw_complex* to) { fftw_execute_dft_r2c(plan, from, to); });
}

void ifft_real(std::span<const std::complex<double>> in, std::span<double> out) {
  check(!out.empty() && in.size() == out.size() / 2 + 1, "ifft_real needs N/2 + 1 bins");
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
