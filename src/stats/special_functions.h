// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ringfall::stats {

/// ln B(a, b) = ln(Gamma(a) Gamma(b) / Gamma(a + b)); a, b > 0. Error under 1e-14 of max(1, |value|).
/// Source: Stirling's series (Abramowitz & Stegun 6.1.41) after shifting the arguments above 12.
double log_beta(double a, double b);

/// ln Gamma(a); a > 0. Unlike std::lgamma it writes no global. Error under 1e-14 of max(1, |value|).
double log_gamma(double a);

/// Regularised incomplete beta function I_x(a, b), for y = 1 - x given apart so that neither loses digits; 0 <= x <= 1.
/// Relative error under 1e-12 down to 1e-300 for a, b up to 1000.
/// Source: continued fraction, Abramowitz & Stegun 26.5.8, by the modified Lentz method.
double incomplete_beta(double a, double b, double x, double y);

/// Regularised upper incomplete gamma function Q(a, x); a > 0, x >= 0. Relative error under 1e-12 for a up to 1000.
/// Source: Abramowitz & Stegun 6.5.29 (series), 6.5.31 (continued fraction).
double incomplete_gamma_upper(double a, double x);

}  // namespace ringfall::stats
