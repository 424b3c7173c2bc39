// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <vector>

#include "audio/sound_writer.h"
#include "base/csv.h"
#include "base/failure.h"
#include "plot/write.h"
#include "terminal/demo_scenario.h"
#include "terminal/exit_status.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {
namespace {

namespace fs = std::filesystem;

constexpr double kLeadIn_s = 2.0;
constexpr double kTooMuchGain_db = 16.0;

/// The recording of one block; `seed` differs from block to block.
std::vector<float> recording_of(const DemoBlock& block, std::uint64_t seed) {
  const double length_s = kLeadIn_s + kDemoSpacing_s * static_cast<double>(block.shots.size());
  std::vector<double> pressure_pa(static_cast<std::size_t>(length_s * kDemoRate_hz), 0.0);
  shot::add_white_noise(pressure_pa, kDemoFloor_db, seed);
  for (std::size_t k = 0; k < block.shots.size(); ++k) {
    const double onset_s = kLeadIn_s + kDemoSpacing_s * static_cast<double>(k) + 0.137 * static_cast<double>(k % 3);
    shot::add_synthetic_shot(pressure_pa, kDemoRate_hz, onset_s, block.shots[k].sound, seed * 100 + k);
  }
  const double full_scale_db = kDemoFullScale_db_spl - (block.clipped ? kTooMuchGain_db : 0.0);
  auto samples = shot::to_full_scale(pressure_pa, full_scale_db);
  // An integer file ends at full scale: here is where a gain left too high does its damage.
  for (float& sample : samples) sample = std::clamp(sample, -1.0F, 1.0F);
  return samples;
}

std::string setups_table(const std::vector<DemoBlock>& blocks) {
  std::string out = "file,setup,block,note,drop\n";
  for (const DemoBlock& block : blocks) {
    out += fmt::format("{},{},{},{},{}\n", csv_cell(block.file), csv_cell(block.setup), block.block,
                       csv_cell(block.note), csv_cell(block.dropped));
  }
  return out;
}

std::string comments_table(const std::vector<DemoBlock>& blocks) {
  std::string out = "file,shot,loud,hum,ping,feel,words\n";
  for (const DemoBlock& block : blocks) {
    for (std::size_t k = 0; k < block.shots.size(); ++k) {
      const SaidOfShot& said = block.shots[k].said;
      out += fmt::format("{},{},{},{},{},{},{}\n", csv_cell(block.file), k + 1, said.loud, said.hum, said.ping,
                         said.feel, csv_cell(said.words));
    }
  }
  return out;
}

}  // namespace

int demo(const DemoRequest& request) {
  const fs::path folder(request.folder);
  std::error_code failed;
  fs::create_directories(folder, failed);
  if (failed) {
    throw FileFailure(fmt::format("{}: the folder can't be made ({}); choose another", request.folder, failed.message()));
  }
  const auto blocks = demo_blocks();
  for (std::size_t k = 0; k < blocks.size(); ++k) {
    audio::write_wav((folder / blocks[k].file).string(), recording_of(blocks[k], 7001 + k), kDemoRate_hz,
                     audio::SampleCoding::wav_24_bit);
  }
  plot::write_whole_file(folder / "setups.csv", setups_table(blocks));
  plot::write_whole_file(folder / "comments.csv", comments_table(blocks));
  plot::write_whole_file(folder / "README.txt", demo_story());
  fmt::print("{} recordings, setups.csv, comments.csv and README.txt are in {}\n"
             "Everything in it is invented and the sound is synthetic.\n"
             "Next: ringfall compare {} --main hum\n",
             blocks.size(), request.folder, request.folder);
  return kDone;
}

}  // namespace ringfall::terminal
