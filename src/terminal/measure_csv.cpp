// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/measure_csv.h"

#include <fmt/format.h>

#include <functional>
#include <optional>

namespace ringfall::terminal {
namespace {

std::string quoted(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string out = "\"";
  for (const char letter : text) {
    if (letter == '"') out += '"';
    out += letter;
  }
  return out + "\"";
}

std::string cell(std::optional<double> value) {
  return value ? fmt::format("{:.6g}", *value) : std::string();
}

struct Column {
  const char* name;
  std::function<std::string(const intake::Recording&, const shot::Shot&)> text;
};

std::string codes(const intake::Recording& recording, const shot::Shot& shot) {
  std::string all;
  for (const auto* findings : {&recording.findings, &shot.findings}) {
    for (const Finding& finding : *findings) all += (all.empty() ? "" : " ") + finding.code;
  }
  return all;
}

std::string strongest(const shot::Shot& shot, shot::ToneFamily family) {
  for (const shot::Tone& tone : shot.tones) {
    if (tone.family == family) return cell(tone.frequency_hz);
  }
  return {};
}

const std::vector<Column>& columns() {
  using R = const intake::Recording&;
  using S = const shot::Shot&;
  static const std::vector<Column> all = {
      {"file", [](R recording, S) { return quoted(recording.file); }},
      {"shot", [](R, S shot) { return std::to_string(shot.number); }},
      {"onset_s", [](R, S shot) { return fmt::format("{:.5f}", shot.onset_s); }},
      {"tail_end_s", [](R, S shot) { return fmt::format("{:.5f}", shot.tail_end_s); }},
      {"impact_lag_s", [](R, S shot) { return cell(shot.impact_lag_s); }},
      {"arrow_speed_m_s", [](R, S shot) { return cell(shot.arrow_speed_m_s); }},
      {"hits", [](R, S shot) { return std::to_string(shot.hits.size()); }},
      {"peak_db", [](R, S shot) { return cell(shot.levels.peak_db); }},
      {"exposure_db", [](R, S shot) { return cell(shot.levels.exposure_db); }},
      {"exposure_z_db", [](R, S shot) { return cell(shot.levels.exposure_z_db); }},
      {"exposure_high_db", [](R, S shot) { return cell(shot.levels.exposure_high_db); }},
      {"fast_max_db", [](R, S shot) { return cell(shot.levels.fast_max_db); }},
      {"loudness_sone", [](R, S shot) { return cell(shot.levels.loudness_sone); }},
      {"sharpness_acum", [](R, S shot) { return cell(shot.levels.sharpness_acum); }},
      {"floor_db", [](R, S shot) { return cell(shot.levels.floor_db); }},
      {"early_s", [](R, S shot) { return cell(shot.ring_down.early_s); }},
      {"late_s", [](R, S shot) { return cell(shot.ring_down.late_s); }},
      {"early_z_s", [](R, S shot) { return cell(shot.ring_down.early_z_s); }},
      {"late_z_s", [](R, S shot) { return cell(shot.ring_down.late_z_s); }},
      {"range_db", [](R, S shot) { return cell(shot.ring_down.range_db); }},
      {"to_20_db_s", [](R, S shot) { return cell(shot.ring_down.to_20_db_s); }},
      {"hum", [](R, S shot) { return cell(shot.hum); }},
      {"hum_strength_db", [](R, S shot) { return cell(shot.hum_parts.strength_db); }},
      {"hum_ring_time_s", [](R, S shot) { return cell(shot.hum_parts.ring_time_s); }},
      {"hum_pitch_hz", [](R, S shot) { return cell(shot.hum_parts.pitch_hz); }},
      {"ping", [](R, S shot) { return cell(shot.ping); }},
      {"ping_strength_db", [](R, S shot) { return cell(shot.ping_parts.strength_db); }},
      {"ping_ring_time_s", [](R, S shot) { return cell(shot.ping_parts.ring_time_s); }},
      {"ping_pitch_hz", [](R, S shot) { return cell(shot.ping_parts.pitch_hz); }},
      {"mid_pitch_hz", [](R, S shot) { return strongest(shot, shot::ToneFamily::mid); }},
      {"buzz_rate_hz",
       [](R, S shot) { return shot.buzz ? cell(shot.buzz->rate_hz) : std::string(); }},
      {"level_reference",
       [](R recording, S) {
         return std::string(recording.scale.full_scale_db_spl ? "re 20 uPa" : "re full scale");
       }},
      {"findings", codes},
  };
  return all;
}

}  // namespace

std::string measure_csv(const std::vector<intake::Recording>& recordings) {
  std::string out;
  for (const Column& column : columns()) out += (out.empty() ? "" : ",") + std::string(column.name);
  out += "\r\n";
  for (const auto& recording : recordings) {
    for (const auto& shot : recording.shots) {
      bool first = true;
      for (const Column& column : columns()) {
        out += (first ? "" : ",") + column.text(recording, shot);
        first = false;
      }
      out += "\r\n";
    }
  }
  return out;
}

}  // namespace ringfall::terminal
