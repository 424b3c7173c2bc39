// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "shot/clip.h"

namespace ringfall::report {

/// A shot's sound to listen to, from 0.15 s before the edge to 0.85 s after it, faded at its ends; full scale = 1.
std::vector<float> excerpt_of(const shot::Clip& clip);

/// The one gain [dB] that brings the loudest peak of all excerpts to -1 dB re full scale: the same for all, so that a quieter
/// set-up stays quieter. 0 for silence. Tests: report.Excerpt.*
double common_gain_db(const std::vector<std::vector<float>>& excerpts);

}  // namespace ringfall::report
