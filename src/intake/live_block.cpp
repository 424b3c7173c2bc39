// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/live_block.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "audio/exact_24_bit.h"
#include "audio/sound_bytes.h"
#include "base/version.h"
#include "shot/measure.h"

namespace ringfall::intake {
namespace {

constexpr const char* kNoShot = "not a shot: an impact or an echo";
constexpr const char* kUnlike = "not counted: too unlike the other shots, or a neighbour's";

shot::Clip without_samples(const shot::Clip& clip) {
  shot::Clip places = clip;
  places.samples.clear();
  return places;
}

}  // namespace

LiveBlock::LiveBlock(logbook::Logbook& logbook, const RecordingOptions& options, logbook::NewBlock block, Tell tell)
    : logbook_(logbook), options_(options), block_(std::move(block)), tell_(std::move(tell)), heard_(options) {}

void LiveBlock::keep(const shot::Clip& clip) {
  if (number_ == 0) {
    number_ = logbook_.add_block(block_);
    tell_(BlockStarted{number_, block_.setup});
  }
  logbook::CodedClip coded;
  coded.onset_s = (static_cast<double>(clip.onset_sample) + clip.onset_fraction) / clip.sample_rate_hz;
  const bool flac = audio::exact_in_24_bit(clip.samples);
  coded.coding = flac ? "flac" : "wav";
  coded.bytes = audio::sound_bytes(clip.samples, clip.sample_rate_hz,
                                   flac ? audio::SampleCoding::flac_24_bit : audio::SampleCoding::wav_float);
  coded.places = without_samples(clip);
  coded.number = 0;
  // The very same samples twice come from a file, or from a device that plays one. While somebody shoots nothing is refused: it is
  // kept, and left out in the same step.
  const auto there = logbook_.place_of(coded);
  logbook::Transaction kept(logbook_.database());
  const std::int64_t id = logbook_.add_clip(number_, coded);
  const std::string reason = there ? fmt::format("the very sound of shot {} in block {} again", there->shot, there->block) : "";
  if (there) logbook_.drop_shot(id, reason);
  kept.commit();
  kept_[clip.onset_sample] = {id, there.has_value(), there.has_value()};
  tell_(ShotKept{id, number_, coded.onset_s});
  if (there) tell_(ShotLeftOut{id, number_, coded.onset_s, reason});
}

void LiveBlock::first_look(const shot::Clip& clip) {
  ShotMeasured look;
  look.block = number_;
  look.onset_s = seconds(clip.onset_sample);
  look.first_look = true;
  look.shot = shot::measure_shot(clip, options_.scale, options_.settings.measure).shot;
  tell_(std::move(look));
}

void LiveBlock::measure(std::int64_t onset, const shot::FoundEvent& found) {
  const auto place = kept_.find(onset);
  if (place == kept_.end()) return;
  const Kept kept = place->second;
  kept_.erase(place);
  ShotMeasured result;
  result.shot = heard_.add(found);
  measured_.push_back(kept);
  add_lost_finding(result.shot);
  shot::void_numbers(result.shot, result.shot.findings);
  logbook_.set_places(kept.id, result.shot.onset_s, without_samples(found.clip));
  logbook_.set_numbers(kept.id, result.shot, kVersion);
  count_anew();
  result.id = kept.id;
  result.block = number_;
  result.onset_s = result.shot.onset_s;
  result.counted = !measured_.back().left_out;
  tell_(std::move(result));
}

void LiveBlock::refute(std::int64_t onset, bool kept) {
  const auto place = kept_.find(onset);
  if (kept && place != kept_.end()) {
    leave_out(place->second, onset, kNoShot);
    kept_.erase(place);
  } else {
    tell_(ShotLeftOut{std::nullopt, number_, seconds(onset), kNoShot});
  }
}

void LiveBlock::leave_out(Kept& kept, std::int64_t onset, const std::string& reason) {
  kept.left_out = true;
  logbook_.drop_shot(kept.id, reason);
  tell_(ShotLeftOut{kept.id, number_, seconds(onset), reason});
}

void LiveBlock::count_anew() {
  const auto& events = heard_.events();
  const auto selection = shot::select_shots(events, block_.sample_rate_hz, options_.settings.find);
  for (std::size_t k = 0; k < measured_.size(); ++k) {
    const bool counts = std::ranges::binary_search(selection.shots, k);
    if (!counts && !measured_[k].left_out) leave_out(measured_[k], events[k].onset_sample, kUnlike);
    if (counts && measured_[k].left_out && !measured_[k].again) {
      measured_[k].left_out = false;
      logbook_.drop_shot(measured_[k].id, "");
      tell_(ShotTakenBack{measured_[k].id});
    }
  }
}

void LiveBlock::mark_lost(std::int64_t begin, std::int64_t end) { lost_.push_back({begin, end}); }

void LiveBlock::add_lost_finding(shot::Shot& shot) const {
  const double rate_hz = block_.sample_rate_hz;
  const auto touches = [&](const Span& lost) {
    return shot.onset_s + options_.settings.find.post_roll_s > static_cast<double>(lost.begin) / rate_hz &&
           shot.onset_s - options_.settings.find.pre_roll_s < static_cast<double>(lost.end) / rate_hz;
  };
  if (!std::ranges::any_of(lost_, touches) || has_finding(shot.findings, "sound_lost")) return;
  shot.findings.push_back({"sound_lost", Severity::caution,
                           {Quantity::levels, Quantity::ring_down, Quantity::tones, Quantity::hum, Quantity::ping, Quantity::impact},
                           "The sound device lost sound near this shot: its numbers may be off. Close other programs, or leave "
                           "this shot out.", Origin::recording});
}

void LiveBlock::end(std::vector<Finding> findings, std::optional<std::string> take) {
  while (!kept_.empty()) refute(kept_.begin()->first, true);
  if (number_ == 0) return;
  Recording recording;
  recording.file = block_.file;
  recording.format.description = "listened to";
  recording.format.sample_rate_hz = block_.sample_rate_hz;
  recording.format.channels = 1;
  recording.scale = options_.scale;
  recording.findings = std::move(findings);
  const auto shots = std::move(heard_).conclude(recording);
  BlockEnded ended{number_, {}, {}, std::move(take)};
  for (std::size_t k = 0; k < shots.size(); ++k) {
    const std::int64_t id = measured_[shots[k]].id;
    const shot::Event& place = recording.places[k];
    shot::Shot& shot = recording.shots[k];
    add_lost_finding(shot);
    shot::Clip places;
    places.onset_sample = place.onset_sample;
    places.onset_fraction = place.onset_fraction;
    places.impact_sample = place.impact_sample;
    places.next_shot_sample = place.next_shot_sample;
    logbook_.set_places(id, shot.onset_s, places);
    logbook_.set_numbers(id, shot, kVersion);
    if (!measured_[shots[k]].again) ended.shots.push_back(id);
  }
  logbook_.set_block_findings(number_, recording.findings);
  ended.findings = std::move(recording.findings);
  tell_(std::move(ended));
}

}  // namespace ringfall::intake
