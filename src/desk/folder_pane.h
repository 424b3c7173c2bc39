// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/stage.h"

namespace ringfall::desk {

/// A folder to look through for a logbook or a recording: a field with its path above a list.
class FolderPane {
 public:
  /// Starts in the person's home, or at the root.
  FolderPane();
  void look_at(const std::string& folder);
  /// The file pressed in this frame.
  std::optional<std::string> draw(const Stage& stage, const char* name, ImVec2 size);

 private:
  struct Entry {
    std::string name;
    bool folder = false;
  };
  void read();

  std::string folder_;
  std::string typed_;
  std::string trouble_;
  std::vector<Entry> entries_;
};

/// Does the name end as sound files and logbooks do?
bool is_sound_name(const std::string& name);
bool is_logbook_name(const std::string& name);

}  // namespace ringfall::desk
