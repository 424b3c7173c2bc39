// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

namespace ringfall::desk {

/// What the program was asked for.
struct WindowRequest {
  std::optional<std::string> logbook;       ///< or a recording
  std::optional<std::string> shoot_folder;  ///< write a picture of every place there and end
  int width = 0;                            ///< 0: as last time
  int height = 0;
};

/// Opens the window and serves it until it is closed. Frames are drawn only when something happens. Returns the exit status:
/// 0, or 3 with one sentence on standard error when there is no display.
int serve_window(const WindowRequest& request);

}  // namespace ringfall::desk
