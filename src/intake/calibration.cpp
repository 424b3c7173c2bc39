// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/calibration.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "audio/channel_reader.h"
#include "base/failure.h"
#include "shot/calibrator_tone.h"

namespace ringfall::intake {
namespace {

constexpr double kBlock_s = 0.5;
constexpr double kSteady_db = 0.5;      // a calibrator holds 0.2 dB; handling at start and end is cut off
constexpr double kPurity_db = 26.0;     // IEC 60942 asks for 2.5-3 % (-32 to -30 dB) of the calibrator alone; a room adds
constexpr std::size_t kBlocksNeeded = 2;

}  // namespace

Calibration calibrate(const std::string& path, double calibrator_db, std::optional<int> channel) {
  audio::ChannelReader reader(audio::open_sound(path), channel ? *channel - 1 : audio::loudest_channel(path));
  const double rate_hz = reader.format().sample_rate_hz;
  const auto refuse = [&path](const std::string& why) {
    return FileFailure(fmt::format(
        "{}: {}; record two seconds or more of the calibrator's tone with the gain and microphone of the shots", path, why));
  };
  std::vector<float> samples(static_cast<std::size_t>(kBlock_s * rate_hz));
  std::vector<shot::CalibratorTone> blocks;
  // Ten minutes are plenty; the list stays short whatever the file.
  while (blocks.size() < 1200) {
    std::size_t filled = 0;
    while (filled < samples.size()) {
      const std::size_t got = reader.read(std::span(samples).subspan(filled));
      if (got == 0) break;
      filled += got;
    }
    if (filled < samples.size()) break;
    const auto block = shot::calibrator_tone(samples, rate_hz);
    if (block.purity_db >= kPurity_db) blocks.push_back(block);
  }
  if (blocks.size() < kBlocksNeeded) throw refuse("no steady tone is in it");
  // The first and last pure block may hold the tone's start and end.
  if (blocks.size() > 2 * kBlocksNeeded) blocks = {blocks.begin() + 1, blocks.end() - 1};
  const auto [low, high] = std::ranges::minmax(blocks, {}, &shot::CalibratorTone::rms_db);
  if (high.rms_db - low.rms_db > kSteady_db) {
    throw refuse(fmt::format("the tone's level moves by {:.1f} dB", high.rms_db - low.rms_db));
  }
  if (std::ranges::max(blocks, {}, &shot::CalibratorTone::peak).peak >= 0.999) throw refuse("the tone is clipped");
  std::ranges::sort(blocks, {}, &shot::CalibratorTone::rms_db);
  const auto& middle = blocks[blocks.size() / 2];
  return {calibrator_db - middle.rms_db, middle.tone_hz, high.rms_db - low.rms_db};
}

}  // namespace ringfall::intake
