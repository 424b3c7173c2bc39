// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/pictures.h"

#include <fmt/format.h>

#include <filesystem>
#include <set>
#include <system_error>

#include "base/failure.h"
#include "intake/clips.h"
#include "plot/layout.h"
#include "plot/write.h"
#include "report/shot_figures.h"
#include "shot/portrait.h"

namespace ringfall::terminal {
namespace {

namespace fs = std::filesystem;

struct NamedFigure {
  const char* name;
  plot::Figure figure;
};

std::vector<NamedFigure> figures_of(const shot::Portrait& portrait, const shot::Shot& shot, const std::string& title,
                                    const std::string& reference) {
  return {{"wave", report::wave_figure(portrait, shot, title + ": wave")},
          {"spectrogram", report::spectrogram_figure(portrait, shot, title + ": spectrogram", reference)},
          {"decay", report::decay_figure(portrait, shot, title + ": decay")},
          {"tail", report::tail_figure(portrait, shot, title + ": spectrum of the tail", reference)}};
}

/// The file's name without its ending; "-2", "-3" ... behind it when another recording has the name already.
std::string own_stem(const std::string& file, std::set<std::string>& taken) {
  const std::string stem = fs::path(file).stem().string();
  std::string own = stem;
  for (int k = 2; !taken.insert(own).second; ++k) own = fmt::format("{}-{}", stem, k);
  return own;
}

void make_folder(const fs::path& folder) {
  std::error_code failed;
  fs::create_directories(folder, failed);
  if (failed) {
    throw FileFailure(fmt::format("{}: the folder can't be made ({}); give another with --plot", folder.string(), failed.message()));
  }
}

}  // namespace

std::size_t write_shot_pictures(const shot::Clip& clip, const shot::Shot& shot, const shot::Scale& scale,
                                const shot::MeasureSettings& settings, const std::string& base, const std::string& title) {
  if (const fs::path folder = fs::path(base).parent_path(); !folder.empty()) make_folder(folder);
  const std::string reference = scale.full_scale_db_spl ? "re 20 uPa" : "re full scale";
  const auto portrait = shot::portrait_of(clip, scale, settings);
  std::size_t written = 0;
  for (const auto& [name, figure] : figures_of(portrait, shot, title, reference)) {
    const auto picture = plot::layout(figure).picture;
    plot::write_svg(fmt::format("{}-{}.svg", base, name), picture);
    plot::write_png(fmt::format("{}-{}.png", base, name), picture);
    written += 2;
  }
  return written;
}

std::size_t write_pictures(const std::vector<intake::Recording>& recordings, const shot::Settings& settings,
                           const std::string& folder) {
  make_folder(folder);
  std::size_t written = 0;
  std::set<std::string> stems;
  for (const auto& recording : recordings) {
    const std::string stem = own_stem(recording.file, stems);
    intake::clips_of(recording, settings.find, [&](std::size_t index, const shot::Clip& clip) {
      const shot::Shot& shot = recording.shots[index];
      const fs::path base = fs::path(folder) / fmt::format("{}-shot{:02}", stem, shot.number);
      const std::string title = fmt::format("{}, shot {}", fs::path(recording.file).filename().string(), shot.number);
      written += write_shot_pictures(clip, shot, recording.scale, settings.measure, base.string(), title);
    });
  }
  return written;
}

}  // namespace ringfall::terminal
