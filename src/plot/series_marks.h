// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "plot/canvas.h"

namespace ringfall::plot {

/// Spans lie under the grid.
void add_span_marks(Canvas& canvas, const Span& span);

/// Marks of everything else except rules across x (event_labels.h): what may be cut at the frame ...
void add_series_marks(Canvas& canvas, const Series& series);
/// ... and its words, which may not; call it when all marks of all series are there.
void add_series_words(Canvas& canvas, const Series& series);

/// Does the span's label have room inside? If not the legend names it.
bool label_fits(const Span& span, const Frame& frame, const Measure& measure);

}  // namespace ringfall::plot
