// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "desk/model/desk.h"
#include "desk/places/folder_pane.h"
#include "desk/places/session_view.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// What one sees first: open a logbook, start one, or try the invented evening.
class WelcomeView {
 public:
  void draw(Desk& desk, const Stage& stage, ImVec2 size);

 private:
  void doors(Desk& desk, const Stage& stage, float width);
  void start_form(Desk& desk, const Stage& stage, float width);

  enum class Door { none, open, start } door_ = Door::none;
  FolderPane folder_;
  std::string file_;
  std::string bow_;
  SessionFields session_;
};

/// Where logbooks are kept unless a person says otherwise: the home folder.
std::string default_logbook(const std::string& name);

}  // namespace ringfall::desk
