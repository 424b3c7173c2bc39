// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/shot_trace.h"

#include <gtest/gtest.h>

#include <sstream>

namespace ringfall::terminal {
namespace {

// A constant of 0.1 is 20 lg 0.1 = -20 dB re full scale, one of 0.01 is -40 dB; 70 dB are 50 signs, so 20 dB are 14 fewer.
TEST(ShotTrace, BarsAreLevels) {
  shot::Clip clip;
  clip.sample_rate_hz = 8000.0;
  clip.samples.assign(8000, 0.01F);
  clip.first_sample = 16000;
  clip.onset_sample = 16800;
  for (std::size_t k = 800; k < 1000; ++k) clip.samples[k] = 0.1F;  // the 25 ms after the edge
  shot::Shot shot;
  shot.onset_s = 2.1;
  shot.tail_end_s = 2.1 + 0.260;
  shot.impact_lag_s = 0.344;
  std::istringstream lines(shot_trace(clip, shot));
  std::vector<std::string> all;
  for (std::string line; std::getline(lines, line);) all.push_back(line);
  ASSERT_EQ(all.size(), 28U) << "-100 to 600 ms in steps of 25 ms";
  EXPECT_EQ(all[3], "    -25 ms  -40.0 dB |" + std::string(36, '='));
  EXPECT_EQ(all[4], "      0 ms  -20.0 dB |" + std::string(50, '=') + "  loud edge");
  EXPECT_EQ(all[14], "    250 ms  -40.0 dB |" + std::string(36, '=') + "  end of the tail");
  EXPECT_EQ(all[17], "    325 ms  -40.0 dB |" + std::string(36, '=') + "  impact");
}

TEST(ShotTrace, SilenceAndShortClipsHaveNoBars) {
  shot::Clip clip;
  clip.sample_rate_hz = 8000.0;
  clip.samples.assign(400, 0.0F);  // 50 ms, all of it after the edge
  const std::string text = shot_trace(clip, shot::Shot{});
  EXPECT_EQ(text, "      0 ms   -inf dB |  loud edge\n     25 ms   -inf dB |\n");
  clip.samples.clear();
  EXPECT_EQ(shot_trace(clip, shot::Shot{}), "");
}

}  // namespace
}  // namespace ringfall::terminal
