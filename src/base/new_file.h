// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace ringfall {

/// A file that gets its name only when it is whole. Until then it lies beside it under a name nobody can foresee, made with O_EXCL (no
/// link is followed, nothing is written over), and is gone with the object. A program that is killed leaves at most that hidden
/// file, ".ringfall-...", which stands in nobody's way. FileFailure: as the calls say. Tested: base.NewFile.*
class NewFile {
 public:
  /// FileFailure: nothing can be made in that folder. `mode`: the permissions; 0: as for any new file (umask).
  explicit NewFile(const std::string& path, unsigned mode = 0);
  ~NewFile();
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;

  /// Where it lies until it is placed: for libraries that write by name. What they keep beside it (-wal ...) is theirs to take away.
  const std::string& temporary() const { return temporary_; }
  void write(std::string_view bytes);
  /// On the disk, then renamed, in place of a file of that name (a link of that name is replaced, not followed).
  void place_over();
  /// As place_over; false: something has that name, and it stays.
  bool place_new();

 private:
  void sync();
  std::string path_;
  std::string temporary_;
  int fd_ = -1;
  bool placed_ = false;
};

/// A whole file in place of the one of that name. A device or pipe of that name is written to as it is.
void write_whole_file(const std::string& path, std::string_view bytes);

}  // namespace ringfall
