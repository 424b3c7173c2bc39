// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "desk/desk.h"
#include "desk/stage.h"

namespace ringfall::desk {

/// What is asked about an evening: where, how far, the air, the chain, and whether words come before numbers.
struct SessionFields {
  std::string place;
  std::string distance;
  std::string temperature;
  std::string chain;
  bool blind = false;

  void draw(const Stage& stage, bool archers, float width);
  /// Into what is given, where something was said. RequestFailure: a distance or temperature that is none.
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
  SessionFields fields_;
};

}  // namespace ringfall::desk
