// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "desk/model/desk.h"
#include "desk/figures/document_pane.h"
#include "desk/parts/parts.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// Sharing: the comparison as a page, a paper, a table or for programs, and the whole logbook as open files.
class PageView {
 public:
  void draw(Desk& desk, const Stage& stage, ImVec2 size);

 private:
  /// One thing that can be written.
  struct Output {
    const char* what;
    const char* button;
    const char* name;  ///< of its field
    Push kind;
  };
  void take_up(const std::string& logbook);
  void outputs(Desk& desk, const Stage& stage, ImVec2 size);
  /// Its parts, to go to them: in rows of columns, or one after the other.
  void contents(const Stage& stage, const report::Document& document, float width, bool columns);
  void preview(const Desk& desk, const Stage& stage, ImVec2 size, bool with_contents);
  /// True when it is to be written.
  bool one(const Stage& stage, const Output& output, std::string& path, bool ready, float width);

  DocumentPane document_;
  std::string of_;  ///< the logbook the names below were made for
  std::string page_;
  std::string paper_;
  std::string table_;
  std::string program_;
  std::string everything_;
};

/// Shows a file with the desktop's own program for it.
void show_file(const std::string& path);

}  // namespace ringfall::desk
