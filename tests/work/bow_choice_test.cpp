// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/bow_choice.h"

#include <gtest/gtest.h>

#include "base/failure.h"
#include "work/two_bows.h"

namespace ringfall::work {
namespace {

TEST(BowChoice, ASetUpIsHeldAgainstItsOwnBowsBaseline) {
  const TestFolder folder;
  auto book = two_bows(folder.path("a"));
  EXPECT_EQ(newest_bow(book), std::nullopt);
  add_numbers(book, 1, "bare", {-40.0, -41.0});
  add_numbers(book, 1, "damped", {-42.0, -43.0});
  EXPECT_EQ(comparable(book, std::nullopt, std::nullopt).baseline, "bare") << "the only bow that was shot";
  add_numbers(book, 2, "bare", {-30.0, -31.0});
  const auto last = add_numbers(book, 2, "quiet", {-32.0, -33.0});
  EXPECT_EQ(newest_bow(book), "longbow");
  const auto longbow = comparable(book, "longbow", std::nullopt);
  EXPECT_EQ(longbow.session.setups(), (std::vector<std::string>{"bare", "quiet"}));
  EXPECT_EQ(longbow.baseline, "bare");
  EXPECT_EQ(longbow.session.blocks.at(0).shots.at(0).shot.levels.exposure_db, -30.0) << "not the recurve's";
  std::string said;
  try {
    comparable(book, std::nullopt, std::nullopt);
  } catch (const RequestFailure& refused) {
    said = refused.what();
  }
  EXPECT_NE(said.find("2 bows ('recurve', 'longbow')"), std::string::npos) << said;
  EXPECT_NE(said.find("--bow"), std::string::npos) << said;
  // Bows against each other: the person says what they are held against.
  EXPECT_EQ(comparable(book, std::nullopt, "damped").baseline, "recurve: damped");
  EXPECT_EQ(comparable(book, std::nullopt, "longbow: bare").session.blocks.size(), 4U);
  EXPECT_THROW(comparable(book, std::nullopt, "bare"), RequestFailure) << "which?";
  EXPECT_THROW(comparable(book, "recurv", std::nullopt), RequestFailure);
  book.drop_block(last, "wind");
  book.drop_block(last - 1, "wind");
  EXPECT_EQ(comparable(book, std::nullopt, std::nullopt).session.setups().size(), 2U) << "only one bow counts";
}

TEST(BowChoice, AUniqueNameNeedsNoBow) {
  const TestFolder folder;
  auto book = two_bows(folder.path("a"));
  add_numbers(book, 1, "bare", {-40.0});
  add_numbers(book, 2, "bare", {-30.0});
  add_numbers(book, 2, "quiet", {-32.0});
  const auto all = compare::logbook_session(book);
  EXPECT_EQ(setup_in(all, "quiet"), "longbow: quiet");
  EXPECT_EQ(setup_in(all, "recurve: bare"), "recurve: bare");
  EXPECT_THROW(setup_in(all, "bare"), RequestFailure);
  EXPECT_THROW(setup_in(all, "iet"), RequestFailure) << "the end of a name is none";
  EXPECT_EQ(setup_in(compare::logbook_session(book, "longbow"), "bare"), "bare");
}

}  // namespace
}  // namespace ringfall::work
