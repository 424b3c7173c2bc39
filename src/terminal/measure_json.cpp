// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/measure_json.h"

#include <nlohmann/json.hpp>

#include "base/check.h"
#include "base/units.h"
#include "report/json_text.h"

namespace ringfall::terminal {

using report::Json;
using report::json_findings;
using report::json_number;
using report::json_text;
using report::json_tool;

namespace {

Json json_of(const shot::Levels& levels) {
  return {{"peak_db", json_number(levels.peak_db)},
          {"exposure_db", json_number(levels.exposure_db)},
          {"exposure_z_db", json_number(levels.exposure_z_db)},
          {"exposure_high_db", json_number(levels.exposure_high_db)},
          {"fast_max_db", json_number(levels.fast_max_db)},
          {"loudness_sone", json_number(levels.loudness_sone)},
          {"sharpness_acum", json_number(levels.sharpness_acum)},
          {"floor_db", json_number(levels.floor_db)}};
}

Json json_of(const shot::RingDown& ring) {
  Json bands = Json::array();
  for (const shot::BandDecay& band : ring.bands) {
    bands.push_back({{"centre_hz", band.centre_hz}, {"late_s", json_number(band.late_s)},
                     {"range_db", json_number(band.range_db)}});
  }
  return {{"early_s", json_number(ring.early_s)},     {"late_s", json_number(ring.late_s)},
          {"early_z_s", json_number(ring.early_z_s)}, {"late_z_s", json_number(ring.late_z_s)},
          {"range_db", json_number(ring.range_db)},   {"to_20_db_s", json_number(ring.to_20_db_s)},
          {"bands", bands}};
}

const char* family_name(shot::ToneFamily family) {
  switch (family) {
    case shot::ToneFamily::hum: return "hum";
    case shot::ToneFamily::mid: return "mid";
    case shot::ToneFamily::ping: return "ping";
  }
  check(false, "unknown tone family");
  return "";
}

Json json_of(const shot::ScoreParts& parts) {
  return {{"strength_db", json_number(parts.strength_db)}, {"ring_time_s", json_number(parts.ring_time_s)},
          {"pitch_hz", json_number(parts.pitch_hz)}};
}

Json json_of(const shot::Shot& shot) {
  Json hits = Json::array();
  for (const shot::Hit& hit : shot.hits) {
    hits.push_back({{"lag_s", json_number(hit.lag_s)}, {"level_db", json_number(hit.level_db)}});
  }
  Json tones = Json::array();
  for (const shot::Tone& tone : shot.tones) {
    tones.push_back({{"frequency_hz", json_number(tone.frequency_hz)}, {"level_db", json_number(tone.level_db)},
                     {"ring_time_s", json_number(tone.ring_time_s)},
                     {"damping_ratio", json_number(tone.damping_ratio)}, {"family", family_name(tone.family)}});
  }
  Json buzz = nullptr;
  if (shot.buzz) {
    buzz = {{"modulation_db", json_number(shot.buzz->modulation_db)}, {"rate_hz", json_number(shot.buzz->rate_hz)}};
  }
  return {{"number", shot.number},
          {"onset_s", json_number(shot.onset_s)},
          {"tail_end_s", json_number(shot.tail_end_s)},
          {"impact_lag_s", json_number(shot.impact_lag_s)},
          {"arrow_speed_m_s", json_number(shot.arrow_speed_m_s)},
          {"hits", hits},
          {"levels", json_of(shot.levels)},
          {"ring_down", json_of(shot.ring_down)},
          {"tones", tones},
          {"hum", json_number(shot.hum)},
          {"ping", json_number(shot.ping)},
          {"hum_at_most", json_number(shot.hum_at_most)},
          {"ping_at_most", json_number(shot.ping_at_most)},
          {"hum_tail_db", json_number(shot.hum_tail_db)},
          {"ping_tail_db", json_number(shot.ping_tail_db)},
          {"hum_parts", json_of(shot.hum_parts)},
          {"ping_parts", json_of(shot.ping_parts)},
          {"buzz", buzz},
          {"findings", json_findings(shot.findings)}};
}

Json json_of(const intake::Recording& recording) {
  Json shots = Json::array();
  for (const shot::Shot& shot : recording.shots) shots.push_back(json_of(shot));
  return {{"file", recording.file},
          {"format", recording.format.description},
          {"sample_rate_hz", json_number(recording.format.sample_rate_hz)},
          {"channels", recording.format.channels},
          {"channel", recording.channel},
          {"duration_s", json_number(recording.duration_s)},
          {"level_reference", recording.scale.full_scale_db_spl ? "re 20 uPa" : "re full scale"},
          {"full_scale_db_spl", json_number(recording.scale.full_scale_db_spl)},
          {"findings", json_findings(recording.findings)},
          {"shots", shots}};
}

Json json_of(const shot::Settings& settings) {
  const auto& find = settings.find;
  const auto& measure = settings.measure;
  return {{"shot_window_s", measure.shot_window_s},
          {"pre_roll_s", find.pre_roll_s},
          {"post_roll_s", find.post_roll_s},
          {"expect", find.expect ? Json(*find.expect) : Json(nullptr)},
          {"distance_m", json_number(find.distance_m)},
          {"arrow_speed_m_s", json_number(find.arrow_speed_m_s)},
          {"temperature_c", find.temperature_c},
          {"floor_begin_s", measure.floor_begin_s},
          {"floor_end_s", measure.floor_end_s},
          {"hum_tail_start_s", measure.hum_tail_start_s},
          {"ping_tail_start_s", measure.ping_tail_start_s},
          {"impact_guard_s", measure.impact_guard_s},
          {"tail_limit_s", measure.tail_limit_s},
          {"hum_tail_needed_s", measure.hum_tail_needed_s},
          {"ping_tail_needed_s", measure.ping_tail_needed_s},
          {"hum_low_hz", measure.hum_low_hz},
          {"hum_high_hz", measure.hum_high_hz},
          {"ping_low_hz", measure.ping_low_hz},
          {"ping_high_hz", measure.ping_high_hz},
          {"hum_level_start_s", measure.hum_level_start_s},
          {"ping_level_start_s", measure.ping_level_start_s},
          {"tail_level_end_s", measure.tail_level_end_s},
          {"hit_window_s", measure.hit_window_s},
          {"decay_range_needed_db", measure.decay_range_needed_db},
          {"nominal_full_scale_db_spl", kNominalFullScale_db_spl}};
}

}  // namespace

Json shot_json(const shot::Shot& shot) { return json_of(shot); }

std::string measure_json(const std::vector<intake::Recording>& recordings, const shot::Settings& settings) {
  Json list = Json::array();
  for (const auto& recording : recordings) list.push_back(json_of(recording));
  const Json all = {{"tool", json_tool()},
                    {"settings", json_of(settings)},
                    {"recordings", list}};
  return json_text(all);
}

}  // namespace ringfall::terminal
