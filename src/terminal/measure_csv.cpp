// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/measure_csv.h"

#include <fmt/format.h>

#include <optional>

#include "base/csv.h"
#include "shot/numbers.h"

namespace ringfall::terminal {
namespace {

std::string cell(std::optional<double> value) {
  return value ? fmt::format("{:.6g}", *value) : std::string();
}

std::string codes(const intake::Recording& recording, const shot::Shot& shot) {
  std::string all;
  for (const auto* findings : {&recording.findings, &shot.findings}) {
    for (const Finding& finding : *findings) all += (all.empty() ? "" : " ") + finding.code;
  }
  return all;
}

std::string tones(const shot::Shot& shot) {
  std::string all;
  for (const shot::Tone& tone : shot.tones) {
    all += fmt::format("{}{:.5g}Hz/{:.1f}dB/{:.3g}s", all.empty() ? "" : " ", tone.frequency_hz, tone.level_db,
                       tone.ring_time_s);
  }
  return all;
}

}  // namespace

std::string measure_csv(const std::vector<intake::Recording>& recordings) {
  std::string out = "file,shot,onset_s,tail_end_s,hits";
  for (const shot::Number& number : shot::numbers()) out += "," + std::string(number.id);
  out += ",buzz_rate_hz,tones,level_reference,findings\r\n";
  for (const auto& recording : recordings) {
    for (const auto& shot : recording.shots) {
      out += fmt::format("{},{},{:.5f},{},{}", csv_cell(recording.file), shot.number, shot.onset_s,
                         shot.tail_end_s ? fmt::format("{:.5f}", *shot.tail_end_s) : "", shot.hits.size());
      for (const shot::Number& number : shot::numbers()) out += "," + cell(number.of(shot));
      out += fmt::format(",{},{},{},{}\r\n", shot.buzz ? cell(shot.buzz->rate_hz) : "", tones(shot),
                         recording.scale.full_scale_db_spl ? "re 20 uPa" : "re full scale",
                         codes(recording, shot));
    }
  }
  return out;
}

}  // namespace ringfall::terminal
