// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <exception>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace ringfall::intake {

/// Independent pieces of work, shared between some threads and the one that hands them out: when the line is full the giver takes
/// a piece itself instead of waiting, so a core is never idle and what is held (a clip of sound a piece) stays bounded.
/// Pieces begin in the order they came and end in any; whoever needs an order writes each result to its own place.
/// One thread gives. Tests: intake.WorkLineThreads.*
class WorkLine {
 public:
  /// `others`: threads beside the giver's, 0: every piece is done where it is given.
  explicit WorkLine(std::size_t others);
  /// Pieces not begun are dropped: a line that matters is finished first.
  ~WorkLine();
  WorkLine(const WorkLine&) = delete;
  WorkLine& operator=(const WorkLine&) = delete;

  /// Returns when the piece is in the line, or done.
  void give(std::function<void()> piece);

  /// Helps until all pieces are done. What the first failing piece threw is thrown here, once; the others are done all the same.
  void finish();

 private:
  void work();
  /// Does the next piece; `hold` is free meanwhile. False: there is none.
  bool do_next(std::unique_lock<std::mutex>& hold);

  std::mutex mutex_;
  std::condition_variable more_;   ///< a piece has come, or the end
  std::condition_variable done_;   ///< nothing is waiting or under way
  std::deque<std::function<void()>> waiting_;
  std::size_t under_way_ = 0;
  std::size_t longest_;
  bool ends_ = false;
  std::exception_ptr failure_;
  std::vector<std::jthread> others_;
};

/// How many threads a deed may use and how they are shared out: over recordings first, the rest inside each.
struct Jobs {
  std::size_t recordings = 1;     ///< read at the same time
  std::size_t others_inside = 0;  ///< threads beside the reading one, for each recording
};

/// `wanted` <= 0: one a core of this machine. `recordings` may be 0.
Jobs share_out(int wanted, std::size_t recordings);

}  // namespace ringfall::intake
