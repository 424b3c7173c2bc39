// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/recording.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <memory>
#include <utility>

#include "audio/channel_reader.h"
#include "intake/heard_events.h"
#include "intake/work_line.h"

namespace ringfall::intake {
namespace {

constexpr std::size_t kBlock = 1U << 16U;

/// Reads all of `reader` through the finder; every event is measured as soon as its sound is complete.
struct Reading {
  HeardEvents heard;
  std::int64_t samples = 0;
  float peak = 0.0F;
  bool stopped = false;
};

Reading read_all(audio::ChannelReader& reader, const RecordingOptions& options, const Progress& progress) {
  Reading reading{HeardEvents(options)};
  WorkLine line(options.other_threads);
  shot::ShotFinder finder(reader.format().sample_rate_hz, options.settings.find,
                          [&](shot::FoundEvent&& found) { reading.heard.add(std::move(found), line); });
  std::vector<float> block(kBlock);
  while (const std::size_t got = reader.read(block)) {
    const auto heard = std::span(block).first(got);
    finder.push(heard);
    for (const float sample : heard) reading.peak = std::max(reading.peak, std::abs(sample));
    reading.samples += static_cast<std::int64_t>(got);
    if (!progress) continue;
    const auto frames = reader.format().frames;
    const auto share = frames && *frames > 0
                           ? std::optional(static_cast<double>(reading.samples) / static_cast<double>(*frames))
                           : std::nullopt;
    if (!progress(share)) {
      reading.stopped = true;
      break;
    }
  }
  finder.finish();
  line.finish();
  return reading;
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

  Reading reading = read_all(reader, options, progress);
  recording.stopped = reading.stopped;
  recording.duration_s = static_cast<double>(reading.samples) / recording.format.sample_rate_hz;
  recording.peak = reading.peak;
  recording.findings = reader.findings();
  std::move(reading.heard).conclude(recording);
  return recording;
}

}  // namespace ringfall::intake
