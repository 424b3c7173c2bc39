// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/page_view.h"

#include <spawn.h>
#include <sys/wait.h>

#include <algorithm>
#include <filesystem>
#include <thread>

#include "desk/parts/parts.h"

extern char** environ;

namespace ringfall::desk {
namespace {

constexpr float kContentsBelow = 690.0F;  // room for the contents under what can be written

}  // namespace

void show_file(const std::string& path) {
  std::string program = "xdg-open";
  std::string file = path;
  char* words[] = {program.data(), file.data(), nullptr};
  pid_t child = 0;
  if (posix_spawnp(&child, program.c_str(), nullptr, nullptr, words, environ) != 0) return;
  std::thread([child] { waitpid(child, nullptr, 0); }).detach();  // it ends when it likes
}

void PageView::take_up(const std::string& logbook) {
  if (of_ == logbook) return;
  of_ = logbook;
  const std::string stem = std::filesystem::path(logbook).replace_extension().string();
  page_ = stem + "-report.html";
  paper_ = stem + "-report.pdf";
  table_ = stem + "-comparison.csv";
  program_ = stem + "-comparison.json";
  everything_ = stem + "-export";
}

bool PageView::one(const Stage& stage, const Output& output, std::string& path, bool ready, float width) {
  const float button = stage.px(166.0F);
  const float look = stage.px(34.0F);
  const float between = stage.px(4.0F);
  const ImVec2 at = ImGui::GetCursorPos();
  ImGui::SetCursorPosY(at.y + stage.px(12.0F));
  line(stage, stage.fonts.small, stage.palette.muted, output.what);
  ImGui::SetCursorPos({at.x + width - button, at.y});
  const bool pressed = push(stage, output.button, {.kind = output.kind, .icon = Icon::page, .width = button, .enabled = ready && !path.empty()});
  ImGui::SetCursorPosY(ImGui::GetCursorPosY() - stage.px(2.0F));
  std::error_code ignored;
  const bool there = std::filesystem::exists(path, ignored);
  field(stage, output.name, "where to", path, width - (there ? look + between : 0.0F));
  if (there) {
    ImGui::SameLine(0.0F, between);
    const std::string name = std::string("##show ") + output.name;
    if (push(stage, name.c_str(), {.kind = Push::quiet, .icon = Icon::grow, .width = look, .tip = "show it"})) show_file(path);
  }
  return pressed;
}

void PageView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  take_up(desk.book->path);
  const float left = std::clamp(0.38F * size.x, stage.px(380.0F), stage.px(540.0F));
  const bool roomy = size.y >= stage.px(kContentsBelow);
  outputs(desk, stage, {left, size.y});
  ImGui::SameLine();
  preview(desk, stage, {size.x - left - ImGui::GetStyle().ItemSpacing.x, size.y}, !roomy);
}

void PageView::contents(const Stage& stage, const report::Document& document, float width, bool columns) {
  const float half = 0.5F * (width - stage.px(6.0F));
  const float right = ImGui::GetCursorScreenPos().x + width;
  for (std::size_t k = 0; k < document.sections.size(); ++k) {
    const auto& section = document.sections[k];
    const std::string held = held_words(section);
    if (columns) {
      if (k % 2 == 1) ImGui::SameLine(0.0F, stage.px(6.0F));
      else if (k > 0) ImGui::SetCursorPosY(ImGui::GetCursorPosY() - ImGui::GetStyle().ItemSpacing.y);
      if (push(stage, (section.heading + "##part").c_str(), {.kind = Push::quiet, .width = half, .to_left = true, .tip = held})) document_.go_to(k);
      continue;
    }
    const float wide = stage.fonts.text->CalcTextSizeA(stage.fonts.text->FontSize, 1e9F, 0.0F, section.heading.c_str()).x + stage.px(16.0F);
    if (k > 0) ImGui::SameLine(0.0F, stage.px(4.0F));
    if (k > 0 && ImGui::GetCursorScreenPos().x + wide > right) {
      ImGui::NewLine();
      ImGui::SetCursorPosY(ImGui::GetCursorPosY() - ImGui::GetStyle().ItemSpacing.y);
    }
    if (push(stage, (section.heading + "##part").c_str(), {.kind = Push::quiet, .tip = held})) document_.go_to(k);
  }
}

void PageView::preview(const Desk& desk, const Stage& stage, ImVec2 size, bool with_contents) {
  const Sheet paper(stage, "page says", size);
  const CompareSheet* sheet = desk.comparison.get();
  if (sheet == nullptr) {
    heading(stage, "It will say");
    paragraph(stage, stage.fonts.text, desk.compare_trouble.empty() ? stage.palette.muted : stage.palette.caution,
              desk.compare_trouble.empty() ? "The comparison is on its way ..." : desk.compare_trouble);
    return;
  }
  const float width = size.x - stage.px(32.0F);
  if (!sheet->with_sound) {
    paragraph(stage, stage.fonts.small, stage.palette.muted,
              desk.compare_stopped ? "A first look: listening to the shots was stopped. What is written listens to all of them first."
                                   : "A first look: the shots are being listened to; pictures and sounds follow.");
    gap(stage, 4.0F);
  }
  if (with_contents) {
    contents(stage, sheet->document, width, false);
    gap(stage, 4.0F);
  }
  document_.draw(stage, sheet->document, sheet->number, {width, ImGui::GetContentRegionAvail().y});
}

void PageView::outputs(Desk& desk, const Stage& stage, ImVec2 size) {
  const Sheet paper(stage, "page", size);
  const float width = size.x - stage.px(36.0F);
  heading(stage, "Share what you found");
  const bool ready = desk.comparison != nullptr;
  if (one(stage, {"For the screen (HTML)", "Write the page", "page file", Push::main}, page_, ready, width)) desk.write_report(page_);
  if (one(stage, {"For the printer (PDF)", "Write the paper", "paper file", Push::main}, paper_, ready, width)) desk.write_report(paper_);
  gap(stage, 4.0F);
  heading(stage, "Take it elsewhere");
  if (one(stage, {"For a spreadsheet (CSV)", "Write the table", "table file", Push::plain}, table_, ready, width)) desk.write_report(table_);
  if (one(stage, {"For programs (JSON)", "Write the JSON", "program file", Push::plain}, program_, ready, width)) desk.write_report(program_);
  if (one(stage, {"The whole logbook (folder)", "Write everything", "export folder", Push::plain}, everything_, true, width)) {
    desk.export_all(everything_);
  }
  if (size.y < stage.px(kContentsBelow) || !desk.comparison) return;
  gap(stage, 8.0F);
  heading(stage, "What the page and the paper hold");
  gap(stage, 2.0F);
  contents(stage, desk.comparison->document, width, true);
}

}  // namespace ringfall::desk
