// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/weighting.h"

#include <gtest/gtest.h>

#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

#include "base/csv.h"
#include "base/units.h"
#include "signal/segment_spectrum.h"

namespace ringfall::signal {
namespace {

/// A row of tests/data/iec61672_weightings.csv: IEC 61672-1:2013 Table 3 (goals and class 1 acceptance limits), as
/// transcribed in open test data.
struct Goal {
  double exact_hz = 0.0;  // 10^(n/10): Table 3 is rounded from the formulae there, not at the nominal frequency
  double a_db = 0.0, c_db = 0.0;
  double upper_db = 0.0, lower_db = 0.0;
};

std::vector<Goal> table_3() {
  const CsvTable table = read_csv(RINGFALL_TEST_DATA "/iec61672_weightings.csv");
  std::vector<Goal> goals;
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const auto cell = [&](const char* title) { return table.number(row, table.needed_column(title)); };
    const double exact_hz = std::pow(10.0, std::round(10.0 * std::log10(cell("nominal_hz").value())) / 10.0);
    goals.push_back({exact_hz, cell("a_db").value(), cell("c_db").value(), cell("class1_upper_db").value(),
                     cell("class1_lower_db").value_or(-INFINITY)});
  }
  return goals;
}

double rms_db(const std::vector<double>& samples, std::size_t begin, std::size_t end) {
  double sum = 0.0;
  for (std::size_t n = begin; n < end; ++n) sum += samples[n] * samples[n];
  return power_to_db(sum / static_cast<double>(end - begin));
}

TEST(Weighting, PolesFollowFromTheRecipeOfTheAnnex) {
  // IEC 61672-1:2013 Annex E, as transcribed in open test data.
  EXPECT_NEAR(weighting_poles().f1_hz, 20.598997, 1e-6);
  EXPECT_NEAR(weighting_poles().f2_hz, 107.652649, 1e-6);
  EXPECT_NEAR(weighting_poles().f3_hz, 737.862231, 1e-6);
  EXPECT_NEAR(weighting_poles().f4_hz, 12194.217148, 1e-5);
}

TEST(Weighting, AgreesWithTable3ToItsRounding) {
  const auto goals = table_3();
  ASSERT_EQ(goals.size(), 34U);
  for (const Goal& goal : goals) {
    EXPECT_NEAR(weighting_db(FrequencyWeighting::a, goal.exact_hz), goal.a_db, 0.051) << goal.exact_hz;
    EXPECT_NEAR(weighting_db(FrequencyWeighting::c, goal.exact_hz), goal.c_db, 0.051) << goal.exact_hz;
    EXPECT_EQ(weighting_db(FrequencyWeighting::z, goal.exact_hz), 0.0);
  }
}

TEST(Weighting, NothingOfASteadyPressureGetsThrough) {
  EXPECT_EQ(std::abs(weighting_response(FrequencyWeighting::a, 0.0)), 0.0);
  EXPECT_EQ(std::abs(weighting_response(FrequencyWeighting::c, 0.0)), 0.0);
  EXPECT_EQ(std::abs(weighting_response(FrequencyWeighting::z, 0.0)), 1.0);
}

TEST(Weighting, IsTheCausalCascadeOfPolesOfTheAnnex) {
  // Formulae of Annex E: two zeros at 0 Hz turn C by 180 degrees and two more A by another 180, every pole turns
  // back by atan(f / pole). Added up here pole by pole.
  for (const double f : {15.0, 100.0, 1000.0, 6000.0, 20000.0}) {
    const double c_phase = std::numbers::pi - 2.0 * std::atan(f / 20.598997) - 2.0 * std::atan(f / 12194.217148);
    const double a_phase = c_phase + std::numbers::pi - std::atan(f / 107.652649) - std::atan(f / 737.862231);
    const auto turn = [&](FrequencyWeighting weighting, double phase) {
      return std::abs(std::arg(weighting_response(weighting, f) * std::polar(1.0, -phase)));
    };
    EXPECT_LT(turn(FrequencyWeighting::c, c_phase), 1e-6) << f;
    EXPECT_LT(turn(FrequencyWeighting::a, a_phase), 1e-6) << f;
  }
}

TEST(Weighting, SpectrumIsWeightedLikeSingleFrequencies) {
  for (const auto weighting : {FrequencyWeighting::a, FrequencyWeighting::c, FrequencyWeighting::z}) {
    std::vector<std::complex<double>> bins(2000, {0.3, -0.7});
    apply_weighting(weighting, 12.5, bins);
    for (std::size_t k = 0; k < bins.size(); k += 7) {
      const auto expected =
          std::complex<double>(0.3, -0.7) * weighting_response(weighting, 12.5 * static_cast<double>(k));
      ASSERT_LT(std::abs(bins[k] - expected), 1e-12) << k;
    }
  }
}

TEST(Weighting, SinesThroughASegmentComeOutAtTable3) {
  // Class 1 would allow 0.7 dB to several dB; without sampling warp 0.06 dB (rounding of the table) is kept at every
  // rate, right up to Nyquist.
  for (const double rate_hz : {8000.0, 44100.0, 48000.0, 96000.0, 192000.0}) {
    const auto size = static_cast<std::size_t>(0.7 * rate_hz);
    for (const Goal& goal : table_3()) {
      if (goal.exact_hz > 0.48 * rate_hz) continue;
      std::vector<double> sine(size);
      for (std::size_t n = 0; n < size; ++n) {
        sine[n] = std::sin(2.0 * std::numbers::pi * goal.exact_hz * static_cast<double>(n) / rate_hz + 0.4);
      }
      const SegmentSpectrum segment(sine, rate_hz);
      // Whole periods of the sine, clear of the ends by 0.15 s and 0.05 s.
      const double periods = std::floor(0.5 * goal.exact_hz);
      const auto begin = static_cast<std::size_t>(0.15 * rate_hz);
      const auto end = begin + static_cast<std::size_t>(std::round(periods / goal.exact_hz * rate_hz));
      for (const auto weighting : {FrequencyWeighting::a, FrequencyWeighting::c}) {
        const double gain_db = rms_db(segment.weighted(weighting), begin, end) - power_to_db(0.5);
        const double goal_db = weighting == FrequencyWeighting::a ? goal.a_db : goal.c_db;
        EXPECT_NEAR(gain_db, goal_db, 0.06) << goal.exact_hz << " Hz at " << rate_hz;
        EXPECT_LE(gain_db - goal_db, goal.upper_db);
        EXPECT_GE(gain_db - goal_db, goal.lower_db);
      }
    }
  }
}

TEST(Weighting, SoundNearTheEndDoesNotComeRoundToTheBeginning) {
  // A click 20 ms from the end of a segment: the weighting's answer must not appear at the beginning.
  std::vector<double> click(24000, 0.0);
  click[click.size() - 960] = 1.0;
  const auto weighted = SegmentSpectrum(click, 48000.0).weighted(FrequencyWeighting::c);
  double highest = 0.0, early = 0.0;
  for (std::size_t n = 0; n < weighted.size(); ++n) {
    highest = std::max(highest, std::abs(weighted[n]));
    if (n < 4800) early = std::max(early, std::abs(weighted[n]));
  }
  EXPECT_GT(highest, 0.3);
  EXPECT_LT(early, highest * 1e-4);
}

}  // namespace
}  // namespace ringfall::signal
