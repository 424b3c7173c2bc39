// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/input_file.h"

#include <fcntl.h>
#include <sys/stat.h>

#include <cerrno>

#include "audio/system_reason.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

constexpr std::size_t kHeadBytes = 64;

bool begins(std::string_view head, std::size_t at, std::string_view magic) {
  return head.size() >= at + magic.size() && head.substr(at, magic.size()) == magic;
}

std::string base_media_name(std::string_view brand) {
  if (brand == "qt  ") return "MOV";
  if (brand.starts_with("M4A")) return "M4A";
  if (brand.starts_with("3g")) return "3GP";
  return "MP4";
}

}  // namespace

InputFile open_input(const std::string& path) {
  if (path.empty() || path.find('\0') != std::string::npos) {
    throw FileFailure("A sound file was asked for without a usable name; give the file's name.");
  }
  InputFile file;
  // Not blocking: a pipe nobody writes to must not hang the program.
  file.fd = UniqueFd(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (!file.fd.open()) {
    if (errno == ENOENT || errno == ENOTDIR) throw FileFailure(path + ": there is no such file; check the name and the folder.");
    throw FileFailure(path + ": can't be opened (" + system_reason(errno) + "); check its permissions.");
  }
  struct stat status {};
  if (::fstat(file.fd.get(), &status) != 0) throw FileFailure(path + ": can't be looked at (" + system_reason(errno) + ").");
  if (S_ISDIR(status.st_mode)) throw FileFailure(path + ": is a folder; name the sound files in it.");
  if (!S_ISREG(status.st_mode)) {
    throw FileFailure(path + ": is not a file on disk but a pipe or device; save the recording as a file first.");
  }
  if (status.st_size == 0) throw FileFailure(path + ": is empty (0 bytes); nothing was recorded or the copy failed.");
  file.bytes = static_cast<std::uint64_t>(status.st_size);
  file.head = bytes_at(file.fd.get(), 0, kHeadBytes);
  if (file.head.empty()) throw FileFailure(path + ": can't be read; check the disk and copy it again.");
  return file;
}

std::string bytes_at(int fd, std::uint64_t offset, std::size_t count) {
  std::string bytes(count, '\0');
  std::size_t got = 0;
  while (got < count) {
    const ssize_t n = ::pread(fd, bytes.data() + got, count - got, static_cast<off_t>(offset + got));
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) break;
    got += static_cast<std::size_t>(n);
  }
  bytes.resize(got);
  return bytes;
}

std::uint64_t number_at(std::string_view bytes, std::size_t at, std::size_t width, bool big_endian) {
  if (at + width > bytes.size()) return 0;
  std::uint64_t value = 0;
  for (std::size_t k = 0; k < width; ++k) {
    const std::size_t from = big_endian ? at + k : at + width - 1 - k;
    value = (value << 8) | static_cast<unsigned char>(bytes[from]);
  }
  return value;
}

std::optional<std::string> phone_container(std::string_view head) {
  if (begins(head, 4, "ftyp")) return base_media_name(head.substr(8, 4));
  // QuickTime files of before `ftyp` begin with one of these boxes.
  for (const char* box : {"moov", "mdat", "wide", "free", "skip", "pnot"}) {
    if (begins(head, 4, box)) return "MOV";
  }
  if (begins(head, 0, "\x1A\x45\xDF\xA3")) return "Matroska or WebM";
  if (begins(head, 0, "#!AMR")) return "AMR";
  if (begins(head, 0, "RIFF") && begins(head, 8, "AVI ")) return "AVI";
  if (begins(head, 0, "\x30\x26\xB2\x75\x8E\x66\xCF\x11")) return "ASF";
  if (begins(head, 0, "FLV\x01")) return "FLV";
  if (begins(head, 0, std::string_view("\x00\x00\x01\xBA", 4))) return "MPEG";
  if (head.size() >= 2 && static_cast<unsigned char>(head[0]) == 0xFF) {
    const unsigned second = static_cast<unsigned char>(head[1]);
    if ((second & 0xF6U) == 0xF0U) return "AAC";  // 12 bits of sync, layer 00
  }
  return std::nullopt;
}

std::optional<std::string> shared_container(std::string_view head) {
  if (begins(head, 0, "RIFF") || begins(head, 0, "RF64")) return "WAV";
  if (begins(head, 0, "caff")) return "CAF";
  if (begins(head, 0, "OggS")) return "Ogg";
  if (begins(head, 0, "FORM")) return "AIFF";
  return std::nullopt;
}

}  // namespace ringfall::audio
