// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "plot/figure.h"
#include "report/session_report.h"
#include "shot/numbers.h"

namespace ringfall::report {

/// The pictures that hold set-ups against each other. Each set-up keeps its ink (and so its marker and dash) in all of them,
/// by its place in the report, the baseline being the first.

/// Every shot a dot, set-up by set-up, in columns by block with a stroke at each block's mean where there are several; beside the dots
/// the mean with its 95 % interval over the comparison's units of this number (compare::Spread).
plot::Figure dots_figure(const SessionReport& report, const shot::Number& number);

/// Says what the dots, strokes and intervals are: blocks or shots.
std::string dots_caption(const SessionReport& report, const shot::Number& number);

/// What a set-up (by its place in the report) has of a number in its comparison; nullptr: nothing.
const compare::Spread* spread_of_setup(const SessionReport& report, std::size_t setup, const shot::Number& number);

/// Differences to the baseline with their 95 % intervals, numbers of one unit in a panel, over the band of what a person
/// would notice. Nullopt: no number can be compared.
std::optional<plot::Figure> differences_figure(const SessionReport& report);

/// Median decay curves laid over each other; `only`: of these set-ups, empty: of all. Nullopt: none has one.
std::optional<plot::Figure> decays_figure(const SessionReport& report, bool a_weighted, const std::vector<std::size_t>& only = {});

/// Spectra of the pooled tails laid over each other, the tones named; `only` as above. Nullopt: no set-up has one.
std::optional<plot::Figure> tails_figure(const SessionReport& report, const std::vector<std::size_t>& only = {});

/// Spectrogram of a set-up's typical shot, on one scale of levels for all set-ups. Nullopt: it has none.
std::optional<plot::Figure> typical_figure(const SessionReport& report, std::size_t setup);

/// What was said against what was measured, a dot a shot.
plot::Figure said_figure(const SessionReport& report, const Agreement& agreement);

}  // namespace ringfall::report
