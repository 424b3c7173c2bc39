// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/word_list.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace ringfall::compare {
namespace {

constexpr std::array kWords = {
    WordMeaning{"loud", Aspect::loudness, 1},      WordMeaning{"louder", Aspect::loudness, 1},
    WordMeaning{"noisy", Aspect::loudness, 1},     WordMeaning{"noisier", Aspect::loudness, 1},
    WordMeaning{"noise", Aspect::loudness, 1},     WordMeaning{"quiet", Aspect::loudness, -1},
    WordMeaning{"quieter", Aspect::loudness, -1},  WordMeaning{"silent", Aspect::loudness, -1},
    WordMeaning{"soft", Aspect::loudness, -1},     WordMeaning{"softer", Aspect::loudness, -1},
    WordMeaning{"hum", Aspect::hum, 1},            WordMeaning{"hums", Aspect::hum, 1},
    WordMeaning{"humming", Aspect::hum, 1},        WordMeaning{"drone", Aspect::hum, 1},
    WordMeaning{"drones", Aspect::hum, 1},         WordMeaning{"boomy", Aspect::hum, 1},
    WordMeaning{"ping", Aspect::ping, 1},          WordMeaning{"pings", Aspect::ping, 1},
    WordMeaning{"pingy", Aspect::ping, 1},         WordMeaning{"ting", Aspect::ping, 1},
    WordMeaning{"tinny", Aspect::ping, 1},         WordMeaning{"metallic", Aspect::ping, 1},
    WordMeaning{"bell", Aspect::ping, 1},          WordMeaning{"dull", Aspect::ping, -1},
    WordMeaning{"thump", Aspect::thump, 1},        WordMeaning{"thud", Aspect::thump, 1},
    WordMeaning{"thumpy", Aspect::thump, 1},       WordMeaning{"thunk", Aspect::thump, 1},
    WordMeaning{"hollow", Aspect::thump, 1},       WordMeaning{"crack", Aspect::sharpness, 1},
    WordMeaning{"harsh", Aspect::sharpness, 1},    WordMeaning{"harsher", Aspect::sharpness, 1},
    WordMeaning{"sharp", Aspect::sharpness, 1},    WordMeaning{"sharper", Aspect::sharpness, 1},
    WordMeaning{"bright", Aspect::sharpness, 1},   WordMeaning{"dull", Aspect::sharpness, -1},
    WordMeaning{"muffled", Aspect::sharpness, -1}, WordMeaning{"mellow", Aspect::sharpness, -1},
    WordMeaning{"buzz", Aspect::buzz, 1},          WordMeaning{"buzzes", Aspect::buzz, 1},
    WordMeaning{"buzzing", Aspect::buzz, 1},       WordMeaning{"buzzy", Aspect::buzz, 1},
    WordMeaning{"rattle", Aspect::buzz, 1},        WordMeaning{"rattles", Aspect::buzz, 1},
    WordMeaning{"rattling", Aspect::buzz, 1},      WordMeaning{"slap", Aspect::slap, 1},
    WordMeaning{"slaps", Aspect::slap, 1},         WordMeaning{"clack", Aspect::slap, 1},
    WordMeaning{"twang", Aspect::ring_time, 1},    WordMeaning{"twangy", Aspect::ring_time, 1},
    WordMeaning{"ring", Aspect::ring_time, 1},     WordMeaning{"rings", Aspect::ring_time, 1},
    WordMeaning{"ringing", Aspect::ring_time, 1},  WordMeaning{"long", Aspect::ring_time, 1},
    WordMeaning{"longer", Aspect::ring_time, 1},   WordMeaning{"lingers", Aspect::ring_time, 1},
    WordMeaning{"short", Aspect::ring_time, -1},   WordMeaning{"shorter", Aspect::ring_time, -1},
    WordMeaning{"dry", Aspect::ring_time, -1},     WordMeaning{"dead", Aspect::hum, -1},
    WordMeaning{"dead", Aspect::ping, -1},         WordMeaning{"deader", Aspect::hum, -1},
    WordMeaning{"deader", Aspect::ping, -1},       WordMeaning{"damped", Aspect::ring_time, -1},
    WordMeaning{"kick", Aspect::hand, 1},          WordMeaning{"kicks", Aspect::hand, 1},
    WordMeaning{"shock", Aspect::hand, 1},         WordMeaning{"jolt", Aspect::hand, 1},
    WordMeaning{"vibration", Aspect::hand, 1},     WordMeaning{"vibrates", Aspect::hand, 1},
    WordMeaning{"lively", Aspect::hand, 1},        WordMeaning{"smooth", Aspect::hand, -1},
    WordMeaning{"smoother", Aspect::hand, -1},
};

constexpr std::array<std::string_view, 12> kTurning = {"less", "no",     "not",   "without", "little", "hardly",
                                                       "never", "isn't", "isnt", "fewer",   "nor",    "reduced"};
/// What is said with these is neither much nor little: "same hum", "slight ping".
constexpr std::array<std::string_view, 8> kWeakening = {"same", "similar", "slight", "slightly", "usual", "normal", "some", "faint"};
constexpr std::size_t kTurningReach = 2;

/// One word with its place, and whether a comma or full stop parts it from the next: "no hum, loud" is loud.
struct Token {
  std::string word;
  bool clause_end = false;
};

std::vector<Token> tokens_of(std::string_view comment) {
  std::vector<Token> tokens;
  std::string word;
  const auto finish = [&] {
    if (!word.empty()) tokens.push_back({std::move(word), false});
    word.clear();
  };
  for (const char character : comment) {
    const auto code = static_cast<unsigned char>(character);
    if (std::isalpha(code) || character == '\'') {
      word += static_cast<char>(std::tolower(code));
      continue;
    }
    finish();
    const bool parts = std::string_view(",.;:!?").find(character) != std::string_view::npos;
    if (parts && !tokens.empty()) tokens.back().clause_end = true;
  }
  finish();
  return tokens;
}

bool weakens(const std::string& word) { return std::ranges::find(kWeakening, word) != kWeakening.end(); }

bool turns(const std::string& word) { return std::ranges::find(kTurning, word) != kTurning.end(); }

}  // namespace

