// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

namespace ringfall::terminal {

/// One line on standard error that says how far long work is; nothing when standard error is no terminal or the work is
/// done within a second. Any thread may report.
class ProgressBar {
 public:
  /// `parts`: pieces of equal weight (recordings).
  ProgressBar(std::string what, std::size_t parts);
  ~ProgressBar();
  ProgressBar(const ProgressBar&) = delete;
  ProgressBar& operator=(const ProgressBar&) = delete;

  /// Piece `part` is done to `share` (0 .. 1; nullopt: length unknown).
  void report(std::size_t part, std::optional<double> share);

 private:
  void draw(double share);
  void wipe();

  std::string what_;
  std::vector<double> shares_;
  std::mutex lock_;
  std::chrono::steady_clock::time_point started_;
  std::chrono::steady_clock::time_point drawn_;
  bool on_screen_ = false;
  bool terminal_ = false;
};

}  // namespace ringfall::terminal
