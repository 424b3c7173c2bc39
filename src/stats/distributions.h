// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>

namespace ringfall::stats {

/// Distribution functions. Probabilities of the lower tail unless the name says upper or two-sided; relative error under
/// 1e-12 in both tails, quantiles too (checked against a reference library: tests/data/stats_reference.csv).
/// df: degrees of freedom, > 0, need not be whole. p: strictly between 0 and 1. NaN is a broken promise.
/// Source: Abramowitz & Stegun chapter 26. Tested: stats.Distributions.*

double normal_cdf(double z);
double normal_quantile(double p);

double student_t_cdf(double t, double df);
/// P(|T| >= |t|).
double student_t_two_sided_p(double t, double df);
double student_t_quantile(double p, double df);

/// P(F >= f), f >= 0.
double f_upper_p(double f, double df_between, double df_within);
/// P(X >= x), x >= 0.
double chi_square_upper_p(double x, double df);

/// P(T <= t) of Student's t about a mean that lies `noncentrality` standard errors off. Absolute error under 1e-12 for
/// |noncentrality| up to 30 and df up to 10 000. Source: Lenth 1989 (AS 243), the series summed outward from its largest term.
double noncentral_t_cdf(double t, double df, double noncentrality);

/// P(at least `right` of `trials`) when each is right with `chance` (0..1): blind guesses. right <= trials.
double binomial_upper_p(std::size_t right, std::size_t trials, double chance);

}  // namespace ringfall::stats
