// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "logbook/entries.h"
#include "shot/numbers.h"

namespace ringfall::desk {

/// Small texts that several views show alike.

/// A distance, speed, mass or temperature in the units chosen: "18.0 m" or "19.7 yd".
std::string distance_words(double distance_m, bool archers);
std::string speed_words(double speed_m_s, bool archers);
std::string mass_words(double mass_kg, bool archers);
std::string temperature_words(double temperature_c, bool archers);

/// The value of one of the shot's numbers without its unit; "-" without one.
std::string value_words(const shot::Number& number, const shot::Shot& shot);

/// "loud 6, hum 2: dead in the hand"; empty when nothing was said.
std::string said_words(const std::vector<logbook::Comment>& comments);
std::string said_words(const logbook::Comment& comment);

/// May numbers of this shot be shown, and pictures that give them away? Not when words come first (here, or in a blind session) and
/// none were said on it or its block.
bool numbers_shown(const logbook::KeptBlock& block, const logbook::KeptShot& shot, bool words_first);

}  // namespace ringfall::desk
