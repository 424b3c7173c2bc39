// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/whole_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

#include "base/failure.h"

namespace ringfall {
namespace {

[[noreturn]] void refuse_file(const std::string& path, int error) {
  if (error == ELOOP) throw FileFailure(path + ": is a link to another file, which is not followed here; put the file itself there");
  throw FileFailure(fmt::format("{}: can't be read ({}); is the name right?", path, std::generic_category().message(error)));
}

/// All bytes there are, and one more than `most` at the utmost.
std::string read_up_to(int fd, std::size_t most, const std::string& path) {
  std::string bytes;
  constexpr std::size_t kStep = 1U << 16U;
  while (bytes.size() <= most) {
    const std::size_t before = bytes.size();
    bytes.resize(before + kStep);
    const ssize_t got = ::read(fd, bytes.data() + before, kStep);
    bytes.resize(before + static_cast<std::size_t>(got > 0 ? got : 0));
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) refuse_file(path, errno);
    if (got == 0) break;
  }
  return bytes;
}

}  // namespace

std::string whole_file(const std::string& path, std::size_t most_bytes, Links links) {
  // Not blocking: a pipe nobody writes to must not hang the program.
  const int fd = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | (links == Links::refused ? O_NOFOLLOW : 0));
  if (fd < 0) refuse_file(path, errno);
  struct Closing {
    int fd;
    ~Closing() { ::close(fd); }
  } const closing{fd};
  struct stat status {};
  if (::fstat(fd, &status) != 0) refuse_file(path, errno);
  if (!S_ISREG(status.st_mode)) throw FileFailure(path + ": is not a file on disk but a folder, pipe or device; give a file");
  std::string bytes = read_up_to(fd, most_bytes, path);
  if (bytes.size() > most_bytes) throw FileFailure(fmt::format("{}: is longer than {} MB and is not read", path, most_bytes >> 20U));
  return bytes;
}

}  // namespace ringfall
