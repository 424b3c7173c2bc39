// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/measure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

#include "base/check.h"
#include "shot/buzz.h"
#include "shot/clip_faults.h"
#include "shot/hits.h"
#include "shot/pressure_clip.h"
#include "shot/ring_score.h"
#include "shot/shot_levels.h"
#include "shot/shot_ring_down.h"
#include "shot/tail_disturbance.h"
#include "shot/tail_level.h"
#include "shot/tail_tones.h"
#include "signal/shot_loudness.h"

namespace ringfall::shot {
namespace {

constexpr double kLoudnessLeadIn_s = 0.030;
constexpr double kLikelyBuzz_db = 12.0;  // noise gives 8 to 10
constexpr double kNothingHeard = 0.3;    // beside such a score the most that could hide is said as well
constexpr double kSlightRing = 1.0;      // from here on: less than a slight ring needs no word
constexpr double kTopScore = 10.0;
constexpr double kFloorClear_db = 15.0;  // shot window against the floor's share of it

/// Positions in the recording as seconds after the edge.
double after_edge_s(const Clip& clip, std::int64_t sample) {
  return (static_cast<double>(sample - clip.onset_sample) - clip.onset_fraction) / clip.sample_rate_hz;
}

void add_loudness(const PressureClip& clip, double undisturbed_s, const MeasureSettings& settings, Levels& levels) {
  const double end_s = std::min(settings.shot_window_s, undisturbed_s);
  const auto loudness = signal::shot_loudness(clip.between(-kLoudnessLeadIn_s, end_s), clip.sample_rate_hz());
  if (!loudness) return;
  levels.loudness_sone = loudness->loudness_max_sone;
  levels.sharpness_acum = loudness->sharpness_acum;
}

void add_disturbances(const Clip& clip, double undisturbed_s, const MeasureSettings& settings,
                      std::vector<Finding>& findings) {
  if (clip.impact_sample && after_edge_s(clip, *clip.impact_sample) - settings.impact_guard_s < settings.shot_window_s) {
    findings.push_back(
        {"impact_in_window", Severity::note, {Quantity::levels},
         fmt::format("The arrow strikes {:.0f} ms after the loud edge, inside the {:.0f} ms window; levels are taken up to "
                     "{:.0f} ms. Compare only with shots from the same distance, or stand farther back.",
                     1000.0 * after_edge_s(clip, *clip.impact_sample), 1000.0 * settings.shot_window_s,
                     1000.0 * undisturbed_s)});
  }
  if (clip.next_shot_sample && after_edge_s(clip, *clip.next_shot_sample) < settings.tail_limit_s) {
    findings.push_back({"shots_overlap", Severity::caution,
                        {Quantity::ring_down, Quantity::hum, Quantity::ping},
                        fmt::format("Another loud event follows {:.0f} ms later, inside this one's tail; only the part before "
                                    "it is measured.",
                                    1000.0 * after_edge_s(clip, *clip.next_shot_sample))});
  }
  const double end_s =
      after_edge_s(clip, clip.first_sample + static_cast<std::int64_t>(clip.samples.size()));
  if (end_s < settings.shot_window_s && end_s <= undisturbed_s + settings.impact_guard_s) {
    findings.push_back({"ends_inside_shot", Severity::caution, {Quantity::levels, Quantity::loudness},
                        fmt::format("The recording ends {:.0f} ms after the loud edge, inside the {:.0f} ms window: levels and "
                                    "loudness hold only what is there. Let it run on for a second after the last shot.",
                                    1000.0 * end_s, 1000.0 * settings.shot_window_s)});
  }
}

void add_tail_disturbed(double undisturbed_s, const MeasureSettings& settings, std::vector<Finding>& findings) {
  std::vector<Quantity> spoiled = {Quantity::ring_down, Quantity::hum, Quantity::ping};
  if (undisturbed_s < settings.shot_window_s) spoiled.push_back(Quantity::levels);
  findings.push_back({"tail_disturbed", Severity::caution, std::move(spoiled),
                      fmt::format("Something else sounds from {:.0f} ms after the loud edge on (a voice, another shot, an impact): "
                                  "only the part before it is measured. Wait for quiet, and let each shot die away.",
                                  1000.0 * undisturbed_s)});
}

void add_floor_finding(const Levels& levels, double window_s, std::vector<Finding>& findings) {
  if (!levels.floor_db && !voided(findings, Quantity::floor)) {
    findings.push_back({"no_floor", Severity::void_, {Quantity::floor},
                        "The recording holds too little sound before this shot to know the background. Start recording a second "
                        "or more before the first shot."});
  }
  if (!levels.floor_db || !levels.exposure_db) return;
  const double over_db = *levels.exposure_db - 10.0 * std::log10(window_s) - *levels.floor_db;
  if (over_db >= kFloorClear_db) return;
  findings.push_back({"noisy_floor", Severity::caution, {Quantity::levels, Quantity::ring_down},
                      fmt::format("The shot stands only {:.0f} dB above the background: its levels hold noise as well. Find a "
                                  "quieter place or move the microphone nearer (behind the line).",
                                  over_db)});
}

/// Why the undisturbed tail ends where it does, and what to do.
const char* tail_advice(const Clip& clip) {
  if (clip.impact_sample) return "the arrow strikes then. Shoot from farther back, so that it strikes later";
  if (clip.next_shot_sample) return "something else is heard then. Let each shot die away before the next";
  return "the recording ends then. Let it run on after the shot";
}

void add_score_finding(const char* name, Quantity quantity, const RingScore& score, const Clip& clip, double tail_s,
                       double needed_s, std::vector<Finding>& findings) {
  if (score.tail_too_short) {
    findings.push_back({"tail_too_short", Severity::void_, {quantity},
                        fmt::format("{} needs {:.0f} ms of undisturbed tail and has {:.0f} ms: {}.",
                                    quantity == Quantity::hum ? "Hum" : "Ping", 1000.0 * needed_s, 1000.0 * tail_s,
                                    tail_advice(clip))});
  } else if (score.masked) {
    findings.push_back({"tail_masked", Severity::void_, {quantity},
                        fmt::format("The thump, the room or the background may hide a ringing tone in the tail, so {} can't be "
                                    "told from this shot alone. Shoot more shots with the same set-up, or find a quieter, "
                                    "deader place.",
                                    name)});
  } else if (!score.score) {
    findings.push_back({"band_limited", Severity::void_, {quantity},
                        fmt::format("The file's sample rate leaves no room for the band of {}.", name)});
  } else if (score.mostly_extrapolated) {
    findings.push_back({"tail_too_short", Severity::caution, {quantity},
                        fmt::format("More than half of {} was followed beyond the {:.0f} ms that could be heard; it rests on "
                                    "the fitted ring times.",
                                    name, 1000.0 * tail_s)});
  }
  if (score.score && *score.score >= kTopScore) {
    findings.push_back({"scale_ends", Severity::note, {quantity},
                        fmt::format("The scale of {0} ends at 10: this is 10 or more. Its strength and ring time tell how much.", name)});
  }
}

/// The most that may hide, where there is no score or nothing was heard though a ring could have hidden.
std::optional<double> worth_saying(const RingScore& score) {
  if (score.score && (*score.score >= kNothingHeard || score.at_most.value_or(0.0) < kSlightRing)) return std::nullopt;
  return score.at_most;
}

void add_tones(const Clip& clip, const PressureClip& pressure, double undisturbed_s, const MeasureSettings& settings,
               Measured& measured) {
  Shot& shot = measured.shot;
  const double edge = static_cast<double>(clip.onset_sample - clip.first_sample) + clip.onset_fraction;
  const auto tail = cut_tail(pressure.all(), clip.sample_rate_hz, edge, undisturbed_s, settings);
  const TailTones heard = find_tones(tail, settings);
  shot.tones = heard.tones;
  measured.evidence.steady_hz = heard.steady_hz;
  const RingScore hum = ring_score(ToneFamily::hum, heard.tones, heard, settings);
  const RingScore ping = ring_score(ToneFamily::ping, heard.tones, heard, settings);
  shot.hum = hum.score;
  shot.ping = ping.score;
  shot.hum_at_most = worth_saying(hum);
  shot.ping_at_most = worth_saying(ping);
  shot.hum_parts = hum.parts;
  shot.ping_parts = ping.parts;
  add_score_finding("hum", Quantity::hum, hum, clip, undisturbed_s, settings.hum_tail_needed_s, shot.findings);
  add_score_finding("ping", Quantity::ping, ping, clip, undisturbed_s, settings.ping_tail_needed_s, shot.findings);
  shot.buzz = buzz_of(pressure.all(), clip.sample_rate_hz, edge, undisturbed_s);
}

void add_tail_levels(const PressureClip& pressure, const ShotSegment& segment, const MeasureSettings& settings, Shot& shot) {
  const TailLevels levels = tail_levels(pressure, segment, settings);
  const auto set = [&shot](const std::optional<TailLevel>& level, const char* name, Quantity quantity, std::optional<double>& db) {
    if (!level) return;
    db = level->level_db;
    if (!level->at_floor) return;
    shot.findings.push_back({"tail_at_floor", Severity::note, {quantity},
                             fmt::format("The tail's {} band is hardly above the background: its level is the most that it can be. A "
                                         "quieter place tells more.", name)});
  };
  if (segment.end_s - segment.edge_s < settings.tail_level_end_s && !levels.hum) {
    shot.findings.push_back({"tail_level_short", Severity::note, {Quantity::hum, Quantity::ping},
                             fmt::format("The tail's levels need {:.0f} ms before the impact (or whatever is heard next); there is no such "
                                         "stretch. Shoot from farther back.",
                                         1000.0 * settings.tail_level_end_s)});
  }
  set(levels.hum, "hum", Quantity::hum, shot.hum_tail_db);
  set(levels.ping, "ping", Quantity::ping, shot.ping_tail_db);
}

void shift(std::optional<double>& level_db, double offset_db) {
  if (level_db) *level_db += offset_db;
}

/// Everything is measured in dB re 20 uPa; without a calibration it is printed re full scale.
void shift_levels(Shot& shot, double offset_db) {
  Levels& levels = shot.levels;
  for (auto* level : {&levels.peak_db, &levels.exposure_db, &levels.exposure_z_db, &levels.exposure_high_db,
                      &levels.fast_max_db, &levels.floor_db, &shot.hum_tail_db,
                      &shot.ping_tail_db, &shot.hum_parts.strength_db, &shot.ping_parts.strength_db}) {
    shift(*level, offset_db);
  }
  for (Tone& tone : shot.tones) tone.level_db += offset_db;
  for (Hit& hit : shot.hits) shift(hit.level_db, offset_db);
}

}  // namespace

Measured measure_shot(const Clip& clip, const Scale& scale, const MeasureSettings& settings) {
  check(clip.sample_rate_hz >= 8000.0 && clip.sample_rate_hz <= 192000.0, "a clip's rate is 8 to 192 kHz");
  Measured measured;
  Shot& shot = measured.shot;
  const PressureClip pressure(clip, scale);
  double undisturbed = undisturbed_s(clip, settings);
  shot.onset_s = (static_cast<double>(clip.onset_sample) + clip.onset_fraction) / clip.sample_rate_hz;
  if (clip.impact_sample) shot.impact_lag_s = after_edge_s(clip, *clip.impact_sample);

  measured.evidence = chain_evidence(clip, settings);
  shot.findings = clip_faults(clip);
  add_disturbances(clip, undisturbed, settings, shot.findings);

  const Floor floor = measure_floor(pressure, settings);
  auto segment = std::make_unique<ShotSegment>(pressure, undisturbed);
  const double edge = static_cast<double>(clip.onset_sample - clip.first_sample) + clip.onset_fraction;
  const auto buzz = buzz_of(pressure.all(), clip.sample_rate_hz, edge, undisturbed);
  if (const auto foreign_s = tail_disturbance_s(*segment, floor, buzz && buzz->modulation_db >= kLikelyBuzz_db ? std::optional(buzz->rate_hz) : std::nullopt)) {
    undisturbed = *foreign_s;
    add_tail_disturbed(undisturbed, settings, shot.findings);
    segment = std::make_unique<ShotSegment>(pressure, undisturbed);
  }
  shot.levels = measure_levels(pressure, *segment, floor, settings);
  add_loudness(pressure, undisturbed, settings, shot.levels);
  add_floor_finding(shot.levels, std::min(settings.shot_window_s, undisturbed), shot.findings);

  const RingDownResult ring_down = measure_ring_down(*segment, floor, settings);
  shot.ring_down = ring_down.numbers;
  shot.tail_end_s = shot.onset_s + std::min(undisturbed, ring_down.floor_takes_over_s);

  shot.hits = find_hits(pressure.between(-0.002, std::min(settings.hit_window_s, undisturbed)), clip.sample_rate_hz,
                        0.002);
  add_tail_levels(pressure, *segment, settings, shot);
  add_tones(clip, pressure, undisturbed, settings, measured);
  shift_levels(shot, scale.printed_offset_db());
  void_numbers(shot, shot.findings);
  return measured;
}

}  // namespace ringfall::shot
