// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/hands.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "desk/parts/parts.h"
#include "intake/demo_evening.h"
#include "intake/demo_logbook.h"
#include "support/test_folder.h"

namespace ringfall::desk {

ImTextureID CountedTextures::make(std::size_t columns, std::size_t rows, const std::vector<std::uint8_t>& rgba) {
  EXPECT_EQ(rgba.size(), 4 * columns * rows);
  ++alive;
  ++made;
  return reinterpret_cast<ImTextureID>(static_cast<std::uintptr_t>(1000 + made));
}

void CountedTextures::drop(ImTextureID /*texture*/) { --alive; }

Hands::Hands(Desk& desk, float width, float height, float scale) : desk_(desk), shell_(std::make_unique<Shell>()) {
  IMGUI_CHECKVERSION();
  ImGui::CreateContext();
  io().IniFilename = nullptr;
  io().DisplaySize = {scale * width, scale * height};
  io().BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
  io().ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
  map_keys(io());
  stage.scale = scale;
  stage.fonts = load_fonts(*io().Fonts, find_fonts(), scale);
  unsigned char* pixels = nullptr;
  int wide = 0;
  int high = 0;
  io().Fonts->GetTexDataAsAlpha8(&pixels, &wide, &high);
  stage.palette = palette_of(plot::Theme::dark);
  stage.textures = &textures;
  stage.places = &places_;
  stage.cut = &cut;
  stage.wordless = &wordless;
  stage.tabs = &tabs_;
  stage.focused = &focused;
  stage.told = &told;
  dress(stage);
  frames(2);
}

Hands::~Hands() {
  shell_.reset();
  EXPECT_EQ(textures.alive, 0) << "textures were not given back";
  ImGui::DestroyContext();
}

void Hands::frames(int count) {
  for (int k = 0; k < count; ++k) {
    desk_.tick();
    if (stage.palette.theme != desk_.preferences.theme) {
      stage.palette = palette_of(desk_.preferences.theme);
      dress(stage);
    }
    io().DeltaTime = 1.0F / 60.0F;
    places_.clear();
    focused.clear();
    told.clear();
    ImGui::NewFrame();
    shell_->draw(desk_, stage);
    ImGui::Render();
    ASSERT_TRUE(ImGui::GetDrawData()->Valid);
  }
}

void Hands::settle() {
  frames(2);
  desk_.settle();
  frames(2);
  desk_.settle();
  frames(2);
}

bool Hands::sees(const std::string& name) { return places_.contains(name); }

void Hands::press(const std::string& name) {
  frames(1);
  const auto place = places_.find(name);
  if (place == places_.end()) {
    ADD_FAILURE() << "there is nothing called '" << name << "' to press";
    return;
  }
  press_at(place->second.middle());
}

void Hands::press_at(ImVec2 place) {
  io().MousePos = place;
  frames(1);
  io().MouseDown[0] = true;
  frames(1);
  io().MouseDown[0] = false;
  frames(2);
}

void Hands::press_in(const std::string& name, float across, float down, bool ctrl, bool shift) {
  frames(1);
  ASSERT_TRUE(sees(name)) << name;
  const Place_px place = places_.at(name);
  const ImGuiKeyModFlags held = (ctrl ? ImGuiKeyModFlags_Ctrl : 0) | (shift ? ImGuiKeyModFlags_Shift : 0);
  io().KeyCtrl = ctrl;
  io().KeyShift = shift;
  io().KeyMods = held;
  press_at({place.low.x + across * (place.high.x - place.low.x), place.low.y + down * (place.high.y - place.low.y)});
  io().KeyCtrl = io().KeyShift = false;
  io().KeyMods = ImGuiKeyModFlags_None;
  frames(1);
}

std::vector<float> Hands::drawn() const {
  std::vector<float> numbers;
  const ImDrawData& data = *ImGui::GetDrawData();
  for (int list = 0; list < data.CmdListsCount; ++list) {
    for (const ImDrawVert& vertex : data.CmdLists[list]->VtxBuffer) {
      numbers.insert(numbers.end(), {vertex.pos.x, vertex.pos.y, vertex.uv.x, vertex.uv.y, static_cast<float>(vertex.col >> 8U),
                                     static_cast<float>(vertex.col & 0xFFU)});
    }
  }
  return numbers;
}

void Hands::type(const std::string& name, const std::string& words) {
  press(name);
  frames(1);
  io().AddInputCharactersUTF8(words.c_str());
  frames(2);
}

void Hands::retype(const std::string& name, const std::string& words) {
  press(name);
  key(Key::a, true);
  io().AddInputCharactersUTF8(words.c_str());
  frames(2);
}

void Hands::key(Key key, bool ctrl, bool shift) {
  io().KeyCtrl = ctrl;
  io().KeyShift = shift;
  io().KeyMods = (ctrl ? ImGuiKeyModFlags_Ctrl : ImGuiKeyModFlags_None) | (shift ? ImGuiKeyModFlags_Shift : ImGuiKeyModFlags_None);
  io().KeysDown[index_of(key)] = true;
  frames(1);
  io().KeysDown[index_of(key)] = false;
  io().KeyCtrl = false;
  io().KeyShift = false;
  io().KeyMods = ImGuiKeyModFlags_None;
  frames(2);
}

void Hands::wheel(const std::string& name, float by, float down) {
  frames(1);
  ASSERT_TRUE(sees(name)) << name;
  const Place_px place = places_.at(name);
  io().MousePos = {place.middle().x, place.low.y + down * (place.high.y - place.low.y)};
  frames(1);
  io().MouseWheel = by;
  frames(1);
  io().MouseWheel = 0.0F;
  frames(1);
}

void Hands::drag(const std::string& name, float by_x, float by_y) {
  frames(1);
  ASSERT_TRUE(sees(name)) << name;
  const ImVec2 from = places_.at(name).middle();
  io().MousePos = from;
  frames(1);
  io().MouseDown[0] = true;
  frames(1);
  for (int k = 1; k <= 5; ++k) {
    io().MousePos = {from.x + by_x * static_cast<float>(k) / 5.0F, from.y + by_y * static_cast<float>(k) / 5.0F};
    frames(1);
  }
  io().MouseDown[0] = false;
  frames(2);
}

int Hands::vertices() const { return ImGui::GetDrawData()->TotalVtxCount; }

std::vector<float> quieter_demo_samples(std::size_t block) {
  auto samples = intake::demo_samples(intake::demo_blocks(), block);
  for (float& sample : samples) sample *= 0.8F;
  return samples;
}

void put_demo(const std::string& path) {
  static const TestFolder folder;
  static const std::string made = [] {
    const std::string file = folder.path("demo.ringfall");
    intake::make_demo_logbook(file, [](double) { return true; });
    return file;
  }();
  std::filesystem::copy_file(made, path);
}

}  // namespace ringfall::desk
