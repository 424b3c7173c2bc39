// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <sndfile.h>

#include <cstdint>
#include <optional>
#include <string>

#include "audio/data_chunk.h"

namespace ringfall::audio {

/// A file as it would be had its recorder written the right length into the header: for libsndfile, which takes a length of 0 at
/// its word and refuses some lengths beyond the file's end. The file on disk is not touched.
class MendedFile {
 public:
  /// `fd` must stay open while this is used.
  MendedFile(int fd, std::uint64_t file_bytes, const DataChunk& chunk);
  MendedFile(const MendedFile&) = delete;
  MendedFile& operator=(const MendedFile&) = delete;
  /// As sf_open, through this object, which must outlive what is returned.
  SNDFILE* open(SF_INFO& info);

 private:
  static sf_count_t length(void* self);
  static sf_count_t seek(sf_count_t offset, int whence, void* self);
  static sf_count_t read(void* into, sf_count_t count, void* self);
  static sf_count_t refuse_to_write(const void* from, sf_count_t count, void* self);
  static sf_count_t tell(void* self);

  int fd_;
  sf_count_t file_bytes_;
  sf_count_t position_ = 0;
  sf_count_t size_at_;
  std::string size_;  ///< the bytes that belong at `size_at_`
};

}  // namespace ringfall::audio
