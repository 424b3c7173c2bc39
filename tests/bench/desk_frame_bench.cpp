// SPDX-License-Identifier: GPL-3.0-or-later
// What a frame of the window costs the processor (without the graphics card's part), place by place, with a made-up logbook of
// 1,000 shots in 50 blocks: the numbers differ, the sound is that of one invented shot. Run by hand; figures in docs/measures/speed.md.
#include <benchmark/benchmark.h>

#include <string>

#include "desk/model/desk.h"
#include "desk/parts/keys.h"
#include "desk/parts/parts.h"
#include "desk/window/shell.h"
#include "intake/demo_logbook.h"
#include "support/test_folder.h"

namespace ringfall::desk {
namespace {

constexpr std::int64_t kBlocks = 50;
constexpr int kShotsABlock = 20;

/// Made once a run: writing a thousand shots safely takes a while.
std::string thousand_shots() {
  static const TestFolder folder;
  static const std::string made = [] {
    const std::string demo = folder.path("demo.ringfall");
    intake::make_demo_logbook(demo, [](double) { return true; });
    const logbook::Logbook invented(demo);
    const logbook::KeptShot first = invented.blocks()[0].shots[0];
    logbook::CodedClip clip = invented.clip(first.id);
    clip.number = 0;
    logbook::Conditions evening;
    evening.bow = "made up";
    const std::string path = folder.path("thousand.ringfall");
    auto book = logbook::Logbook::start(path, evening);
    const char* names[] = {"bare", "steel", "rubber", "gel", "string 2"};
    for (const char* name : names) book.add_setup({name, "", false, std::nullopt});
    std::int64_t count = 0;
    for (std::int64_t block = 0; block < kBlocks; ++block) {
      logbook::NewBlock fresh;
      fresh.setup = names[block % 5];
      fresh.file = "made up";
      fresh.sample_rate_hz = clip.places.sample_rate_hz;
      const std::int64_t number = book.add_block(fresh);
      for (int k = 0; k < kShotsABlock; ++k) {
        logbook::CodedClip own = clip;
        own.onset_s += 4.0 * k;
        const std::int64_t id = book.add_clip(number, own);
        ++count;
        shot::Shot shot = first.shot;
        shot.onset_s = own.onset_s;
        shot.hum = static_cast<double>((count * 37) % 100) / 10.0;
        shot.ping = static_cast<double>((count * 53) % 100) / 10.0;
        shot.levels.exposure_db = -40.0 - static_cast<double>(count % 7);
        book.set_numbers(id, shot, "made up");
        logbook::Comment comment;
        comment.hum = static_cast<double>(count % 11);
        comment.words = "made-up words on this shot";
        book.add_comment(id, comment);
        clip.bytes.resize(block == 0 ? clip.bytes.size() : 16);  // only what is looked into needs its sound
      }
    }
    return path;
  }();
  return made;
}

class NoTextures final : public Textures {
 public:
  ImTextureID make(std::size_t, std::size_t, const std::vector<std::uint8_t>&) override { return nullptr; }
  void drop(ImTextureID) override {}
};

void frame(benchmark::State& state) {
  ImGui::CreateContext();
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.DisplaySize = {1440.0F, 900.0F};
  io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
  map_keys(io);
  {
    NoTextures textures;
    Stage stage;
    stage.textures = &textures;
    stage.fonts = load_fonts(*io.Fonts, find_fonts(), 1.0F);
    unsigned char* pixels = nullptr;
    io.Fonts->GetTexDataAsAlpha8(&pixels, nullptr, nullptr);
    stage.palette = palette_of(plot::Theme::dark);
    dress(stage);
    Desk desk({}, [] {});
    desk.open(thousand_shots());
    desk.settle();
    desk.place = static_cast<Place>(state.range(0));
    Shell shell;
    for (int k = 0; k < 4; ++k) {  // what the place needs is on its way, and there
      ImGui::NewFrame();
      shell.draw(desk, stage);
      ImGui::Render();
      desk.settle();
    }
    for (auto _ : state) {
      io.DeltaTime = 1.0F / 60.0F;
      ImGui::NewFrame();
      shell.draw(desk, stage);
      ImGui::Render();
    }
    state.SetLabel(place_name(desk.place));
    state.counters["vertices"] = ImGui::GetDrawData()->TotalVtxCount;
  }
  ImGui::DestroyContext();
}
BENCHMARK(frame)->DenseRange(0, kPlaces - 1)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace ringfall::desk
