// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/frame_density.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace ringfall::shot {
namespace {

// Parseval: the density summed over bins is the mean square, here a^2 / 2 of a sine, whatever the window.
TEST(FrameDensity, SineHoldsItsMeanSquare) {
  std::vector<float> sine(4000);
  for (std::size_t n = 0; n < sine.size(); ++n) {
    sine[n] = static_cast<float>(0.5 * std::sin(2.0 * std::numbers::pi * 1000.0 * static_cast<double>(n) / 48000.0));
  }
  for (const Fades fades : {Fades{}, Fades{0.1, 0.3}}) {
    FrameDensity density(sine.size(), 48000.0, fades);
    double sum = 0.0;
    for (const double value : density.of(sine)) sum += value * density.bin_hz();
    EXPECT_NEAR(sum, 0.125, 0.125 * 1e-4);
  }
}

// A constant is no sound.
TEST(FrameDensity, ConstantIsTakenOff) {
  FrameDensity density(1000, 48000.0, {});
  for (const double value : density.of(std::vector<float>(1000, 0.25F))) EXPECT_LT(value, 1e-20);
}

// Against the definition, sorted one bin after the other: odd and even counts, widths off the block of 64.
TEST(FrameDensity, MedianIsTheSortedMiddle) {
  std::mt19937 random(3);
  for (const std::size_t count : {1U, 2U, 3U, 4U, 5U, 8U}) {
    std::vector<std::vector<double>> frames(count, std::vector<double>(131));
    for (auto& frame : frames) {
      for (double& value : frame) value = static_cast<double>(random() % 1000U);
    }
    const auto medians = median_density(frames);
    ASSERT_EQ(medians.size(), 131U);
    for (std::size_t bin = 0; bin < medians.size(); ++bin) {
      std::vector<double> column;
      for (const auto& frame : frames) column.push_back(frame[bin]);
      std::sort(column.begin(), column.end());
      EXPECT_DOUBLE_EQ(medians[bin], column[count / 2] / std::numbers::ln2) << count << " frames, bin " << bin;
    }
  }
}

}  // namespace
}  // namespace ringfall::shot
