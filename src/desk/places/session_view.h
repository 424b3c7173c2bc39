// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "desk/model/desk.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// What is asked about an evening: where, how far, the air, the chain, and whether words come before numbers.
struct SessionFields {
  std::string place;
  std::string distance;
  std::string temperature;
  std::string chain;
  bool blind = false;
  bool archers = false;  ///< bare numbers are yards and degrees Fahrenheit

  void draw(const Stage& stage, float width);
  /// Into what is given; an empty field says nothing of it. RequestFailure: a distance or temperature that is none, or that no bow is shot at.
  void apply(logbook::Conditions& conditions) const;
};

/// Starts another session in the open logbook: another day, place or chain.
class SessionView {
 public:
  /// Takes over what stays the same from the last one.
  void begin(const logbook::Conditions& last, bool archers);
  /// True when the person is done with it.
  bool draw(Desk& desk, const Stage& stage, ImVec2 size);

 private:
  bool same_chain() const { return fields_.chain == before_.chain; }
  SessionFields fields_;
  SessionFields before_;  ///< as the fields were filled
};

}  // namespace ringfall::desk
