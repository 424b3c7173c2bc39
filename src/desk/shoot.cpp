// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/shoot.h"

#include <algorithm>
#include <cctype>
#include <filesystem>

namespace ringfall::desk {

void shoot_places(Desk& desk, const std::function<void()>& frame, const std::string& folder,
                  const std::function<void(const std::string& path)>& take) {
  const auto one = [&](std::string name) {
    for (const plot::Theme theme : {plot::Theme::dark, plot::Theme::light}) {
      desk.preferences.theme = theme;
      for (int k = 0; k < 4; ++k) {
        frame();
        desk.settle();
      }
      frame();
      take((std::filesystem::path(folder) / (name + (theme == plot::Theme::dark ? "-dark.png" : "-light.png"))).string());
    }
  };
  desk.settle();
  if (!desk.book) {
    one("welcome");
    return;
  }
  for (int k = 0; k < kPlaces; ++k) {
    desk.place = static_cast<Place>(k);
    std::string name = place_name(desk.place);
    std::ranges::transform(name, name.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    one(name);
  }
}

}  // namespace ringfall::desk
