// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/loudness_tables.h"

#include <gtest/gtest.h>

#include <string>

#include "base/csv.h"

namespace ringfall::signal {
namespace {

// Every number of src/signal/loudness_tables.cpp against ISO 532-1:2017 Tables A.1 to A.9 as transcribed in open test
// data (tests/data/iso532_1/README.md).
CsvTable table(const std::string& name) {
  return read_csv(std::string(RINGFALL_TEST_DATA) + "/iso532_1/" + name + ".csv");
}

TEST(LoudnessTables, FiltersAreThoseOfTheStandard) {
  const CsvTable csv = table("tableA1_A2_third_octave_filters_48k");
  ASSERT_EQ(csv.rows.size(), kThirdOctaves);
  const double numerators[3][3] = {{1, 2, 1}, {1, 0, -1}, {1, -2, 1}};
  for (std::size_t r = 0; r < kThirdOctaves; ++r) {
    EXPECT_EQ(kThirdOctaveFilters[r].gain, csv.number(r, 1)) << r;
    for (std::size_t s = 0; s < 3; ++s) {
      for (std::size_t b = 0; b < 3; ++b) EXPECT_EQ(numerators[s][b], csv.number(r, 2 + 6 * s + b)) << r;
      EXPECT_EQ(1.0, csv.number(r, 5 + 6 * s)) << r;
      EXPECT_EQ(kThirdOctaveFilters[r].sections[s].a1, csv.number(r, 6 + 6 * s)) << r;
      EXPECT_EQ(kThirdOctaveFilters[r].sections[s].a2, csv.number(r, 7 + 6 * s)) << r;
    }
  }
}

TEST(LoudnessTables, ReductionsAreThoseOfTheStandard) {
  const CsvTable csv = table("tableA3_low_frequency_DLL");
  ASSERT_EQ(csv.rows.size(), kLowFrequencyReductions.size());
  for (std::size_t r = 0; r < csv.rows.size(); ++r) {
    EXPECT_EQ(kLowFrequencyReductions[r].up_to_db, csv.number(r, 0));
    for (std::size_t i = 0; i < kReducedBands; ++i)
      EXPECT_EQ(kLowFrequencyReductions[r].reduction_db[i], csv.number(r, 1 + i)) << r << ' ' << i;
  }
}

TEST(LoudnessTables, BandsAreThoseOfTheStandard) {
  const CsvTable csv = table("tableA4_A7_per_critical_band");
  ASSERT_EQ(csv.rows.size(), kCriticalBands + 1);
  for (std::size_t i = 0; i <= kCriticalBands; ++i) {
    EXPECT_EQ(kUpperLimit_bark[i], csv.number(i, 5)) << i;
    if (i == kCriticalBands) continue;
    EXPECT_EQ(kTransmission_db[i], csv.number(i, 1)) << i;
    EXPECT_EQ(kDiffuseFieldDifference_db[i], csv.number(i, 2)) << i;
    EXPECT_EQ(kThreshold_db[i], csv.number(i, 3)) << i;
    EXPECT_EQ(kBandwidthAdaptation_db[i], csv.number(i, 4)) << i;
  }
}

TEST(LoudnessTables, UpperSlopesAreThoseOfTheStandard) {
  const CsvTable csv = table("tableA8_A9_upper_slopes");
  ASSERT_EQ(csv.rows.size(), kUpperSlopes.size());
  for (std::size_t r = 0; r < csv.rows.size(); ++r) {
    EXPECT_EQ(kUpperSlopes[r].above_sone_per_bark, csv.number(r, 0));
    for (std::size_t c = 0; c < 8; ++c) EXPECT_EQ(kUpperSlopes[r].steepness[c], csv.number(r, 1 + c)) << r << ' ' << c;
  }
}

}  // namespace
}  // namespace ringfall::signal