std::string_view aspect_name(Aspect aspect) {
  switch (aspect) {
    case Aspect::loudness: return "loudness";
    case Aspect::hum: return "hum";
    case Aspect::ping: return "ping";
    case Aspect::thump: return "thump";
    case Aspect::sharpness: return "sharpness";
    case Aspect::buzz: return "buzz";
    case Aspect::slap: return "slap";
    case Aspect::ring_time: return "ring time";
    case Aspect::hand: return "hand";
  }
  return "";
}

std::string_view aspect_number(Aspect aspect) {
  switch (aspect) {
    case Aspect::loudness: return "loudness_sone";
    case Aspect::hum: return "hum";
    case Aspect::ping: return "ping";
    case Aspect::thump: return "exposure_z_db";
    case Aspect::sharpness: return "sharpness_acum";
    case Aspect::ring_time: return "late_s";
    case Aspect::buzz:
    case Aspect::slap:
    case Aspect::hand: return "";
  }
  return "";
}

std::span<const WordMeaning> word_list() { return kWords; }

std::vector<WordSaid> words_said(std::string_view comment) {
  const auto tokens = tokens_of(comment);
  std::vector<WordSaid> all;
  for (std::size_t k = 0; k < tokens.size(); ++k) {
    bool turned = false;
    bool weak = false;
    std::size_t first = k;
    for (std::size_t back = 1; back <= kTurningReach && back <= k && !tokens[k - back].clause_end; ++back) {
      weak = weak || weakens(tokens[k - back].word);
      if (!turns(tokens[k - back].word)) continue;
      turned = !turned;
      first = k - back;
    }
    if (weak) continue;
    std::string words = tokens[first].word;
    for (std::size_t i = first + 1; i <= k; ++i) words += " " + tokens[i].word;
    for (const WordMeaning& meaning : kWords) {
      if (meaning.word != tokens[k].word) continue;
      all.push_back({meaning.aspect, turned ? -meaning.direction : meaning.direction, words});
    }
  }
  return all;
}

}  // namespace ringfall::compare
