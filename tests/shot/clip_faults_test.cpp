// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/clip_faults.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace ringfall::shot {
namespace {

constexpr double kRate_hz = 48000.0;
constexpr std::size_t kEdge = 38400;  // 0.8 s

/// An invented shot: noise floor, an edge of decaying noise and a 95 Hz tone; `peak` re full scale, 16 bit.
Clip clean_clip(double peak, std::uint32_t seed, double floor = 3e-4) {
  std::mt19937 generator(seed);
  std::normal_distribution<double> normal;
  std::vector<double> wave(96000);
  for (double& value : wave) value = floor * normal(generator);
  std::vector<double> burst(wave.size() - kEdge);
  for (std::size_t n = 0; n < burst.size(); ++n) {
    const double t = static_cast<double>(n) / kRate_hz;
    burst[n] = normal(generator) * std::exp(-t / 0.006) +
               0.3 * std::exp(-t / 0.04) * std::sin(2.0 * std::numbers::pi * 95.0 * t);
  }
  // Microphones and air leave little above 10 kHz: neighbouring samples are alike.
  for (int pass = 0; pass < 2; ++pass) {
    for (std::size_t n = burst.size() - 1; n >= 2; --n) burst[n] = (burst[n] + burst[n - 1] + burst[n - 2]) / 3.0;
  }
  const double highest = std::abs(*std::ranges::max_element(burst, {}, [](double v) { return std::abs(v); }));
  for (std::size_t n = 0; n < burst.size(); ++n) wave[kEdge + n] += burst[n] * peak / highest;
  Clip clip;
  clip.sample_rate_hz = kRate_hz;
  clip.onset_sample = kEdge;
  for (const double value : wave) {
    clip.samples.push_back(static_cast<float>(std::round(std::clamp(value, -1.0, 32767.0 / 32768.0) * 32768.0) / 32768.0));
  }
  return clip;
}

void limit_to(Clip& clip, float highest) {
  for (float& sample : clip.samples) sample = std::clamp(sample, -highest, highest);
}

TEST(ClipFaults, CleanShotsHaveNone) {
  for (std::uint32_t seed = 1; seed <= 40; ++seed) {
    for (const double peak : {0.999, 0.3, 0.02}) {
      EXPECT_TRUE(clip_faults(clean_clip(peak, seed, std::max(3e-4 * peak, 5e-5))).empty()) << seed << " " << peak;
    }
  }
}

// The fault as trade practice knows it: flat tops at full scale and also below it (common practice, no source).
TEST(ClipFaults, FlatTopsAreClippedAtAnyHeight) {
  for (std::uint32_t seed = 1; seed <= 20; ++seed) {
    Clip at_full_scale = clean_clip(2.0, seed);
    EXPECT_TRUE(has_finding(clip_faults(at_full_scale), "clipped")) << seed;
    Clip below = clean_clip(0.9, seed);
    limit_to(below, 0.35F);
    EXPECT_TRUE(has_finding(clip_faults(below), "clipped")) << seed;
    EXPECT_TRUE(voided(clip_faults(below), Quantity::levels));
  }
}

TEST(ClipFaults, SmoothCrestsAndNormalisedPeaksAreNotClipped) {
  // A low tone's crest stays within one 8-bit or 16-bit step for many samples: flat without a corner.
  for (const double steps : {128.0, 32768.0}) {
    std::vector<float> sine;
    for (int n = 0; n < 48000; ++n) {
      sine.push_back(static_cast<float>(
          std::round(0.99 * steps * std::sin(2.0 * std::numbers::pi * 50.0 * n / kRate_hz)) / steps));
    }
    EXPECT_FALSE(has_flat_tops(sine, 0, sine.size())) << steps;
  }
  Clip normalised = clean_clip(0.5, 3);
  const float highest = *std::ranges::max_element(normalised.samples);
  for (float& sample : normalised.samples) sample /= highest;
  EXPECT_FALSE(has_finding(clip_faults(normalised), "clipped"));
}

TEST(ClipFaults, LostSamplesAreADropout) {
  for (const double missing_s : {0.0012, 0.005, 0.020}) {
    Clip clip = clean_clip(0.5, 7, 2e-3);
    const auto hole = static_cast<std::ptrdiff_t>(missing_s * kRate_hz);
    std::fill_n(clip.samples.begin() + kEdge + 2400, hole, 0.0F);
    EXPECT_TRUE(has_finding(clip_faults(clip), "dropout")) << missing_s;
  }
}

TEST(ClipFaults, SoundThatDiesToZeroIsNoDropout) {
  // A clicker in digital silence, then the shot: zeros between sounds, but no wave is cut.
  Clip clip = clean_clip(0.5, 8, 0.0);
  for (int n = 0; n < 400; ++n) {
    clip.samples[kEdge - 6000 + static_cast<std::size_t>(n)] = static_cast<float>(
        std::round(0.02 * std::exp(-n / 40.0) * std::sin(0.4 * n) * 32768.0) / 32768.0);
  }
  EXPECT_FALSE(has_finding(clip_faults(clip), "dropout"));
}

TEST(ClipFaults, AnOffsetIsNoted) {
  Clip clip = clean_clip(0.5, 9);
  for (float& sample : clip.samples) sample += 0.01F;
  EXPECT_TRUE(has_finding(clip_faults(clip), "dc_offset"));
  EXPECT_NEAR(dc_of(clip), 0.01, 1e-4);
}

TEST(ClipFaults, ATailCutToSilenceIsANoiseGate) {
  Clip clip = clean_clip(0.5, 10, 1e-3);
  std::fill(clip.samples.begin() + kEdge + 7000, clip.samples.end(), 0.0F);
  const auto findings = clip_faults(clip);
  EXPECT_TRUE(has_finding(findings, "noise_gate"));
  EXPECT_TRUE(voided(findings, Quantity::hum));
}

TEST(ClipFaults, ATailOfAFewStepsIsTooCoarse) {
  Clip clip = clean_clip(0.3, 12);
  EXPECT_FALSE(has_finding(clip_faults(clip), "coarse_steps"));
  // The same in 8 bits: the 95 Hz tone of the tail is one or two of 128 steps.
  for (float& sample : clip.samples) sample = std::round(0.5F * sample * 128.0F) / 128.0F;
  EXPECT_TRUE(has_finding(clip_faults(clip), "coarse_steps"));
  EXPECT_TRUE(voided(clip_faults(clip), Quantity::hum));
}

TEST(ClipFaults, SilenceBeforeTheShotTakesTheFloorOnly) {
  Clip clip = clean_clip(0.5, 11, 0.0);
  std::fill(clip.samples.begin(), clip.samples.begin() + kEdge, 0.0F);
  const auto findings = clip_faults(clip);
  EXPECT_TRUE(has_finding(findings, "noise_gate"));
  EXPECT_FALSE(voided(findings, Quantity::hum));
  EXPECT_TRUE(voided(findings, Quantity::floor));
}

// Where the start of a shot is not in the file, no arithmetic brings it back.
// A quiet place in 16 bits: noise of a fifth of a step rounds to zero in 99 of 100 samples (normal distribution: 2.5 sd), never
// for 10 ms in a row for long.
TEST(ClipFaults, AQuietPlaceIn16BitsIsNoGate) {
  Clip clip = clean_clip(0.3, 21);
  std::mt19937 generator(22);
  std::normal_distribution<float> noise(0.0F, 0.2F);
  for (std::size_t n = 0; n < static_cast<std::size_t>(clip.onset_sample - clip.first_sample); ++n) {
    clip.samples[n] = std::round(noise(generator)) / 32768.0F;
  }
  EXPECT_FALSE(has_finding(clip_faults(clip), "noise_gate"));
}

TEST(ClipFaults, ARecordingThatBeginsWithTheShotHasNoNumbers) {
  Clip clip = clean_clip(0.5, 12);
  clip.first_sample = kEdge - 96;  // 2 ms before the edge
  clip.samples.erase(clip.samples.begin(), clip.samples.begin() + kEdge - 96);
  EXPECT_TRUE(has_finding(clip_faults(clip), "starts_inside_shot"));
  for (const Quantity quantity : {Quantity::levels, Quantity::loudness, Quantity::ring_down, Quantity::tones, Quantity::hum,
                                  Quantity::ping, Quantity::buzz, Quantity::floor, Quantity::impact}) {
    EXPECT_TRUE(voided(clip_faults(clip), quantity)) << quantity_name(quantity);
  }
  clip = clean_clip(0.5, 12);
  clip.first_sample = kEdge - 480;  // 10 ms of room before it are enough
  clip.samples.erase(clip.samples.begin(), clip.samples.begin() + kEdge - 480);
  EXPECT_FALSE(has_finding(clip_faults(clip), "starts_inside_shot"));
}

}  // namespace
}  // namespace ringfall::shot
