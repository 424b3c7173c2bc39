// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "desk/desk.h"
#include "desk/stage.h"

namespace ringfall::desk {

/// Sharing: the comparison as a page to look at or a paper to print.
class PageView {
 public:
  void draw(Desk& desk, const Stage& stage, ImVec2 size);

 private:
  std::string of_;  ///< the logbook the names below were made for
  std::string page_;
  std::string paper_;
};

/// Shows a file with the desktop's own program for it.
void show_file(const std::string& path);

}  // namespace ringfall::desk
