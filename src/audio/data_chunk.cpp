// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/data_chunk.h"

#include <algorithm>
#include <string>
#include <string_view>

#include "audio/input_file.h"

namespace ringfall::audio {
namespace {

// More chunks than this before the samples: not a sound file but an accident.
constexpr int kMostChunks = 1000;

/// How a family of files lays out its chunks.
struct Layout {
  std::uint64_t first_chunk;   ///< offset of the first one
  std::size_t id_bytes;        ///< of the chunk's name
  std::size_t size_bytes;      ///< of the number after it
  bool big_endian;
  bool size_counts_header;     ///< the number includes name and number
  std::uint64_t align;         ///< chunks begin at multiples of it
  std::string_view data_id;
  std::uint64_t before_samples;  ///< bytes between the chunk's head and the samples
};

constexpr Layout kRiff{12, 4, 4, false, false, 2, "data", 0};
constexpr Layout kW64{40, 16, 8, false, true, 8, "data", 0};
constexpr Layout kAiff{12, 4, 4, true, false, 2, "SSND", 8};
constexpr Layout kCaf{8, 4, 8, true, false, 1, "data", 4};

// A size that is larger than the file and not meant: all ones, and the 2 GB that writers to a pipe put there.
bool left_open(std::uint64_t size, const Layout& layout) {
  return layout.size_bytes == 4 ? size == 0xFFFFFFFFU || (size >= 0x7FFFF000U && size <= 0x80000000U) : size >= (1ULL << 62);
}

// Fills in what follows from the size `chunk` states.
DataChunk judge(DataChunk chunk, std::uint64_t size, bool open, std::uint64_t file_bytes) {
  chunk.bytes_there = file_bytes > chunk.offset ? file_bytes - chunk.offset : 0;
  const std::uint64_t stated = size > chunk.size_extra ? size - chunk.size_extra : 0;
  if (stated > 0 && !(open && stated > chunk.bytes_there)) chunk.stated_bytes = stated;
  return chunk;
}

std::optional<DataChunk> walk(int fd, std::uint64_t file_bytes, const Layout& layout, bool sizes_elsewhere) {
  const std::size_t head_bytes = layout.id_bytes + layout.size_bytes;
  std::uint64_t at = layout.first_chunk;
  std::uint64_t size_from_ds64 = 0;
  for (int k = 0; k < kMostChunks && at < file_bytes; ++k) {
    const std::string head = bytes_at(fd, at, head_bytes);
    if (head.size() < head_bytes) return std::nullopt;
    std::uint64_t size = number_at(head, layout.id_bytes, layout.size_bytes, layout.big_endian);
    const std::string_view id = std::string_view(head).substr(0, 4);
    if (id == layout.data_id) {
      if (sizes_elsewhere && size == 0xFFFFFFFFU) size = size_from_ds64;
      DataChunk chunk;
      chunk.offset = at + head_bytes + layout.before_samples;
      chunk.size_at = at + layout.id_bytes;
      chunk.size_bytes = layout.size_bytes;
      chunk.big_endian = layout.big_endian;
      chunk.size_extra = layout.before_samples + (layout.size_counts_header ? head_bytes : 0);
      return judge(chunk, size, left_open(size, layout), file_bytes);
    }
    if (id == "ds64") size_from_ds64 = number_at(bytes_at(fd, at + head_bytes, 16), 8, 8, false);
    if (size > file_bytes) return std::nullopt;
    at += layout.size_counts_header ? std::max<std::uint64_t>(size, head_bytes) : head_bytes + size;
    at = (at + layout.align - 1) / layout.align * layout.align;
  }
  return std::nullopt;
}

}  // namespace

std::optional<DataChunk> find_data_chunk(int fd, std::uint64_t file_bytes) {
  const std::string head = bytes_at(fd, 0, 16);
  const auto is = [&head](std::size_t at, std::string_view text) { return head.substr(at, text.size()) == text; };
  if (head.size() < 16) return std::nullopt;
  if (is(0, "RIFF") && is(8, "WAVE")) return walk(fd, file_bytes, kRiff, false);
  if (is(0, "RF64") && is(8, "WAVE")) return walk(fd, file_bytes, kRiff, true);
  if (is(0, "riff")) return walk(fd, file_bytes, kW64, false);
  if (is(0, "FORM") && (is(8, "AIFF") || is(8, "AIFC"))) return walk(fd, file_bytes, kAiff, false);
  if (is(0, "caff")) return walk(fd, file_bytes, kCaf, false);
  if (is(0, ".snd")) {
    const std::uint64_t size = number_at(head, 8, 4, true);
    // In AU an unknown length is part of the format.
    if (size == 0xFFFFFFFFU) return std::nullopt;
    return judge({number_at(head, 4, 4, true), std::nullopt, 0, 8, 4, true, 0}, size, false, file_bytes);
  }
  return std::nullopt;
}

}  // namespace ringfall::audio
