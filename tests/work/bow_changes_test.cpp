// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/bow_changes.h"

#include <gtest/gtest.h>

#include "logbook/earlier.h"
#include "work/two_bows.h"

namespace ringfall::work {
namespace {

compare::SeasonPoint point(int session, const char* started_at, double exposure_db, bool calibrated = true) {
  compare::SeasonPoint made;
  made.evening.session = session;
  made.evening.started_at = started_at;
  made.evening.calibrated = calibrated;
  for (const auto& measure : compare::season_measures()) {
    made.means.push_back(measure.id == "exposure_db" ? std::optional(exposure_db) : std::nullopt);
  }
  return made;
}

TEST(BowChanges, ANewStringIsSaidWithWhatFollowed) {
  const TestFolder folder;
  auto book = two_bows(folder.path("a"));
  logbook::Bow bow{"recurve", {170.0, std::nullopt, std::nullopt, "14 strands", "", {}}};
  book.change_bow("recurve", bow);
  add_numbers(book, 1, "bare", {70.0});
  logbook::keep_state(book, "2026-06-03T12:00:00Z", "recurve");
  bow.fittings.string = "18 strands";
  bow.fittings.brace_height_m = 0.21;  // not said before: no change
  book.change_bow("recurve", bow);
  compare::SetUpSeason season;
  season.bow = "recurve";
  season.setup = "bare";
  season.points = {point(1, "2026-04-01T10:00:00Z", 60.0), point(2, "2026-05-01T10:00:00Z", 70.0)};
  EXPECT_TRUE(bow_changes(book, season).empty()) << "nothing after it yet";
  season.points.push_back(point(3, "2026-06-10T10:00:00Z", 71.8));
  season.points.push_back(point(4, "2026-07-10T10:00:00Z", 75.0));
  const auto said = bow_changes(book, season);
  ASSERT_EQ(said.size(), 1U);
  // 71.8 - 70.0, of the sessions on either side.
  EXPECT_NE(said[0].find("New string '18 strands' (before '14 strands') on 2026-06-03: sound exposure +1.8 dB from session 2 to session 3"), std::string::npos)
      << said[0];
  EXPECT_EQ(said[0].find("brace"), std::string::npos) << said[0];
  season.points[2].evening.calibrated = false;
  EXPECT_NE(bow_changes(book, season).at(0).find("two scales"), std::string::npos);
  season.bow = "longbow";
  EXPECT_TRUE(bow_changes(book, season).empty()) << "another bow's";
}

}  // namespace
}  // namespace ringfall::work
