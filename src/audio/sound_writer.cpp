// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/sound_writer.h"

#include <fcntl.h>
#include <sndfile.h>

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <utility>
#include <vector>

#include "audio/system_reason.h"
#include "audio/unique_fd.h"
#include "base/check.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

// RIFF counts bytes in 32 bits; the last MB is left to the header.
constexpr std::uint64_t kMostWavBytes = 0xFFFFFFFFULL - (1U << 20U);
constexpr int kMostNames = 1000;

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

// The nearest integer of so many bits, clipped, at the top of 32 bits as sf_write_int wants it; NaN becomes 0.
int left_justified(float sample, int bits) {
  const double full_scale = std::ldexp(1.0, bits - 1);
  const double scaled = std::isnan(sample) ? 0.0 : std::nearbyint(static_cast<double>(sample) * full_scale);
  return static_cast<int>(std::clamp(scaled, -full_scale, full_scale - 1.0)) * (1 << (32 - bits));
}

}  // namespace

struct SoundWriter::File {
  std::string path;
  std::string unfinished;  ///< its name until it is whole; empty: none on disk
  UniqueFd fd;
  SNDFILE* sound = nullptr;
  std::uint64_t bytes_left = 0;
  std::uint64_t sample_bytes = 0;
  int channels = 0;
  int bits = 0;  ///< of integers; 0: floats
  std::vector<int> integers;

  ~File() {
    if (sound != nullptr) sf_close(sound);
    if (!unfinished.empty()) std::remove(unfinished.c_str());
  }

  void create_unfinished() {
    for (int k = 0; k < kMostNames; ++k) {
      unfinished = path + ".unfinished" + std::to_string(k);
      fd = UniqueFd(::open(unfinished.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
      if (fd.open() || errno != EEXIST) break;
    }
    if (fd.open()) return;
    const int error = errno;
    unfinished.clear();
    throw FileFailure(path + ": can't be written (" + system_reason(error) + "); check that the folder exists and may be written to.");
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
    // Our own rounding: libsndfile's wraps above full scale, or cuts off with SFC_SET_CLIPPING.
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
  if (std::rename(file_->unfinished.c_str(), file_->path.c_str()) != 0) {
    throw FileFailure(file_->path + ": can't be given its name (" + system_reason(errno) + "); check the folder.");
  }
  file_->unfinished.clear();
}

void write_wav(const std::string& path, std::span<const float> samples, double sample_rate_hz, SampleCoding coding) {
  check(coding != SampleCoding::flac_24_bit, "write_wav writes WAV");
  SoundWriter writer(path, sample_rate_hz, 1, coding);
  writer.write(samples);
  writer.close();
}

}  // namespace ringfall::audio
