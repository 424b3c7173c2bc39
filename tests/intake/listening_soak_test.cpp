// SPDX-License-Identifier: GPL-3.0-or-later
// Half an hour of listening, as fast as can be; RINGFALL_SOAK_MINUTES makes it longer (480: a day on the range).
#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>

#include "intake/listening.h"
#include "support/listening_events.h"
#include "support/made_session.h"
#include "support/memory_source.h"
#include "support/test_folder.h"

namespace ringfall::intake {
namespace {

double resident_mb() {
  std::ifstream file("/proc/self/statm");
  double pages = 0.0;
  double resident = 0.0;
  file >> pages >> resident;
  return resident * static_cast<double>(sysconf(_SC_PAGESIZE)) / 1e6;
}

TEST(ListeningSoak, MemoryDoesNotGrowWithTimeSlowUnderSanitizer) {
  const TestFolder folder;
  made_logbook(folder.path("book"), 18.0);
  const char* wish = std::getenv("RINGFALL_SOAK_MINUTES");
  const auto minutes = static_cast<std::size_t>(wish == nullptr ? 30 : std::atoi(wish));
  MadeSession session = made_session(3, 19.3);  // a minute with three shots
  session.samples.resize(static_cast<std::size_t>(60.0 * kSessionRate_hz));
  audio::MemoryReins reins;
  ListeningOptions options;
  options.logbook = folder.path("book");
  options.setup = "bare";
  double first_mb = 0.0;
  double last_mb = 0.0;
  std::size_t measured = 0;
  Listening listening(options, [&] {
    return std::make_unique<audio::MemorySource>(session.samples, kSessionRate_hz, reins, minutes);
  });
  while (!listening.stopped()) {
    for (const auto& event : listening.take_events()) {
      const auto* shot = std::get_if<ShotMeasured>(&event);
      if (shot == nullptr || shot->first_look) continue;
      ++measured;
      // The first ten minutes fill caches and rings.
      if (measured == minutes) first_mb = resident_mb();
      last_mb = resident_mb();
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
  RecordProperty("resident_after_a_third_mb", std::to_string(first_mb));
  RecordProperty("resident_at_the_end_mb", std::to_string(last_mb));
  EXPECT_EQ(measured, 3 * minutes);
  // 20 minutes of sound are 230 MB; 16 kB a shot may stay until the block ends.
  EXPECT_LT(last_mb - first_mb, 4.0 + 0.016 * 2.0 * static_cast<double>(minutes));
  const auto blocks = logbook::Logbook(folder.path("book")).blocks();
  ASSERT_EQ(blocks.size(), 1U);
  EXPECT_EQ(blocks[0].shots.size(), 3 * minutes);
}

}  // namespace
}  // namespace ringfall::intake
