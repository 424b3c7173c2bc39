// SPDX-License-Identifier: GPL-3.0-or-later
// What a frame of the window costs the processor (without the graphics card's part), place by place, with a made-up logbook of
// 1,000 shots in 50 blocks. Run by hand.
#include <benchmark/benchmark.h>

#include <string>

#include "desk/desk.h"
#include "desk/keys.h"
#include "desk/parts.h"
#include "desk/shell.h"

namespace ringfall::desk {
namespace {

std::shared_ptr<const BookSheet> thousand_shots() {
  auto book = std::make_shared<BookSheet>();
  book->path = "made up";
  book->conditions.bow = "made up";
  for (const char* name : {"bare", "steel", "rubber", "gel", "string 2"}) {
    logbook::SetUp setup;
    setup.name = name;
    book->setups.push_back(setup);
  }
  std::int64_t id = 0;
  for (std::size_t b = 0; b < 50; ++b) {
    logbook::KeptBlock block;
    block.number = static_cast<std::int64_t>(b + 1);
    block.setup = book->setups[b % 5].name;
    for (std::size_t k = 0; k < 20; ++k) {
      logbook::KeptShot shot;
      shot.id = ++id;
      shot.shot.hum = static_cast<double>((id * 37) % 100) / 10.0;
      shot.shot.ping = static_cast<double>((id * 53) % 100) / 10.0;
      shot.shot.levels.exposure_db = -40.0 - static_cast<double>(id % 7);
      logbook::Comment comment;
      comment.hum = static_cast<double>(id % 11);
      comment.words = "made-up words on this shot";
      shot.comments.push_back(comment);
      block.shots.push_back(shot);
      book->shots.push_back({b, k});
    }
    book->blocks.push_back(block);
  }
  return book;
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
    desk.book = thousand_shots();
    desk.place = static_cast<Place>(state.range(0));
    Shell shell;
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
BENCHMARK(frame)->DenseRange(0, 2)->Arg(5)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace ringfall::desk
