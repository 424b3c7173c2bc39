// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "desk/parts/stage.h"

namespace ringfall::desk {

/// A folder to look through for a logbook or a recording: a field with its path above a list.
class FolderPane {
 public:
  enum class Kind { logbooks, sounds };
  /// Starts in the person's home, or at the root.
  FolderPane();
  void look_at(const std::string& folder);
  /// The file pressed in this frame. The list follows what happens in the folder.
  std::optional<std::string> draw(const Stage& stage, const char* name, Kind kind, ImVec2 size);

 private:
  struct Entry {
    std::string name;
    bool folder = false;
  };
  void read(Kind kind);

  std::string folder_;
  std::string typed_;
  std::string trouble_;
  std::vector<Entry> entries_;
  std::filesystem::file_time_type read_at_{};  ///< when the folder had changed last, as it was read
  double looked_at_s_ = -10.0;                 ///< by the window's clock
};

/// Does the name end as sound files and logbooks do?
bool is_sound_name(const std::string& name);
bool is_logbook_name(const std::string& name);

}  // namespace ringfall::desk
