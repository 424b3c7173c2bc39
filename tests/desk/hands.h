// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <imgui.h>

#include <memory>
#include <string>
#include <vector>

#include "desk/model/desk.h"
#include "desk/parts/keys.h"
#include "desk/window/shell.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// Textures that live nowhere, counted.
class CountedTextures final : public Textures {
 public:
  ImTextureID make(std::size_t columns, std::size_t rows, const std::vector<std::uint8_t>& rgba) override;
  void drop(ImTextureID texture) override;
  int alive = 0;
  int made = 0;
};

/// A person at the window, without a window: ImGui's core alone, a shell, eyes that find things by name, hands that press and type.
class Hands {
 public:
  /// `scale`: pixels of one design unit; the window is as many pixels larger.
  explicit Hands(Desk& desk, float width = 1280.0F, float height = 820.0F, float scale = 1.0F);
  ~Hands();
  Hands(const Hands&) = delete;
  Hands& operator=(const Hands&) = delete;

  void frames(int count);
  /// Draws, lets the lanes finish, draws again.
  void settle();
  /// Presses what goes by this name; a test failure when it is not there.
  void press(const std::string& name);
  void press_at(ImVec2 place);
  /// Presses a place in what goes by this name, `across` and `down` as shares of its size.
  void press_in(const std::string& name, float across, float down, bool ctrl = false, bool shift = false);
  /// Writes into the field of this name.
  void type(const std::string& name, const std::string& words);
  /// Writes in place of what the field of this name holds.
  void retype(const std::string& name, const std::string& words);
  void key(Key key, bool ctrl = false, bool shift = false);
  /// `down`: share of its height from the top.
  void wheel(const std::string& name, float by, float down = 0.5F);
  void drag(const std::string& name, float by_x, float by_y);
  bool sees(const std::string& name);
  const Places_px& places() const { return places_; }
  int vertices() const;
  /// All that was drawn in the last frame, as numbers: two frames with the same are alike in every pixel.
  std::vector<float> drawn() const;
  std::vector<std::string> cut;  ///< words that had no room since it was emptied
  std::vector<std::string> wordless;  ///< things to press with a sign only that no tip explains
  void point_at(ImVec2 place) { io().MousePos = place; }

  Stage stage;
  CountedTextures textures;
  std::string focused;  ///< what had the keyboard in the last frame
  std::string told;     ///< the tip shown in it

 private:
  TabOrder tabs_;
  static ImGuiIO& io() { return ImGui::GetIO(); }
  Desk& desk_;
  std::unique_ptr<Shell> shell_;
  Places_px places_;
};

/// The invented evening as a logbook at `path`; made once a process and copied.
void put_demo(const std::string& path);

/// A block of the invented evening at another gain: a recording that its logbook does not hold yet.
std::vector<float> quieter_demo_samples(std::size_t block);

}  // namespace ringfall::desk
