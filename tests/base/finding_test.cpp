// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/finding.h"

#include <gtest/gtest.h>

#include <string>

#include "base/failure.h"

namespace ringfall {
namespace {

const std::vector<Finding> kFindings = {
    {"clipped", Severity::void_, {Quantity::levels, Quantity::loudness}, "The peak is cut off."},
    {"wind", Severity::caution, {Quantity::hum}, "Wind."},
    {"not_calibrated", Severity::note, {}, "Levels are re full scale."},
};

TEST(Finding, OnlyVoidFindingsVoidAndOnlyWhatTheyName) {
  EXPECT_TRUE(voided(kFindings, Quantity::levels));
  EXPECT_TRUE(voided(kFindings, Quantity::loudness));
  EXPECT_FALSE(voided(kFindings, Quantity::ring_down));
  EXPECT_FALSE(voided(kFindings, Quantity::hum));  // a caution only
  EXPECT_FALSE(voided({}, Quantity::levels));
}

TEST(Finding, IsFoundByItsWholeCode) {
  EXPECT_TRUE(has_finding(kFindings, "wind"));
  EXPECT_FALSE(has_finding(kFindings, "win"));
  EXPECT_FALSE(has_finding({}, "wind"));
}

// The names are part of the machine-readable output: a change here breaks what others read.
TEST(Finding, NamesOnPaper) {
  EXPECT_EQ(severity_name(Severity::note), "note");
  EXPECT_EQ(severity_name(Severity::caution), "caution");
  EXPECT_EQ(severity_name(Severity::void_), "void");
  EXPECT_EQ(origin_name(Origin::clip), "clip");
  EXPECT_EQ(origin_name(Origin::recording), "recording");
  EXPECT_EQ(origin_name(Origin::person), "person");
  std::string names;
  for (const Quantity quantity : {Quantity::levels, Quantity::loudness, Quantity::ring_down, Quantity::tones,
                                  Quantity::hum, Quantity::ping, Quantity::buzz, Quantity::onset, Quantity::impact}) {
    names += std::string(quantity_name(quantity)) + " ";
  }
  EXPECT_EQ(names, "levels loudness ring_down tones hum ping buzz onset impact ");
}

TEST(Finding, ImpossibleValuesAreOurOwnMistake) {
  EXPECT_THROW(severity_name(static_cast<Severity>(99)), InternalError);
  EXPECT_THROW(quantity_name(static_cast<Quantity>(99)), InternalError);
  EXPECT_THROW(origin_name(static_cast<Origin>(99)), InternalError);
}

}  // namespace
}  // namespace ringfall
