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

void show_file(const std::string& path) {
  std::string program = "xdg-open";
  std::string file = path;
  char* words[] = {program.data(), file.data(), nullptr};
  pid_t child = 0;
  if (posix_spawnp(&child, program.c_str(), nullptr, nullptr, words, environ) != 0) return;
  std::thread([child] { waitpid(child, nullptr, 0); }).detach();  // it ends when it likes
}

void PageView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  const Sheet paper(stage, "page", size);
  if (of_ != desk.book->path) {
    of_ = desk.book->path;
    const auto stem = std::filesystem::path(of_).replace_extension();
    page_ = stem.string() + "-report.html";
    paper_ = stem.string() + "-report.pdf";
  }
  const float width = std::min(size.x - stage.px(34.0F), stage.px(820.0F));
  heading(stage, "Share what you found");
  paragraph(stage, stage.fonts.text, stage.palette.muted,
            "The comparison with its pictures, tables, words and doubts, and what was done how. The page also plays the typical shot of "
            "each set-up. Neither needs anything from the net.",
            width);
  const bool ready = desk.comparison != nullptr;
  const auto one = [&](const char* what, const char* button, const char* name, std::string& path) {
    gap(stage, 10.0F);
    line(stage, stage.fonts.small, stage.palette.muted, what);
    field(stage, name, "a file", path, width - stage.px(190.0F));
    ImGui::SameLine();
    if (push(stage, button, {.kind = Push::main, .icon = Icon::page, .width = stage.px(180.0F), .enabled = ready && !path.empty()})) {
      desk.write_report(path);
    }
    std::error_code ignored;
    if (std::filesystem::exists(path, ignored) && push(stage, (std::string("Show it##") + name).c_str(), {.kind = Push::quiet, .icon = Icon::grow})) {
      show_file(path);
    }
  };
  one("A page for the screen (HTML)", "Write the page", "page file", page_);
  one("A paper to print (PDF)", "Write the paper", "paper file", paper_);
  if (!ready) {
    gap(stage, 8.0F);
    paragraph(stage, stage.fonts.text, stage.palette.caution,
              desk.compare_trouble.empty() ? "The comparison is on its way ..." : desk.compare_trouble, width);
    return;
  }
  gap(stage, 14.0F);
  heading(stage, "It will say");
  for (const auto& verdict : desk.comparison->report.verdicts) {
    paragraph(stage, stage.fonts.text, stage.palette.text, verdict, width);
    gap(stage, 3.0F);
  }
}

}  // namespace ringfall::desk
