// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "audio/unique_fd.h"

namespace ringfall::audio {

/// A file on disk, open for reading (closed in child processes), before anyone knows what it holds.
struct InputFile {
  UniqueFd fd;
  std::uint64_t bytes = 0;
  std::string head;  ///< the first 64 bytes, or fewer
};

/// Opens a regular, not empty file. FileFailure: not found, a folder, a device, empty, not allowed.
InputFile open_input(const std::string& path);

/// Bytes from `offset` on; shorter than asked at the file's end.
std::string bytes_at(int fd, std::uint64_t offset, std::size_t count);

/// Big- or little-endian unsigned number of 2, 4 or 8 bytes at `at`; 0 when the text is too short.
std::uint64_t number_at(std::string_view bytes, std::size_t at, std::size_t width, bool big_endian);

/// The name of the container whose magic number the first bytes hold ("MP4", "Matroska or WebM" ...), for those that only
/// ffmpeg reads; nullopt for anything else. Magic numbers: ISO/IEC 14496-12 clause 4.2 and 4.3 (boxes), RFC 8794 clause 8.1
/// (EBML), RFC 4867 clause 5 (AMR), ISO/IEC 13818-7 clause 6.2 (ADTS); the others are common practice, no source.
std::optional<std::string> phone_container(std::string_view head);

/// The same for containers that libsndfile reads, but not with every codec (AAC in CAF, MP3 in WAV, FLAC in Ogg): "WAV",
/// "CAF", "Ogg", "AIFF".
std::optional<std::string> shared_container(std::string_view head);

}  // namespace ringfall::audio
