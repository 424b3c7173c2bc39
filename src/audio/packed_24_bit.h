// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <sndfile.h>

#include <cstddef>
#include <span>
#include <vector>

namespace ringfall::audio {

/// 24-bit little-endian PCM straight from the bytes of an open libsndfile handle, because this is what recorders write most and
/// libsndfile's own conversion costs twice as much (docs/measures/sound_files.md#speed). libsndfile still reads the header
/// and finds the end. Values are those of sf_read_float: integer / 2^23.
class Packed24BitReader {
 public:
  explicit Packed24BitReader(int channels);
  /// As SoundReader::read, whole frames only.
  std::size_t read(SNDFILE* file, std::span<float> interleaved);

 private:
  std::size_t refill(SNDFILE* file);

  std::size_t channels_;
  std::vector<unsigned char> bytes_;
  std::size_t next_sample_ = 0;
  std::size_t samples_ = 0;
};

/// `out[i]` = packed integer i / 2^23. One readable byte must stand before `packed`.
void unpack_24_bit(const unsigned char* packed, std::span<float> out);

}  // namespace ringfall::audio
