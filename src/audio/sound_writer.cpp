// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/sound_writer.h"

#include <fcntl.h>
#include <sndfile.h>

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstdint>
#include <utility>
#include <vector>

#include "audio/integer_samples.h"
#include "audio/system_reason.h"
#include "audio/unique_fd.h"
#include "base/check.h"
#include "base/failure.h"
#include "base/new_file.h"

namespace ringfall::audio {
namespace {

// RIFF counts bytes in 32 bits; the last MB is left to the header.
constexpr std::uint64_t kMostWavBytes = 0xFFFFFFFFULL - (1U << 20U);

int sndfile_format(SampleCoding coding) {
  switch (coding) {
    case SampleCoding::wav_16_bit: return SF_FORMAT_WAV | SF_FORMAT_PCM_16;
    case SampleCoding::wav_24_bit: return SF_FORMAT_WAV | SF_FORMAT_PCM_24;
    case SampleCoding::wav_float: return SF_FORMAT_WAV | SF_FORMAT_FLOAT;
    case SampleCoding::flac_24_bit: return SF_FORMAT_FLAC | SF_FORMAT_PCM_24;
  }
  check(false, "unknown sample coding");
  return 0;
}

}  // namespace

struct SoundWriter::File {
  std::string path;
  std::unique_ptr<NewFile> unfinished;
  UniqueFd fd;
  SNDFILE* sound = nullptr;
  std::uint64_t bytes_left = 0;
  std::uint64_t sample_bytes = 0;
  int channels = 0;
  int bits = 0;  ///< of integers; 0: floats
  std::vector<int> integers;

  ~File() {
    if (sound != nullptr) sf_close(sound);
  }

  void create_unfinished() {
    unfinished = std::make_unique<NewFile>(path);
    // By a descriptor, because sf_open would leave it open to child processes.
    fd = UniqueFd(::open(unfinished->temporary().c_str(), O_RDWR | O_CLOEXEC | O_NOFOLLOW));
    if (!fd.open()) fail(errno);
  }

  [[noreturn]] void fail(int error) const {
    throw FileFailure(path + ": could not be written to its end (" + (error != 0 ? system_reason(error) : "libsndfile refused it") +
                      "); free some space on the disk and try again. Nothing was left under that name.");
  }
};

SoundWriter::SoundWriter(const std::string& path, double sample_rate_hz, int channels, SampleCoding coding)
    : file_(std::make_unique<File>()) {
  file_->path = path;
  file_->channels = channels;
  SF_INFO info{};
  info.samplerate = static_cast<int>(std::lround(sample_rate_hz));
  info.channels = channels;
  info.format = sndfile_format(coding);
  check(static_cast<double>(info.samplerate) == sample_rate_hz, "a file's sample rate is a whole number");
  if (sf_format_check(&info) == 0) {
    throw FileFailure(path + ": this kind of file can't hold " + std::to_string(channels) + " channels at " +
                      std::to_string(info.samplerate) + " Hz.");
  }
  file_->bits = coding == SampleCoding::wav_float ? 0 : coding == SampleCoding::wav_16_bit ? 16 : 24;
  file_->sample_bytes = file_->bits == 0 ? sizeof(float) : static_cast<std::uint64_t>(file_->bits / 8);
  file_->bytes_left = coding == SampleCoding::flac_24_bit ? UINT64_MAX : kMostWavBytes;
  file_->create_unfinished();
  file_->sound = sf_open_fd(file_->fd.release(), SFM_WRITE, &info, SF_TRUE);
  if (file_->sound == nullptr) file_->fail(errno);
  // The peak chunk would make every file differ by its time of writing.
  sf_command(file_->sound, SFC_SET_ADD_PEAK_CHUNK, nullptr, SF_FALSE);
}

SoundWriter::~SoundWriter() = default;

void SoundWriter::write(std::span<const float> interleaved) {
  check(file_->sound != nullptr, "a closed file is not written to");
  check(interleaved.size() % static_cast<std::size_t>(file_->channels) == 0, "a block holds whole frames");
  const std::uint64_t bytes = interleaved.size() * file_->sample_bytes;
  if (bytes > file_->bytes_left) {
    throw FileFailure(file_->path + ": would be larger than the 4 GB a WAV file can hold; write shorter pieces or FLAC.");
  }
  file_->bytes_left -= bytes;
  errno = 0;
  const auto wanted = static_cast<sf_count_t>(interleaved.size());
  sf_count_t written = 0;
  if (file_->bits == 0) {
    written = sf_write_float(file_->sound, interleaved.data(), wanted);
  } else {
    file_->integers.resize(interleaved.size());
    std::ranges::transform(interleaved, file_->integers.begin(), [this](float x) { return left_justified(x, file_->bits); });
    written = sf_write_int(file_->sound, file_->integers.data(), wanted);
  }
  if (written != wanted || sf_error(file_->sound) != 0) file_->fail(errno);
}

void SoundWriter::close() {
  check(file_->sound != nullptr, "a file is closed once");
  const int error_before = sf_error(file_->sound);
  errno = 0;
  const int error = sf_close(std::exchange(file_->sound, nullptr));
  if (error_before != 0 || error != 0) file_->fail(errno);
  file_->unfinished->place_over();
}

void write_wav(const std::string& path, std::span<const float> samples, double sample_rate_hz, SampleCoding coding) {
  check(coding != SampleCoding::flac_24_bit, "write_wav writes WAV");
  SoundWriter writer(path, sample_rate_hz, 1, coding);
  writer.write(samples);
  writer.close();
}

}  // namespace ringfall::audio
