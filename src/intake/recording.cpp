// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/recording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <memory>
#include <utility>

#include "audio/channel_reader.h"
#include "base/failure.h"
#include "base/units.h"
#include "intake/recording_findings.h"
#include "shot/arrow_flight.h"
#include "shot/measure.h"
#include "shot/room.h"

namespace ringfall::intake {
namespace {

constexpr std::size_t kBlock = 1U << 16U;
constexpr std::size_t kRoomsHeard = 8;  // the room is the same for all shots

/// Reads all of `reader` through the finder and measures every event as soon as its sound is complete.
struct Listening {
  std::vector<shot::Event> events;
  std::vector<shot::Measured> measured;
  std::vector<std::vector<std::optional<double>>> impact_s;  ///< of the first events that have an impact, else empty
  std::int64_t samples = 0;
  bool stopped = false;
};

Listening listen(audio::ChannelReader& reader, const RecordingOptions& options, const Progress& progress) {
  Listening heard;
  const double rate_hz = reader.format().sample_rate_hz;
  std::size_t rooms_heard = 0;
  shot::ShotFinder finder(rate_hz, options.settings.find, [&](shot::FoundEvent&& found) {
    heard.events.push_back(found.event);
    heard.impact_s.emplace_back();
    if (rooms_heard < kRoomsHeard) {
      heard.impact_s.back() = shot::impact_decay_s(found.clip, options.settings.measure);
      if (!heard.impact_s.back().empty()) ++rooms_heard;
    }
    heard.measured.push_back(shot::measure_shot(found.clip, options.scale, options.settings.measure));
  });
  std::vector<float> block(kBlock);
  while (const std::size_t got = reader.read(block)) {
    finder.push(std::span(block).first(got));
    heard.samples += static_cast<std::int64_t>(got);
    if (!progress) continue;
    const auto frames = reader.format().frames;
    const auto share = frames && *frames > 0
                           ? std::optional(static_cast<double>(heard.samples) / static_cast<double>(*frames))
                           : std::nullopt;
    if (!progress(share)) {
      heard.stopped = true;
      break;
    }
  }
  finder.finish();
  return heard;
}

/// The speed needs the distance; without it the lag alone stands.
void add_speed(shot::Shot& shot, const shot::FindSettings& find) {
  if (!find.distance_m || !shot.impact_lag_s) return;
  shot.arrow_speed_m_s = shot::arrow_speed_m_s(*find.distance_m, *shot.impact_lag_s, find.temperature_c);
}

/// A sound that ended the tail but is no impact: none of the other shots has one there.
void drop_impact(shot::Shot& shot, shot::Event& place) {
  shot.impact_lag_s.reset();
  if (!place.next_shot_sample || *place.next_shot_sample > *place.impact_sample) place.next_shot_sample = place.impact_sample;
  place.impact_sample.reset();
  shot.findings.push_back({"impact_doubtful", Severity::note, {Quantity::impact},
                           "The sound after this shot comes at another time than the other shots' impacts: it ends the tail, but "
                           "is not taken for the arrow."});
}

}  // namespace

Recording measure_recording(const std::string& path, const RecordingOptions& options, const Progress& progress) {
  Recording recording;
  recording.file = path;
  recording.scale = options.scale;
  const int channel = options.channel ? *options.channel - 1 : audio::loudest_channel(path);
  audio::ChannelReader reader(audio::open_sound(path), channel);
  recording.format = reader.format();
  recording.channel = channel + 1;

  Listening heard = listen(reader, options, progress);
  recording.stopped = heard.stopped;
  const double rate_hz = recording.format.sample_rate_hz;
  recording.duration_s = static_cast<double>(heard.samples) / rate_hz;
  recording.findings = reader.findings();

  const auto selection = shot::select_shots(heard.events, rate_hz, options.settings.find);
  recording.findings.insert(recording.findings.end(), selection.findings.begin(), selection.findings.end());
  std::vector<shot::ChainEvidence> evidence;
  std::vector<shot::RoomEvidence> rooms;
  for (const std::size_t k : selection.shots) {
    recording.places.push_back(heard.events[k]);
    recording.shots.push_back(std::move(heard.measured[k].shot));
    evidence.push_back(std::move(heard.measured[k].evidence));
    rooms.push_back({std::move(heard.impact_s[k]), {}});
    for (const auto& band : recording.shots.back().ring_down.bands) rooms.back().shot_s.push_back(band.late_s);
    recording.shots.back().number = static_cast<int>(recording.shots.size());
    if (std::ranges::binary_search(selection.doubtful_impacts, k)) {
      drop_impact(recording.shots.back(), recording.places.back());
      rooms.back().impact_s.clear();
    }
    add_speed(recording.shots.back(), options.settings.find);
  }
  if (const auto room = shot::judge_room(rooms)) recording.findings.push_back(*room);
  judge_recording(recording, evidence);
  return recording;
}

}  // namespace ringfall::intake
