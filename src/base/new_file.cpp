// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/new_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <random>
#include <system_error>

#include "base/failure.h"

namespace ringfall {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail_to_write(const std::string& path, int error) {
  if (error == ENOENT) {
    throw FileFailure(fmt::format("{}: there is no folder '{}'; make it first (nothing is written unless its folder exists)", path, fs::path(path).parent_path().string()));
  }
  throw FileFailure(fmt::format("{}: the file can't be written ({}); is the disk full, and may you write there?", path,
                                std::generic_category().message(error)));
}

fs::path folder_of(const std::string& path) {
  const fs::path folder = fs::path(path).parent_path();
  return folder.empty() ? fs::path(".") : folder;
}

void write_all(int fd, std::string_view bytes, const std::string& path) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(fd, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) fail_to_write(path, errno);
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
}

/// A new name must be on the disk too. What can't be synced (some network folders) is not worth a failure.
void sync_folder(const std::string& path) {
  const int folder = ::open(folder_of(path).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (folder < 0) return;
  ::fsync(folder);
  ::close(folder);
}

}  // namespace

NewFile::NewFile(const std::string& path, unsigned mode) : path_(path) {
  if (path.empty() || path.back() == '/') throw FileFailure(fmt::format("'{}' is no name for a file", path));
  std::random_device chance;
  for (int attempt = 0; fd_ < 0; ++attempt) {
    temporary_ = (folder_of(path) / fmt::format(".ringfall-{:08x}{:08x}", chance(), chance())).string();
    fd_ = ::open(temporary_.c_str(), O_RDWR | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, mode == 0 ? 0666 : 0600);
    if (fd_ < 0 && (errno != EEXIST || attempt > 100)) fail_to_write(path, errno);
  }
  if (mode != 0) ::fchmod(fd_, mode & 07777U);
}

NewFile::~NewFile() {
  if (fd_ >= 0) ::close(fd_);
  if (!placed_) ::unlink(temporary_.c_str());
}

void NewFile::write(std::string_view bytes) { write_all(fd_, bytes, path_); }

void NewFile::sync() {
  if (::fsync(fd_) != 0 && errno != EINVAL && errno != EROFS) fail_to_write(path_, errno);
}

void NewFile::place_over() {
  sync();
  if (::rename(temporary_.c_str(), path_.c_str()) != 0) fail_to_write(path_, errno);
  placed_ = true;
  sync_folder(path_);
}

bool NewFile::place_new() {
  sync();
  // Not every file system can rename without replacing; a second name fails as well when there is one.
  int done = ::renameat2(AT_FDCWD, temporary_.c_str(), AT_FDCWD, path_.c_str(), RENAME_NOREPLACE);
  if (done != 0 && (errno == EINVAL || errno == ENOSYS)) {
    done = ::link(temporary_.c_str(), path_.c_str());
    if (done == 0) ::unlink(temporary_.c_str());
  }
  if (done != 0 && errno == EEXIST) return false;
  if (done != 0) fail_to_write(path_, errno);
  placed_ = true;
  sync_folder(path_);
  return true;
}

void write_whole_file(const std::string& path, std::string_view bytes) {
  struct stat status {};
  if (::stat(path.c_str(), &status) == 0 && !S_ISREG(status.st_mode) && !S_ISDIR(status.st_mode)) {
    const int fd = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
    if (fd < 0) fail_to_write(path, errno);
    try {
      write_all(fd, bytes, path);
    } catch (...) {
      ::close(fd);
      throw;
    }
    if (::close(fd) != 0) fail_to_write(path, errno);
    return;
  }
  NewFile file(path);
  file.write(bytes);
  file.place_over();
}

}  // namespace ringfall
