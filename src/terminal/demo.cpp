// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <filesystem>
#include <system_error>
#include <vector>

#include "audio/sound_writer.h"
#include "base/csv.h"
#include "base/failure.h"
#include "intake/demo_evening.h"
#include "plot/write.h"
#include "terminal/exit_status.h"
#include "terminal/output.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {
namespace {

namespace fs = std::filesystem;

std::string setups_table(const std::vector<intake::DemoBlock>& blocks) {
  std::string out = "file,setup,block,added_mass_g,note,drop\n";
  for (const intake::DemoBlock& block : blocks) {
    const std::string mass = block.added_mass_kg ? fmt::format("{:g}", *block.added_mass_kg * 1000.0) : std::string();
    out += fmt::format("{},{},{},{},{},{}\n", csv_cell(block.file), csv_cell(block.setup), block.block, mass, csv_cell(block.note),
                       csv_cell(block.dropped));
  }
  return out;
}

std::string comments_table(const std::vector<intake::DemoBlock>& blocks) {
  std::string out = "file,shot,loud,hum,ping,feel,words\n";
  for (const intake::DemoBlock& block : blocks) {
    for (std::size_t k = 0; k < block.shots.size(); ++k) {
      const intake::SaidOfShot& said = block.shots[k].said;
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
  if (fs::exists(folder, failed) && !(fs::is_directory(folder, failed) && fs::is_empty(folder, failed))) {
    throw FileFailure(request.folder + ": there is something in it already, and nothing is written over; give a new folder");
  }
  fs::create_directories(folder, failed);
  if (failed) {
    throw FileFailure(fmt::format("{}: the folder can't be made ({}); choose another", request.folder, failed.message()));
  }
  const auto blocks = intake::demo_blocks();
  for (std::size_t k = 0; k < blocks.size(); ++k) {
    audio::write_wav((folder / blocks[k].file).string(), intake::demo_samples(blocks, k), intake::kDemoRate_hz,
                     audio::SampleCoding::wav_24_bit);
  }
  plot::write_whole_file(folder / "setups.csv", setups_table(blocks));
  plot::write_whole_file(folder / "comments.csv", comments_table(blocks));
  plot::write_whole_file(folder / "README.txt", intake::demo_story());
  print_out("{} recordings, setups.csv, comments.csv and README.txt are in {}\n"
             "Everything in it is invented and the sound is synthetic.\n\n{}\n"
             "Next: ringfall compare {}\n",
             blocks.size(), request.folder, intake::demo_truth_text(), request.folder);
  return kDone;
}

}  // namespace ringfall::terminal
