// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/page_view.h"

#include <spawn.h>
#include <sys/wait.h>

#include <algorithm>
#include <filesystem>
#include <thread>

#include "desk/parts.h"

extern char** environ;

namespace ringfall::desk {
namespace {

constexpr float kTwoSheets = 1200.0F;

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
  gap(stage, 6.0F);
  line(stage, stage.fonts.small, stage.palette.muted, output.what);
  const float button = stage.px(190.0F);
  const float look = stage.px(34.0F);
  const float between = ImGui::GetStyle().ItemSpacing.x;
  field(stage, output.name, "where to", path, width - button - look - 2.0F * between);
  ImGui::SameLine();
  const bool pressed = push(stage, output.button, {.kind = output.kind, .icon = Icon::page, .width = button, .enabled = ready && !path.empty()});
  std::error_code ignored;
  if (std::filesystem::exists(path, ignored)) {
    ImGui::SameLine();
    const std::string name = std::string("##show ") + output.name;
    if (push(stage, name.c_str(), {.kind = Push::quiet, .icon = Icon::grow, .width = look})) show_file(path);
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("show it");
  }
  return pressed;
}

void PageView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  take_up(desk.book->path);
  const float between = ImGui::GetStyle().ItemSpacing.x;
  const float left = size.x < stage.px(kTwoSheets) ? 0.56F * size.x : 0.5F * (size.x - between);
  outputs(desk, stage, {left, size.y});
  ImGui::SameLine();
  const Sheet paper(stage, "page says", {size.x - left - between, size.y});
  heading(stage, "It will say");
  if (!desk.comparison) {
    paragraph(stage, stage.fonts.text, desk.compare_trouble.empty() ? stage.palette.muted : stage.palette.caution,
              desk.compare_trouble.empty() ? "The comparison is on its way ..." : desk.compare_trouble);
    return;
  }
  for (const auto& verdict : desk.comparison->report.verdicts) {
    paragraph(stage, stage.fonts.strong, stage.palette.text, verdict);
    gap(stage, 4.0F);
  }
  for (const auto& sentence : desk.comparison->report.sound_sentences) {
    paragraph(stage, stage.fonts.text, stage.palette.text, sentence);
    gap(stage, 3.0F);
  }
  for (const auto& doubt : desk.comparison->report.doubts) {
    paragraph(stage, stage.fonts.small, stage.palette.muted, doubt);
    gap(stage, 2.0F);
  }
}

void PageView::outputs(Desk& desk, const Stage& stage, ImVec2 size) {
  const Sheet paper(stage, "page", size);
  const float width = size.x - stage.px(36.0F);
  heading(stage, "Share what you found");
  paragraph(stage, stage.fonts.text, stage.palette.muted,
            "The comparison with its pictures, tables, words and doubts, and what was done how. The page also plays the typical shot of "
            "each set-up. Neither needs anything from the net.");
  const bool ready = desk.comparison != nullptr;
  if (one(stage, {"A page for the screen (HTML)", "Write the page", "page file", Push::main}, page_, ready, width)) desk.write_report(page_);
  if (one(stage, {"A paper to print (PDF)", "Write the paper", "paper file", Push::main}, paper_, ready, width)) desk.write_report(paper_);
  gap(stage, 10.0F);
  heading(stage, "Take it elsewhere");
  if (one(stage, {"The comparison as a table (CSV)", "Write the table", "table file", Push::plain}, table_, ready, width)) desk.write_report(table_);
  if (one(stage, {"The comparison for programs (JSON)", "Write the JSON", "program file", Push::plain}, program_, ready, width)) {
    desk.write_report(program_);
  }
  if (one(stage, {"Everything in the logbook: tables, and each shot's sound, in a new folder", "Write everything", "export folder", Push::plain},
          everything_, true, width)) {
    desk.export_all(everything_);
  }
}

}  // namespace ringfall::desk
