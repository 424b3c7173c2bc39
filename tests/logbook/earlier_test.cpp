// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/earlier.h"

#include <gtest/gtest.h>

#include "base/failure.h"
#include "logbook/made_up.h"

namespace ringfall::logbook {
namespace {

TEST(Earlier, OldSessionsKeepWhatWasOnTheBow) {
  const TestFolder folder;
  Conditions first = made_up_conditions();
  first.started_at = "2026-05-01T10:00:00Z";
  Bow bow{"made-up bow", {170.0, 0.21, std::nullopt, "16 strands", "", {{Part::Kind::silencer, "wool", "string", 0.004}}}};
  Logbook book = Logbook::start(folder.path("a"), first, bow);
  book.add_setup({"bare", "", false, std::nullopt});
  const auto new_string = [&](const std::string& string, const std::string& since) {
    keep_state(book, since, "made-up bow");
    bow.fittings.string = string;
    bow.fittings.parts.clear();
    book.change_bow("made-up bow", bow);
  };
  new_string("14 strands", "2026-05-20T00:00:00Z");
  EXPECT_TRUE(earlier_states(book, "made-up bow").empty()) << "nobody shot with it";
  EXPECT_EQ(fittings_at(book, "made-up bow", "2026-05-01T10:00:00Z").string, "14 strands");
  bow.fittings.parts = {{Part::Kind::silencer, "wool", "string", 0.004}};
  book.change_bow("made-up bow", bow);
  book.add_block({"bare", "a.wav", 48000.0, "", "", {}});
  new_string("18 strands", "2026-06-03T12:00:00Z");
  ASSERT_EQ(earlier_states(book, "made-up bow").size(), 1U);
  const Fittings then = fittings_at(book, "made-up bow", "2026-05-01T10:00:00Z");
  EXPECT_EQ(then.string, "14 strands");
  EXPECT_EQ(then.draw_weight_n, 170.0);
  ASSERT_EQ(then.parts.size(), 1U);
  EXPECT_EQ(then.parts[0].mass_kg, 0.004);
  EXPECT_EQ(fittings_at(book, "made-up bow", "2026-06-03T12:00:00Z").string, "18 strands") << "from that moment on";
  EXPECT_TRUE(fittings_at(book, "made-up bow", "2026-07-01T00:00:00Z").parts.empty());
  EXPECT_EQ(book.bows()[0].fittings.string, "18 strands");
  EXPECT_THROW(new_string("20 strands", "2026-06-03T12:00:00Z"), RequestFailure);
  EXPECT_THROW(new_string("20 strands", "2026-05-02T12:00:00Z"), RequestFailure) << "before the last change";
  EXPECT_THROW(keep_state(book, "", "other"), RequestFailure);
  book.check_whole();
}

TEST(Earlier, ASetUpHasItsOwn) {
  const TestFolder folder;
  Conditions first = made_up_conditions();
  first.started_at = "2026-05-01T10:00:00Z";
  Logbook book = Logbook::start(folder.path("a"), first);
  book.add_setup({"damped", "20 g below the grip", false, 0.02});
  book.add_block({"damped", "a.wav", 48000.0, "", "", {}});
  keep_state(book, "2026-06-03T12:00:00Z", "made-up bow", "damped");
  const auto states = earlier_states(book, "made-up bow", "damped");
  ASSERT_EQ(states.size(), 1U);
  EXPECT_EQ(states[0].changed, "20 g below the grip");
  EXPECT_EQ(states[0].added_mass_kg, 0.02);
  EXPECT_TRUE(earlier_states(book, "made-up bow").empty()) << "the bow's are others";
  EXPECT_THROW(keep_state(book, "", "made-up bow", "other"), RequestFailure);
}

// From tests/data/logbook_version_5.sql.
TEST(Earlier, IsReadFromAFileOfVersion5) {
  const TestFolder folder;
  make_old_logbook(folder.path("old"), 5);
  const Logbook book(folder.path("old"));
  EXPECT_EQ(fittings_at(book, "made-up bow", "2025-11-30T00:00:00Z").string, "16 strands");
  EXPECT_EQ(fittings_at(book, "made-up bow", "2026-01-01T10:00:00Z").string, "18 strands");
  EXPECT_EQ(earlier_states(book, "made-up bow").at(0).fittings.parts.at(0).place, "on the string");
}

}  // namespace
}  // namespace ringfall::logbook
