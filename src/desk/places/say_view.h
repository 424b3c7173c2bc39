// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "desk/model/desk.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// What a person says of a shot: ratings, words; leaving it out with a reason.
class SayView {
 public:
  void draw(Desk& desk, const Stage& stage, const ShotAt& at, float width);

 private:
  /// What was said already, each to be changed or taken away.
  void said(Desk& desk, const Stage& stage, const logbook::KeptShot& shot, float width);
  void reasons(Desk& desk, const Stage& stage, const logbook::KeptShot& shot, float width);

  std::optional<std::int64_t> of_;  ///< the shot the fields below are about
  logbook::Comment draft_;
  std::optional<logbook::Comment> changing_;  ///< as it is kept; nullopt: the draft is a new one
  std::string reason_;
  bool dropping_ = false;
};

}  // namespace ringfall::desk
