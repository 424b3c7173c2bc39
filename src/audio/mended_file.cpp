// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/mended_file.h"

#include <algorithm>
#include <cstdio>

#include "audio/input_file.h"

namespace ringfall::audio {
namespace {

// More than this in one go is never asked for by header parsers or block readers.
constexpr sf_count_t kMostBytes = 1 << 22;

}  // namespace

MendedFile::MendedFile(int fd, std::uint64_t file_bytes, const DataChunk& chunk)
    : fd_(fd), file_bytes_(static_cast<sf_count_t>(file_bytes)), size_at_(static_cast<sf_count_t>(chunk.size_at)) {
  const std::uint64_t most = chunk.size_bytes == 4 ? 0xFFFFFFFEULL : UINT64_MAX / 4;
  const std::uint64_t size = std::min(chunk.bytes_there + chunk.size_extra, most);
  for (std::size_t k = 0; k < chunk.size_bytes; ++k) {
    const std::size_t shift = 8 * (chunk.big_endian ? chunk.size_bytes - 1 - k : k);
    size_.push_back(static_cast<char>((size >> shift) & 0xFFU));
  }
}

SNDFILE* MendedFile::open(SF_INFO& info) {
  SF_VIRTUAL_IO access{length, seek, read, refuse_to_write, tell};
  return sf_open_virtual(&access, SFM_READ, &info, this);
}

sf_count_t MendedFile::length(void* self) { return static_cast<MendedFile*>(self)->file_bytes_; }

sf_count_t MendedFile::seek(sf_count_t offset, int whence, void* self) {
  auto& file = *static_cast<MendedFile*>(self);
  const sf_count_t from = whence == SEEK_CUR ? file.position_ : whence == SEEK_END ? file.file_bytes_ : 0;
  file.position_ = std::clamp<sf_count_t>(offset, -from, file.file_bytes_ - from) + from;
  return file.position_;
}

sf_count_t MendedFile::read(void* into, sf_count_t count, void* self) {
  auto& file = *static_cast<MendedFile*>(self);
  const auto wanted = static_cast<std::size_t>(std::clamp<sf_count_t>(count, 0, kMostBytes));
  std::string bytes = bytes_at(file.fd_, static_cast<std::uint64_t>(file.position_), wanted);
  const auto got = static_cast<sf_count_t>(bytes.size());
  for (std::size_t k = 0; k < file.size_.size(); ++k) {
    const sf_count_t at = file.size_at_ + static_cast<sf_count_t>(k) - file.position_;
    if (at >= 0 && at < got) bytes[static_cast<std::size_t>(at)] = file.size_[k];
  }
  std::ranges::copy(bytes, static_cast<char*>(into));
  file.position_ += got;
  return got;
}

sf_count_t MendedFile::refuse_to_write(const void*, sf_count_t, void*) { return 0; }

sf_count_t MendedFile::tell(void* self) { return static_cast<MendedFile*>(self)->position_; }

}  // namespace ringfall::audio
