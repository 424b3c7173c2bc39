// SPDX-License-Identifier: GPL-3.0-or-later
// Comments: which of them were given before the numbers could be seen.
#include <gtest/gtest.h>

#include "base/failure.h"
#include "logbook/made_up.h"

namespace ringfall::logbook {
namespace {

/// A logbook whose only session is blind, with shots 1 .. 3 in block 1.
Logbook blind_logbook(const std::string& path) {
  Logbook book = made_up_logbook(path);
  Conditions session = book.conditions();
  session.blind = true;
  book.change_session(session);
  for (int k = 1; k <= 3; ++k) book.add_clip(1, made_up_clip(k));
  return book;
}

void make_blind(Logbook& book, bool blind) {
  Conditions session = book.conditions();
  session.blind = blind;
  book.change_session(session);
}

Comment rated(double hum) { return {"", {}, hum, {}, {}, ""}; }

/// Adds a comment and says whether it counts as blind.
bool comes_blind(Logbook& book, std::int64_t shot_id) {
  const std::int64_t id = book.add_comment(shot_id, rated(1.0));
  for (const auto& block : book.blocks()) {
    for (const auto& shot : block.shots) {
      for (const auto& comment : shot.comments) {
        if (comment.id == id) return comment.blind;
      }
    }
  }
  throw std::runtime_error("the comment is not there");
}

TEST(Comments, TheLastRatingCountsAndAllWords) {
  const std::vector<Comment> comments = {{"", 1.0, 2.0, {}, {}, "dull"}, {"", {}, 0.0, 4.0, {}, ""}, {"", 5.0, {}, {}, {}, "dead"}};
  const Comment all = taken_together(comments);
  EXPECT_EQ(all.loud, 5.0);
  EXPECT_EQ(all.hum, 0.0) << "0 is a rating";
  EXPECT_EQ(all.ping, 4.0);
  EXPECT_EQ(all.feel, std::nullopt);
  EXPECT_EQ(all.words, "dull; dead");
  EXPECT_EQ(taken_together({}).words, "");
}

TEST(Comments, OneAfterARemovedOneIsNotBlind) {
  const TestFolder folder;
  Logbook book = blind_logbook(folder.path("a"));
  book.remove_comment(book.add_comment(1, rated(2.0)));
  EXPECT_FALSE(comes_blind(book, 1)) << "between the two its numbers could be seen";
  EXPECT_TRUE(comes_blind(book, 2)) << "this one's could not";
  // A comment on the block shows all its shots, those that come later too.
  const std::int64_t on_block = book.add_block_comment(1, rated(2.0));
  const std::int64_t later = book.add_clip(1, made_up_clip(4));
  book.remove_comment(on_block);
  EXPECT_FALSE(comes_blind(book, 3));
  EXPECT_FALSE(comes_blind(book, later));
  EXPECT_TRUE(comes_blind(book, book.add_clip(1, made_up_clip(5)))) << "kept after the block's comment was gone";
  book.add_block_comment(1, rated(2.0));
  EXPECT_FALSE(book.blocks()[0].comments.at(0).blind);
}

TEST(Comments, OneAfterAnOpenSessionIsNotBlind) {
  const TestFolder folder;
  Logbook book = blind_logbook(folder.path("a"));
  make_blind(book, false);
  make_blind(book, true);
  EXPECT_FALSE(comes_blind(book, 1)) << "for a while all could be seen";
  EXPECT_TRUE(comes_blind(book, book.add_clip(1, made_up_clip(4))));
  make_blind(book, false);
  const std::int64_t open = book.add_clip(1, made_up_clip(5));
  make_blind(book, true);
  EXPECT_FALSE(comes_blind(book, open));
}

}  // namespace
}  // namespace ringfall::logbook
