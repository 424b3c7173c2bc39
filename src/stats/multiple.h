// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

namespace ringfall::stats {

/// p values of several questions asked of the same data, adjusted so that each can be held against alpha by itself.
/// p: 0..1 each; the results keep their order and are at most 1. An empty list gives an empty list.
/// Tested: stats.Multiple.*

/// The chance of even one false claim stays under alpha (Holm 1979): for the side numbers of a comparison.
std::vector<double> holm_adjusted(std::span<const double> p);

/// The same with weights (> 0, one a p): who weighs more gets more of alpha. Source: Holm 1979, section 4. Equal weights: the plain one.
std::vector<double> holm_adjusted(std::span<const double> p, std::span<const double> weights);

}  // namespace ringfall::stats
