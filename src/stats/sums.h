// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <span>
#include <vector>

namespace ringfall::stats {

/// Sum whose rounding error does not grow with the number of terms (Neumaier 1974).
class CompensatedSum {
 public:
  void add(double term) {
    const double next = sum_ + term;
    lost_ += std::abs(sum_) >= std::abs(term) ? (sum_ - next) + term : (term - next) + sum_;
    sum_ = next;
  }
  double value() const { return sum_ + lost_; }

 private:
  double sum_ = 0.0;
  double lost_ = 0.0;
};

/// Sum of the values.
double compensated_sum(std::span<const double> values);

/// Values as centre + deviation, the deviations without rounding error where the values share their leading digits.
struct Centred {
  double centre = 0.0;             ///< near the mean, not the mean itself
  std::vector<double> deviations;  ///< value - centre
};

/// values: at least one.
Centred centred(std::span<const double> values);

/// Mean of at least one value: centre plus mean deviation.
double plain_mean(std::span<const double> values);

/// Sum of squares about the mean, at least one value.
double squares_about_mean(std::span<const double> values);

/// Sum of products about the means; same length, at least one value.
double products_about_means(std::span<const double> x, std::span<const double> y);

/// check()s that every value is finite.
void check_finite(std::span<const double> values);

/// check()s that 0 < confidence < 1.
void check_share(double share);

}  // namespace ringfall::stats
