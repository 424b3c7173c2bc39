// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/take_writer.h"

#include <fmt/format.h>
#include <sndfile.h>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <vector>

#include "audio/exact_24_bit.h"
#include "audio/sound_file.h"
#include "audio/sound_writer.h"
#include "base/failure.h"

namespace ringfall::audio {

struct TakeWriter::File {
  std::string path;
  SNDFILE* sound = nullptr;
  ~File() { sf_close(sound); }
};

TakeWriter::TakeWriter(const std::string& path, double sample_rate_hz) : file_(std::make_unique<File>()) {
  if (std::filesystem::exists(path)) throw FileFailure(path + ": a take of this name is there already; move it away.");
  file_->path = path;
  SF_INFO info{};
  info.samplerate = static_cast<int>(std::lround(sample_rate_hz));
  info.channels = 1;
  info.format = SF_FORMAT_W64 | SF_FORMAT_FLOAT;
  file_->sound = sf_open(path.c_str(), SFM_WRITE, &info);
  if (file_->sound == nullptr) {
    throw FileFailure(fmt::format("{}: the take can't be recorded there ({}); check the folder.", path, sf_strerror(nullptr)));
  }
  sf_command(file_->sound, SFC_SET_ADD_PEAK_CHUNK, nullptr, SF_FALSE);
}

TakeWriter::~TakeWriter() = default;

const std::string& TakeWriter::path() const { return file_->path; }

void TakeWriter::write(std::span<const float> samples) {
  const auto wanted = static_cast<sf_count_t>(samples.size());
  if (sf_write_float(file_->sound, samples.data(), wanted) == wanted && sf_error(file_->sound) == 0) return;
  throw FileFailure(file_->path + ": the take can't be recorded any further; is the disk full? A shot is kept as long as the logbook's disk has room: make some.");
}

void TakeWriter::sync() { sf_write_sync(file_->sound); }

std::string pack_take(const std::string& path) {
  const auto reader = open_sound(path);
  const std::string packed = std::filesystem::path(path).replace_extension(".flac").string();
  SoundWriter writer(packed, reader->format().sample_rate_hz, 1, SampleCoding::flac_24_bit);
  std::vector<float> block(1U << 16U);
  while (const std::size_t got = reader->read(block)) {
    const auto heard = std::span<const float>(block).first(got);
    if (!exact_in_24_bit(heard)) return path;
    writer.write(heard);
  }
  writer.close();
  std::remove(path.c_str());
  return packed;
}

}  // namespace ringfall::audio
