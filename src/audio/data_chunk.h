// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>

namespace ringfall::audio {

/// The part of a file that holds the samples, as its header states it.
struct DataChunk {
  std::uint64_t offset = 0;
  std::optional<std::uint64_t> stated_bytes;  ///< nullopt: left open (0 or all ones), as by a recorder that was cut off
  std::uint64_t bytes_there = 0;              ///< between `offset` and the file's end
  std::uint64_t size_at = 0;                  ///< where the header states it, in so many bytes
  std::size_t size_bytes = 0;
  bool big_endian = false;
  std::uint64_t size_extra = 0;               ///< what that number counts besides samples
};

/// Walks the chunks of WAV, RF64, W64, AIFF, CAF or AU; nullopt for other files or when there is no such chunk.
/// libsndfile shortens what a header promises to what is there without a word, so the promise is read here.
/// Sources: RIFF by IBM/Microsoft "Multimedia Programming Interface" 1991; RF64 ITU-R BS.2088-1 clause 3; W64, AIFF, CAF
/// and AU from memory of their makers' descriptions. Cost: a few small reads. Tested: audio.DataChunk.*, audio.Truncated.*
std::optional<DataChunk> find_data_chunk(int fd, std::uint64_t file_bytes);

}  // namespace ringfall::audio
