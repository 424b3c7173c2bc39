// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/capture.h"

#include <gtest/gtest.h>

#include <chrono>
#include <numeric>
#include <thread>
#include <vector>

namespace ringfall::audio {
namespace {

using namespace std::chrono_literals;

std::vector<float> ramp(std::size_t count, float first) {
  std::vector<float> samples(count);
  std::iota(samples.begin(), samples.end(), first);
  return samples;
}

TEST(SpscRing, GivesBackInOrderAndRefusesWhatDoesNotFit) {
  SpscRing<int> ring(5);
  EXPECT_EQ(ring.capacity(), 8U);  // the next power of two
  const std::vector<int> many = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10};
  EXPECT_EQ(ring.push(many), 8U);
  EXPECT_EQ(ring.space(), 0U);
  EXPECT_EQ(ring.front(), 1);
  std::vector<int> out(3);
  EXPECT_EQ(ring.pop(out), 3U);
  EXPECT_EQ(out, (std::vector<int>{1, 2, 3}));
  EXPECT_EQ(ring.push(std::span(many).last(2)), 2U);  // over the edge
  out.assign(20, 0);
  EXPECT_EQ(ring.pop(out), 7U);
  out.resize(7);
  EXPECT_EQ(out, (std::vector<int>{4, 5, 6, 7, 8, 9, 10}));
  EXPECT_EQ(ring.pop(out), 0U);
}

TEST(SpscRingThreads, NothingIsLostOrChangedBetweenTwoThreads) {
  constexpr int kItems = 300000;
  SpscRing<int> ring(64);
  std::jthread writer([&ring] {
    for (int next = 0; next < kItems;) {
      const std::vector<int> block = {next, next + 1, next + 2};
      const auto pushed = ring.push(std::span(block).first(static_cast<std::size_t>(std::min(3, kItems - next))));
      next += static_cast<int>(pushed);
      if (pushed == 0) std::this_thread::yield();
    }
  });
  int expected = 0;
  std::vector<int> out(17);
  while (expected < kItems) {
    const std::size_t got = ring.pop(out);
    for (std::size_t k = 0; k < got; ++k) ASSERT_EQ(out[k], expected++);
    if (got == 0) std::this_thread::yield();
  }
}

TEST(Capture, TakesTheChosenChannel) {
  Capture capture(1000.0, 1.0);
  const std::vector<float> interleaved = {1, 10, 2, 20, 3, 30};
  EXPECT_TRUE(capture.take(interleaved.data(), 3, 2, 1, false, Capture::Clock::time_point(5s)));
  std::vector<float> out(5);
  ASSERT_EQ(capture.read(out), 3U);
  EXPECT_EQ(out[0], 10.0F);
  EXPECT_EQ(out[2], 30.0F);
  EXPECT_EQ(capture.last_heard(), Capture::Clock::duration(5s));
  EXPECT_EQ(capture.read(out), 0U);
}

TEST(Capture, WhatIsLostIsCountedAndZerosStandInItsPlace) {
  Capture capture(256.0, 1.0);
  const auto now = Capture::Clock::time_point(1s);
  EXPECT_TRUE(capture.take(ramp(200, 1.0F).data(), 200, 1, 0, false, now));
  // No room for these two; one loss.
  EXPECT_FALSE(capture.take(ramp(100, 201.0F).data(), 100, 1, 0, false, now));
  EXPECT_FALSE(capture.take(ramp(60, 301.0F).data(), 60, 1, 0, false, now));
  std::vector<float> out(150);
  ASSERT_EQ(capture.read(out), 150U);
  EXPECT_TRUE(capture.take(ramp(50, 361.0F).data(), 50, 1, 0, true, now));
  std::vector<float> rest(400);
  ASSERT_EQ(capture.read(rest), 50U + 160U + 50U);
  EXPECT_EQ(rest[49], 200.0F);
  EXPECT_EQ(rest[50], 0.0F);
  EXPECT_EQ(rest[209], 0.0F);
  EXPECT_EQ(rest[210], 361.0F);  // where it would have been without the loss
  EXPECT_EQ(capture.overruns(), 1);
  EXPECT_EQ(capture.zeros_given(), 160);
  EXPECT_EQ(capture.glitches(), 1);
  EXPECT_EQ(capture.frames(), 410);
}

TEST(CaptureThreads, ASlowReaderLosesSoundButNotTime) {
  // Writer and reader of different speed: every sample that arrives stands where it belongs.
  constexpr int kFrames = 400000;
  Capture capture(4096.0, 1.0);
  std::jthread callback([&capture] {
    for (int at = 0; at < kFrames; at += 100) {
      // +1: no sample is 0.
      capture.take(ramp(100, static_cast<float>(at + 1)).data(), 100, 1, 0, false, Capture::Clock::now());
      if (at % 5000 == 0) std::this_thread::sleep_for(50us);
    }
    capture.finish();
  });
  std::vector<float> out(333);
  int position = 0;
  int zeros = 0;
  for (;;) {
    const bool over = capture.finished();
    const std::size_t got = capture.read(out);
    for (std::size_t k = 0; k < got; ++k, ++position) {
      if (out[k] == 0.0F) ++zeros;
      else ASSERT_EQ(out[k], static_cast<float>(position + 1));
    }
    if (over && got == 0) break;
    if (position % 7 == 0) std::this_thread::sleep_for(20us);
  }
  EXPECT_EQ(zeros, capture.zeros_given());
  EXPECT_EQ(capture.frames(), kFrames);
}

}  // namespace
}  // namespace ringfall::audio
