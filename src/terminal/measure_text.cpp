// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/measure_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <optional>
#include <vector>

#include "base/text.h"
#include "terminal/text_table.h"

namespace ringfall::terminal {
namespace {

constexpr std::size_t kMeasureLineWidth = 100;
constexpr std::size_t kTonesShown = 5;

std::string milliseconds(std::optional<double> seconds) {
  return seconds ? plain_number(*seconds * 1000.0, 0) : "-";
}

/// A file's name without what would move the cursor or colour the terminal.
std::string printable(std::string name) {
  std::ranges::replace_if(name, [](char letter) { return static_cast<unsigned char>(letter) < 0x20 || letter == 0x7F; }, '?');
  return name;
}

/// A mark a line's numbers carry when a finding speaks of that shot.
std::string marks(const shot::Shot& shot) {
  const auto worst = std::ranges::max_element(shot.findings, {}, &Finding::severity);
  if (worst == shot.findings.end() || worst->severity == Severity::note) return "";
  return worst->severity == Severity::void_ ? "!!" : "!";
}

std::vector<std::string> shot_lines(const intake::Recording& recording) {
  const bool timed = std::ranges::any_of(recording.shots, [](const shot::Shot& shot) { return shot.impact_lag_s.has_value(); });
  const bool fast = std::ranges::any_of(recording.shots, [](const shot::Shot& shot) { return shot.arrow_speed_m_s.has_value(); });
  TextTable table;
  table.add_column("shot", "");
  table.add_column("at", "m:s");
  table.add_column("hum", "0-10");
  table.add_column("ping", "0-10");
  table.add_column("exposure", "dB(A)");
  table.add_column("peak", "dB");
  table.add_column("loudness", "sone");
  table.add_column("sharp", "acum");
  table.add_column("early", "ms");
  table.add_column("late", "ms");
  table.add_column("floor", "dB(A)");
  table.add_column("hits", "");
  if (timed) table.add_column("impact", "ms");
  if (fast) table.add_column("arrow", "m/s");
  table.add_column("", "", TextTable::Side::left);
  for (const shot::Shot& shot : recording.shots) {
    std::vector<std::string> cells = {
        std::to_string(shot.number),
        clock_text(shot.onset_s),
        plain_number(shot.hum, 1),
        plain_number(shot.ping, 1),
        plain_number(shot.levels.exposure_db, 1),
        plain_number(shot.levels.peak_db, 1),
        plain_number(shot.levels.loudness_sone, 1),
        plain_number(shot.levels.sharpness_acum, 2),
        milliseconds(shot.ring_down.early_s),
        milliseconds(shot.ring_down.late_s),
        plain_number(shot.levels.floor_db, 1),
        std::to_string(shot.hits.size())};
    if (timed) cells.push_back(milliseconds(shot.impact_lag_s));
    if (fast) cells.push_back(plain_number(shot.arrow_speed_m_s, 1));
    cells.push_back(marks(shot));
    table.add_row(std::move(cells));
  }
  return table.lines(2);
}

std::string tone_lines(const intake::Recording& recording, const Ink& ink) {
  std::string out;
  for (const shot::Shot& shot : recording.shots) {
    if (shot.tones.empty()) continue;
    std::string line = fmt::format("shot {}: ", shot.number);
    for (std::size_t k = 0; k < std::min(shot.tones.size(), kTonesShown); ++k) {
      const shot::Tone& tone = shot.tones[k];
      line += fmt::format("{}{} {} {}", k == 0 ? "" : ", ", frequency_text(tone.frequency_hz),
                          with_unit(tone.level_db, "dB", 0), duration_text(tone.ring_time_s));
    }
    if (shot.tones.size() > kTonesShown) line += fmt::format(" and {} weaker", shot.tones.size() - kTonesShown);
    out += "  " + wrapped(line, kMeasureLineWidth, 4) + "\n";
  }
  if (out.empty()) return out;
  return "\n" + ink.strong("  Tones in the tail") + ink.quiet(" (pitch, level at its start, 60 dB ring time)") + "\n" + out;
}

/// One line a finding; the same finding of several shots is said once.
std::string finding_lines(const intake::Recording& recording, const Ink& ink) {
  struct Said {
    const Finding* finding;
    std::vector<int> shots;
  };
  std::vector<Said> said;
  const auto add = [&said](const Finding& finding, int shot) {
    // Sentences of one code about the same numbers differ by their figures; the first one speaks for all such shots.
    const auto same = std::ranges::find_if(said, [&](const Said& other) {
      return other.finding->code == finding.code && other.finding->severity == finding.severity &&
             other.finding->voids == finding.voids && (shot == 0) == other.shots.empty();
    });
    if (same != said.end() && shot != 0) {
      if (same->shots.back() != shot) same->shots.push_back(shot);
    } else {
      said.push_back({&finding, shot == 0 ? std::vector<int>{} : std::vector{shot}});
    }
  };
  for (const Finding& finding : recording.findings) add(finding, 0);
  for (const shot::Shot& shot : recording.shots) {
    for (const Finding& finding : shot.findings) add(finding, shot.number);
  }
  if (said.empty()) return "";
  std::ranges::stable_sort(said, std::greater<>{}, [](const Said& entry) { return entry.finding->severity; });
  std::string out = "\n" + ink.strong("  Findings") + "\n";
  for (const Said& entry : said) {
    std::string head(severity_name(entry.finding->severity));
    if (!entry.shots.empty()) {
      const bool all = entry.shots.size() == recording.shots.size() && entry.shots.size() > 1;
      head += all ? ", every shot" : entry.shots.size() == 1 ? ", shot" : ", shots";
      if (!all) {
        for (std::size_t k = 0; k < entry.shots.size(); ++k) {
          head += fmt::format("{}{}", k == 0 ? " " : ", ", entry.shots[k]);
        }
      }
    }
    head += ": ";
    const std::string text = wrapped(head + entry.finding->sentence, kMeasureLineWidth, 4);
    const std::string dressed = entry.finding->severity == Severity::void_     ? ink.stop(text)
                                : entry.finding->severity == Severity::caution ? ink.caution(text)
                                                                               : text;
    out += "  " + dressed + "\n";
  }
  return out;
}

}  // namespace

std::string measure_text(const intake::Recording& recording, const Ink& ink) {
  std::string out = ink.strong(printable(recording.file)) + "\n";
  out += "  " + ink.quiet(fmt::format(
                    "{}, {:g} Hz, {}, {}; levels {}", recording.format.description,
                    recording.format.sample_rate_hz,
                    recording.format.channels == 1
                        ? std::string("mono")
                        : fmt::format("channel {} of {}", recording.channel, recording.format.channels),
                    clock_text(recording.duration_s),
                    recording.scale.full_scale_db_spl ? "re 20 uPa" : "re full scale (not calibrated)")) + "\n";
  if (recording.shots.empty()) {
    out += "\n  No shot was found.\n";  // the findings say more
  } else {
    out += "\n";
    const auto lines = shot_lines(recording);
    for (std::size_t k = 0; k < lines.size(); ++k) out += k < 2 ? ink.quiet(lines[k]) : lines[k];
    out += tone_lines(recording, ink);
  }
  return out + finding_lines(recording, ink);
}

}  // namespace ringfall::terminal
