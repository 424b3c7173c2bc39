// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/sound_bytes.h"

#include <fmt/format.h>
#include <stdlib.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <system_error>

#include "audio/sound_file.h"
#include "base/finding.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

namespace fs = std::filesystem;

/// A folder of its own for one file, gone with the object.
class TemporaryFile {
 public:
  TemporaryFile() {
    std::error_code error;
    std::string name = (fs::temp_directory_path(error) / "ringfall-XXXXXX").string();
    if (error || !mkdtemp(name.data())) {
      throw FileFailure(fmt::format("{}: no temporary file can be made there; set TMPDIR to another folder", name));
    }
    folder_ = name;
  }
  ~TemporaryFile() {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  std::string path() const { return (folder_ / "sound").string(); }

 private:
  fs::path folder_;
};

}  // namespace

std::string sound_bytes(std::span<const float> samples, double sample_rate_hz, SampleCoding coding) {
  const TemporaryFile temporary;
  SoundWriter writer(temporary.path(), sample_rate_hz, 1, coding);
  writer.write(samples);
  writer.close();
  std::ifstream file(temporary.path(), std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  if (bytes.empty()) {
    throw FileFailure(temporary.path() + ": the temporary sound can't be read back; set TMPDIR to another folder");
  }
  return bytes;
}

std::vector<float> samples_of_bytes(std::string_view bytes) {
  const TemporaryFile temporary;
  std::ofstream file(temporary.path(), std::ios::binary);
  file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  file.close();
  if (!file) throw FileFailure(temporary.path() + ": the temporary sound can't be written; is the disk full?");
  const auto reader = open_sound(temporary.path());
  std::vector<float> samples;
  std::array<float, 1U << 14U> block{};
  while (const std::size_t got = reader->read(block)) samples.insert(samples.end(), block.begin(), block.begin() + got);
  // FLAC's own checksums stop the reading at the first frame that is not as it was written.
  if (has_finding(reader->findings(), "truncated")) throw FileFailure("the sound breaks off: its bytes are not as they were written");
  return samples;
}

}  // namespace ringfall::audio
