// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/demo_logbook.h"

#include <stdlib.h>

#include <filesystem>
#include <system_error>

#include "audio/sound_writer.h"
#include "base/failure.h"
#include "intake/demo_evening.h"
#include "intake/logbook_intake.h"

namespace ringfall::intake {
namespace {

namespace fs = std::filesystem;

/// A folder for the recordings while they are measured.
class PassingFolder {
 public:
  PassingFolder() {
    std::string name = (fs::temp_directory_path() / "ringfall-demo-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw FileFailure(name + ": no folder can be made for the demo's recordings; set TMPDIR");
    folder_ = name;
  }
  ~PassingFolder() {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }
  PassingFolder(const PassingFolder&) = delete;
  PassingFolder& operator=(const PassingFolder&) = delete;
  std::string path(const std::string& name) const { return (folder_ / name).string(); }

 private:
  fs::path folder_;
};

void keep_block(logbook::Logbook& book, const DemoBlock& block, const std::string& file) {
  RecordingOptions options;
  options.settings.find.distance_m = book.conditions().distance_m;
  const auto added = add_recording(book, measure_recording(file, options), options.settings.find,
                                   {block.setup, block.note, block.dropped, 0, block.file});
  for (std::size_t k = 0; k < added.shots.size() && k < block.shots.size(); ++k) {
    const SaidOfShot& said = block.shots[k].said;
    logbook::Comment comment;
    comment.loud = said.loud;
    comment.hum = said.hum;
    comment.ping = said.ping;
    comment.feel = said.feel;
    comment.words = said.words;
    book.add_comment(added.shots[k], comment);
  }
}

}  // namespace

bool make_demo_logbook(const std::string& path, const std::function<bool(double)>& go_on) {
  const PassingFolder folder;
  const auto blocks = demo_blocks();
  const std::string unfinished = folder.path("demo.ringfall");
  {  // for the logbook's time
    logbook::Conditions evening;
    evening.bow = "grey take-down (invented)";
    evening.place = "Fernbank net-loft (invented)";
    evening.distance_m = 18.0;
    evening.chain = "synthetic sound, no microphone";
    auto book = logbook::Logbook::start(unfinished, evening);
    for (std::size_t k = 0; k < blocks.size(); ++k) {
      bool known = false;
      for (std::size_t before = 0; before < k; ++before) known = known || blocks[before].setup == blocks[k].setup;
      if (!known) {
        logbook::SetUp setup;
        setup.name = blocks[k].setup;
        setup.changed = blocks[k].note;
        setup.added_mass_kg = blocks[k].added_mass_kg;
        book.add_setup(setup);
      }
      const std::string file = folder.path(blocks[k].file);
      audio::write_wav(file, demo_samples(blocks, k), kDemoRate_hz, audio::SampleCoding::wav_24_bit);
      keep_block(book, blocks[k], file);
      if (!go_on(static_cast<double>(k + 1) / static_cast<double>(blocks.size()))) return false;
    }
  }
  // Closed, it is one whole file.
  std::error_code failed;
  if (!fs::copy_file(unfinished, path, failed)) {
    throw LogbookFailure(path + ": the demo's logbook can't be put there (" + failed.message() + "); choose another name");
  }
  return true;
}

}  // namespace ringfall::intake
