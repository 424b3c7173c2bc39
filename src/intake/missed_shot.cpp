// SPDX-License-Identifier: GPL-3.0-or-later
// A shot that a person says the finder missed: is it one, is it new, and is this its recording?
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "audio/sound_file.h"
#include "base/failure.h"
#include "base/text.h"
#include "intake/clips.h"
#include "intake/kept_clip.h"
#include "intake/logbook_intake.h"
#include "shot/energy_hops.h"
#include "shot/onset_candidate.h"
#include "shot/sample_ring.h"

namespace ringfall::intake {
namespace {

constexpr double kNearEdge_s = 0.050;       // a person reads the place off a picture
constexpr double kRise = 4.0;               // 6 dB in power over the 16 ms before: the finder's own first look
constexpr double kFaintest = 3e-9;          // mean square difference: fainter edges are no shots, as for the finder
constexpr double kOtherSound = 0.01;        // -20 dB: what another coding of the same recording stays below

/// Attacks this close together are hits of one shot.
void refuse_known_shot(const logbook::KeptBlock& block, double edge_s) {
  const double apart_s = shot::MeasureSettings{}.hit_window_s;
  for (const auto& kept : block.shots) {
    if (std::abs(kept.shot.onset_s - edge_s) > apart_s) continue;
    std::string what = fmt::format("shot {} is there already, at {}", kept.id, clock_text(kept.shot.onset_s));
    if (!kept.dropped.empty()) what += fmt::format("; it is left out ({}), and `ringfall restore` takes it in again", kept.dropped);
    throw RequestFailure(what);
  }
}

/// Is there a sudden rise near the edge?
bool rises_near(const shot::Clip& clip, std::int64_t edge) {
  const double rate_hz = clip.sample_rate_hz;
  shot::SampleRing ring(clip.samples.size());
  ring.push(clip.samples);
  shot::EnergyHops hops(rate_hz, clip.samples.size() / shot::EnergyHops(rate_hz, 1).hop_samples() + 1);
  hops.push(clip.samples);
  const auto hop_of = [&](double seconds) {
    const double sample = static_cast<double>(edge - clip.first_sample) + seconds * rate_hz;
    return static_cast<std::int64_t>(sample / static_cast<double>(hops.hop_samples()));
  };
  for (std::int64_t hop = std::max<std::int64_t>(3, hop_of(-kNearEdge_s)); hop < std::min(hops.count(), hop_of(kNearEdge_s) + 1); ++hop) {
    if (hops.at(hop) < kFaintest || hops.at(hop) < kRise * hops.mean(hop - 18, hop - 2)) continue;
    if (shot::look_at_onset(ring, hops, hop, rate_hz)) return true;
  }
  return false;
}

/// Does the recording hold what the logbook kept of a shot, at the same place?
bool same_sound(const shot::Clip& kept, const shot::Clip& heard) {
  const std::int64_t begin = std::max(kept.first_sample, heard.first_sample);
  const std::int64_t end = std::min(kept.first_sample + static_cast<std::int64_t>(kept.samples.size()),
                                    heard.first_sample + static_cast<std::int64_t>(heard.samples.size()));
  double energy = 0.0;
  double difference = 0.0;
  for (std::int64_t n = begin; n < end; ++n) {
    const double was = kept.samples[static_cast<std::size_t>(n - kept.first_sample)];
    const double is = heard.samples[static_cast<std::size_t>(n - heard.first_sample)];
    energy += was * was;
    difference += (was - is) * (was - is);
  }
  return begin < end && difference <= kOtherSound * energy;
}

/// A place whose clip clips_of() can cut.
struct WantedPlace {
  shot::Event event;
  std::optional<std::int64_t> known;  ///< id of a shot that is kept; nullopt: the missed one
};

std::vector<WantedPlace> wanted_places(const logbook::Logbook& logbook, const logbook::KeptBlock& block, std::int64_t edge) {
  const shot::FindSettings settings;
  std::vector<WantedPlace> places(1);
  shot::Event& missed = places.front().event;
  missed.onset_sample = edge;
  for (const auto& kept : block.shots) {
    WantedPlace other;
    other.known = kept.id;
    other.event.onset_sample = logbook.clip(kept.id).places.onset_sample;
    if (other.event.onset_sample > edge && !places.front().event.next_shot_sample &&
        static_cast<double>(other.event.onset_sample - edge) <= settings.post_roll_s * block.sample_rate_hz) {
      places.front().event.next_shot_sample = other.event.onset_sample;
    }
    places.push_back(other);
  }
  std::ranges::stable_sort(places, {}, [](const WantedPlace& place) { return place.event.onset_sample; });
  return places;
}

Recording recording_of(const logbook::KeptBlock& block, const std::string& file) {
  Recording recording;
  recording.file = file;
  recording.format = audio::open_sound(file)->format();
  if (recording.format.sample_rate_hz != block.sample_rate_hz) {
    throw RequestFailure(fmt::format("{}: {:g} Hz, but the recording of block {} had {:g} Hz; give the right one with --recording", file,
                                     recording.format.sample_rate_hz, block.number, block.sample_rate_hz));
  }
  recording.channel = block.channel ? *block.channel : audio::loudest_channel(file) + 1;
  return recording;
}

/// The clip of the missed shot; every known shot of the block must be in the recording at its place. nullopt: it has ended by then.
std::optional<shot::Clip> cut_clip(const logbook::Logbook& logbook, const logbook::KeptBlock& block, Recording recording,
                                   std::int64_t edge) {
  const auto places = wanted_places(logbook, block, edge);
  for (const auto& place : places) recording.places.push_back(place.event);
  std::vector<bool> heard(places.size(), false);
  std::optional<shot::Clip> missed;
  const auto refuse_other = [&](const WantedPlace& place) {
    throw RequestFailure(fmt::format("{}: this is not the recording of block {}: the sound of shot {} is not at {} in it; give the right "
                                     "one with --recording",
                                     recording.file, block.number, *place.known,
                                     clock_text(static_cast<double>(place.event.onset_sample) / block.sample_rate_hz)));
  };
  clips_of(recording, {}, [&](std::size_t index, const shot::Clip& clip) {
    heard[index] = true;
    if (!places[index].known) {
      if (clip.first_sample + static_cast<std::int64_t>(clip.samples.size()) > edge) missed = clip;
    } else if (!same_sound(kept_clip(logbook, *places[index].known), clip)) {
      refuse_other(places[index]);
    }
  });
  for (std::size_t k = 0; k < places.size(); ++k) {
    if (places[k].known && !heard[k]) refuse_other(places[k]);
  }
  return missed;
}

}  // namespace

std::int64_t add_missed_shot(logbook::Logbook& logbook, std::int64_t block, double edge_s, const std::optional<std::string>& file) {
  const auto blocks = logbook.blocks();
  const auto kept = std::ranges::find(blocks, block, &logbook::KeptBlock::number);
  if (kept == blocks.end()) throw RequestFailure(fmt::format("there is no block {}", block));
  refuse_known_shot(*kept, edge_s);
  const Recording recording = recording_of(*kept, file.value_or(kept->file));
  const auto edge = static_cast<std::int64_t>(std::llround(edge_s * kept->sample_rate_hz));
  const auto clip = cut_clip(logbook, *kept, recording, edge);
  if (!clip) throw RequestFailure(fmt::format("{}: the recording has ended by {}", recording.file, clock_text(edge_s)));
  if (!rises_near(*clip, edge)) {
    throw RequestFailure(fmt::format("{}: nothing rises above the floor within {:.0f} ms of {}, so no shot begins there; look at the "
                                     "time again", recording.file, 1000.0 * kNearEdge_s, clock_text(edge_s)));
  }
  shot::Shot shot;
  shot.onset_s = static_cast<double>(edge) / kept->sample_rate_hz;
  const std::int64_t id = logbook.add_clip(block, coded_clip(*clip, shot, recording.format));
  logbook.say_missed_shot(block, shot.onset_s, id);
  measure_again(logbook, id);
  return id;
}

}  // namespace ringfall::intake
