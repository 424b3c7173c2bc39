// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ringfall::compare {

/// What a word of an archer is about. A word suggests a check, never a verdict.
enum class Aspect { loudness, hum, ping, thump, sharpness, buzz, slap, ring_time, hand };

/// "loudness", "hum", "ping", ...
std::string_view aspect_name(Aspect aspect);

/// The number an aspect is held against (an id of shot::numbers()); empty: no number of a shot speaks of it.
std::string_view aspect_number(Aspect aspect);

/// One word of the list, in lower case, with what it says: `direction` +1 there is much of it, -1 there is little.
struct WordMeaning {
  std::string_view word;
  Aspect aspect;
  int direction;
};

/// The list: small, open, common in the trade (no source); a word may be about several things ("dead": little hum and little ping).
std::span<const WordMeaning> word_list();

/// What a comment says.
struct WordSaid {
  Aspect aspect = Aspect::hum;
  int direction = 1;
  std::string words;  ///< as said: "less hum"
};

/// Looks every word of a free comment up; "less", "no", "not", "without", "little", "hardly", "never" within the two words before turn
/// it round; "same", "similar", "slight", "usual" and their like there say neither much nor little, and are passed over. What is not on
/// the list is passed over. An aspect said both ways appears twice. Tests: compare.Words.*
std::vector<WordSaid> words_said(std::string_view comment);

}  // namespace ringfall::compare
