// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/heard_events.h"

#include <algorithm>
#include <memory>
#include <utility>

#include "intake/recording_findings.h"
#include "shot/arrow_flight.h"
#include "shot/room.h"

namespace ringfall::intake {
namespace {

constexpr std::size_t kRoomsHeard = 8;  // the room is the same for all shots

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
                           "is not taken for the arrow.", Origin::recording});
}

}  // namespace

shot::Measured& HeardEvents::enter(const shot::FoundEvent& found) {
  events_.push_back(found.event);
  impact_s_.emplace_back();
  if (rooms_heard_ < kRoomsHeard) {
    impact_s_.back() = shot::impact_decay_s(found.clip, options_.settings.measure);
    if (!impact_s_.back().empty()) ++rooms_heard_;
  }
  return measured_.emplace_back();
}

const shot::Shot& HeardEvents::add(const shot::FoundEvent& found) {
  auto& measured = enter(found);
  measured = shot::measure_shot(found.clip, options_.scale, options_.settings.measure);
  return measured.shot;
}

void HeardEvents::add(shot::FoundEvent&& found, WorkLine& line) {
  auto& measured = enter(found);
  // std::function wants what can be copied.
  line.give([this, &measured, clip = std::make_shared<const shot::Clip>(std::move(found.clip))] {
    measured = shot::measure_shot(*clip, options_.scale, options_.settings.measure);
  });
}

std::vector<std::size_t> HeardEvents::conclude(Recording& recording) && {
  const auto selection = shot::select_shots(events_, recording.format.sample_rate_hz, options_.settings.find);
  recording.findings.insert(recording.findings.end(), selection.findings.begin(), selection.findings.end());
  std::vector<shot::ChainEvidence> evidence;
  std::vector<shot::RoomEvidence> rooms;
  for (const std::size_t k : selection.shots) {
    recording.places.push_back(events_[k]);
    recording.shots.push_back(std::move(measured_[k].shot));
    evidence.push_back(std::move(measured_[k].evidence));
    rooms.push_back({std::move(impact_s_[k]), {}});
    for (const auto& band : recording.shots.back().ring_down.bands) rooms.back().shot_s.push_back(band.late_s);
    recording.shots.back().number = static_cast<int>(recording.shots.size());
    if (std::ranges::binary_search(selection.doubtful_impacts, k)) {
      drop_impact(recording.shots.back(), recording.places.back());
      rooms.back().impact_s.clear();
    }
    add_speed(recording.shots.back(), options_.settings.find);
  }
  if (const auto room = shot::judge_room(rooms)) recording.findings.push_back(*room);
  judge_recording(recording, evidence);
  return selection.shots;
}

}  // namespace ringfall::intake
