// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/work_line.h"

#include <gtest/gtest.h>

#include <atomic>
#include <latch>
#include <numeric>
#include <stdexcept>
#include <vector>

namespace ringfall::intake {
namespace {

TEST(WorkLineThreads, DoesEveryPieceOnceForAnyNumberOfThreads) {
  for (const std::size_t others : {0U, 1U, 3U}) {
    std::vector<int> places(200, 0);
    WorkLine line(others);
    for (std::size_t k = 0; k < places.size(); ++k) line.give([&places, k] { places[k] += static_cast<int>(k); });
    line.finish();
    std::vector<int> expected(places.size());
    std::iota(expected.begin(), expected.end(), 0);
    EXPECT_EQ(places, expected) << others << " other threads";
  }
}

TEST(WorkLineThreads, HoldsNoMoreThanAFewPiecesBecauseTheGiverHelps) {
  std::latch begun(1);
  std::latch free(1);
  std::atomic<int> done = 0;
  WorkLine line(1);
  // The other thread is held; what it can't take the giver does itself, four pieces waiting at most.
  line.give([&] {
    begun.count_down();
    free.wait();
  });
  begun.wait();
  for (int k = 0; k < 50; ++k) line.give([&] { ++done; });
  EXPECT_GE(done.load(), 50 - 5);
  free.count_down();
  line.finish();
  EXPECT_EQ(done.load(), 50);
}

TEST(WorkLineThreads, ThrowsWhatAPieceThrewAndDoesTheOthers) {
  for (const std::size_t others : {0U, 2U}) {
    std::atomic<int> done = 0;
    WorkLine line(others);
    for (int k = 0; k < 20; ++k) {
      line.give([&done, k] {
        if (k == 7) throw std::runtime_error("the seventh");
        ++done;
      });
    }
    EXPECT_THROW(line.finish(), std::runtime_error);
    EXPECT_EQ(done.load(), 19);
    EXPECT_NO_THROW(line.finish()) << "said once";
  }
}

TEST(WorkLine, SharesThreadsOverRecordingsFirst) {
  const auto shared = [](int wanted, std::size_t recordings) {
    const Jobs jobs = share_out(wanted, recordings);
    return std::pair(jobs.recordings, jobs.others_inside);
  };
  EXPECT_EQ(shared(1, 1), std::pair(std::size_t{1}, std::size_t{0}));
  EXPECT_EQ(shared(2, 1), std::pair(std::size_t{1}, std::size_t{1}));
  EXPECT_EQ(shared(2, 9), std::pair(std::size_t{2}, std::size_t{0}));
  EXPECT_EQ(shared(8, 3), std::pair(std::size_t{3}, std::size_t{1}));
  EXPECT_EQ(shared(8, 0), std::pair(std::size_t{1}, std::size_t{7}));
  EXPECT_GE(share_out(0, 1).others_inside + 1, 1U);
}

}  // namespace
}  // namespace ringfall::intake
