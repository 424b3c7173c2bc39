// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "plot/ink.h"

namespace ringfall::desk {

/// What the window remembers from one day to the next. Nothing of a logbook is in here.
struct Preferences {
  plot::Theme theme = plot::Theme::dark;
  double text_scale = 1.0;            ///< 0.7 .. 2.0, on top of the screen's own
  bool archers_units = false;         ///< yards, feet per second, grains, Fahrenheit
  bool words_first = false;           ///< blind: numbers stay hidden until words are in
  std::string main_number = "hum";
  std::vector<std::string> recent;    ///< logbooks, the latest first
  std::string device;                 ///< the microphone used last
  int width = 1280;
  int height = 820;
};
inline constexpr std::size_t kRecentBooks = 6;

/// $XDG_CONFIG_HOME/ringfall, else $HOME/.config/ringfall; empty when neither is known.
std::string config_folder();

/// Lines "name value". Unknown names and bad values are passed over: an old or damaged file costs the settings, never the
/// start. Tests: desk.Preferences.*
Preferences preferences_of_text(const std::string& text);
std::string text_of_preferences(const Preferences& preferences);

/// From the file in `folder`, or the defaults.
Preferences load_preferences(const std::string& folder);
/// Makes the folder if need be. FileFailure: it can't be written.
void save_preferences(const Preferences& preferences, const std::string& folder);

/// Puts a logbook at the head of the recent ones.
void remember_book(Preferences& preferences, const std::string& path);

}  // namespace ringfall::desk
