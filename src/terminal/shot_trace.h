// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "shot/clip.h"
#include "shot/shot.h"

namespace ringfall::terminal {

/// A shot's level over time as bars of text: one line every 25 ms from 100 ms before the loud edge to 600 ms after it, each the
/// root mean square of its stretch in dB re full scale, with the places of edge, tail's end and impact named.
/// Source: own, docs/logbook.md#the-text-trace. Tested: terminal.ShotTrace.*
std::string shot_trace(const shot::Clip& clip, const shot::Shot& shot);

}  // namespace ringfall::terminal
