// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/sound_bytes.h"

#include <sndfile.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <memory>

#include "audio/integer_samples.h"
#include "audio/sndfile_reader.h"
#include "base/check.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

/// A file in memory, for libsndfile.
struct MemoryFile {
  std::string bytes;
  sf_count_t position = 0;

  static MemoryFile& of(void* self) { return *static_cast<MemoryFile*>(self); }
  static sf_count_t length(void* self) { return static_cast<sf_count_t>(of(self).bytes.size()); }
  static sf_count_t tell(void* self) { return of(self).position; }
  static sf_count_t seek(sf_count_t offset, int whence, void* self) {
    const sf_count_t from = whence == SEEK_CUR ? of(self).position : whence == SEEK_END ? length(self) : 0;
    of(self).position = std::max<sf_count_t>(-from, offset) + from;
    return of(self).position;
  }
  static sf_count_t read(void* into, sf_count_t count, void* self) {
    const sf_count_t got = std::clamp<sf_count_t>(length(self) - of(self).position, 0, std::max<sf_count_t>(0, count));
    std::memcpy(into, of(self).bytes.data() + std::min(of(self).position, length(self)), static_cast<std::size_t>(got));
    of(self).position += got;
    return got;
  }
  static sf_count_t write(const void* from, sf_count_t count, void* self) {
    const auto end = static_cast<std::size_t>(of(self).position + count);
    if (of(self).bytes.size() < end) of(self).bytes.resize(end);
    std::memcpy(of(self).bytes.data() + of(self).position, from, static_cast<std::size_t>(count));
    of(self).position += count;
    return count;
  }
};

struct CloseSound {
  void operator()(SNDFILE* file) const { sf_close(file); }
};
using Sound = std::unique_ptr<SNDFILE, CloseSound>;

Sound opened(MemoryFile& file, int mode, SF_INFO& info) {
  SF_VIRTUAL_IO access{MemoryFile::length, MemoryFile::seek, MemoryFile::read, MemoryFile::write, MemoryFile::tell};
  return Sound(sf_open_virtual(&access, mode, &info, &file));
}

[[noreturn]] void refuse_bytes(const char* why) { throw FileFailure(std::string("the sound ") + why + ": its bytes are not as they were written"); }

/// A RIFF file's own size (Microsoft, "Multimedia Programming Interface and Data Specifications 1.0", 2): a shorter one breaks off.
bool breaks_off(std::string_view bytes) {
  std::uint64_t stated = 8;
  for (std::size_t k = 0; k < 4; ++k) stated += std::uint64_t{static_cast<unsigned char>(bytes[4 + k])} << (8 * k);
  return bytes.starts_with("RIFF") && stated > bytes.size();
}

}  // namespace

std::string sound_bytes(std::span<const float> samples, double sample_rate_hz, SampleCoding coding) {
  check(coding == SampleCoding::flac_24_bit || coding == SampleCoding::wav_float, "a kept sound is FLAC or floats");
  SF_INFO info{};
  info.samplerate = static_cast<int>(std::lround(sample_rate_hz));
  info.channels = 1;
  info.format = coding == SampleCoding::flac_24_bit ? SF_FORMAT_FLAC | SF_FORMAT_PCM_24 : SF_FORMAT_WAV | SF_FORMAT_FLOAT;
  check(static_cast<double>(info.samplerate) == sample_rate_hz, "a sound's sample rate is a whole number");
  MemoryFile file;
  Sound sound = opened(file, SFM_WRITE, info);
  if (!sound) throw FileFailure(std::string("a sound can't be coded (") + sf_strerror(nullptr) + "); is its rate one of a sound card?");
  // The peak chunk would make every file differ by its time of writing.
  sf_command(sound.get(), SFC_SET_ADD_PEAK_CHUNK, nullptr, SF_FALSE);
  const auto wanted = static_cast<sf_count_t>(samples.size());
  sf_count_t written = 0;
  if (coding == SampleCoding::wav_float) {
    written = sf_write_float(sound.get(), samples.data(), wanted);
  } else {
    std::vector<int> integers(samples.size());
    std::ranges::transform(samples, integers.begin(), [](float x) { return left_justified(x, 24); });
    written = sf_write_int(sound.get(), integers.data(), wanted);
  }
  const bool whole = written == wanted && sf_error(sound.get()) == 0;
  if (sf_close(sound.release()) != 0 || !whole) throw FileFailure("a sound can't be coded to its end; free some memory and try again");
  return std::move(file.bytes);
}

std::vector<float> samples_of_bytes(std::string_view bytes) {
  // Only what sound_bytes() writes: a stranger's logbook must not reach every decoder there is.
  if (bytes.size() < 12 || !(bytes.starts_with("fLaC") || bytes.starts_with("RIFF"))) refuse_bytes("is neither FLAC nor WAV");
  if (breaks_off(bytes)) refuse_bytes("breaks off");
  MemoryFile file{std::string(bytes)};
  SF_INFO info{};
  const Sound sound = opened(file, SFM_READ, info);
  if (!sound) refuse_bytes("can't be opened");
  if (info.channels != 1) refuse_bytes("is not of one channel");
  check_sample_rate(info.samplerate, "the sound");
  std::vector<float> samples;
  std::array<float, 1U << 14U> block{};
  while (const sf_count_t got = sf_read_float(sound.get(), block.data(), static_cast<sf_count_t>(block.size()))) {
    if (got < 0) break;
    samples.insert(samples.end(), block.begin(), block.begin() + got);
    if (samples.size() > kMostKeptSamples) refuse_bytes("is longer than any shot");
  }
  // FLAC's own checksums stop the reading at the first frame that is not as it was written.
  if (sf_error(sound.get()) != 0 || static_cast<sf_count_t>(samples.size()) != info.frames || samples.empty()) refuse_bytes("breaks off");
  for (float& sample : samples) {
    if (!std::isfinite(sample)) sample = 0.0F;
  }
  return samples;
}

}  // namespace ringfall::audio
