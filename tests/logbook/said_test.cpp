// SPDX-License-Identifier: GPL-3.0-or-later
// What people say: comments on shots and blocks, blind ones, corrections of the finder.
#include <gtest/gtest.h>

#include "base/failure.h"
#include "logbook/made_up.h"

namespace ringfall::logbook {
namespace {

TEST(Comments, BlindOnesComeBeforeTheNumbers) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  Conditions session = book.conditions();
  session.blind = true;
  book.change_session(session);
  for (int k = 1; k <= 3; ++k) book.add_clip(1, made_up_clip(k));
  const auto hidden = [&book](std::size_t shot) {
    const auto blocks = book.blocks();
    return numbers_hidden(blocks[0], blocks[0].shots[shot]);
  };
  EXPECT_TRUE(hidden(0));
  const std::int64_t first = book.add_comment(1, {"", {}, 2.0, {}, {}, "dull"});
  EXPECT_FALSE(hidden(0));
  EXPECT_TRUE(hidden(1));
  book.add_comment(1, {"", {}, 3.0, {}, {}, ""});
  book.add_block_comment(1, {"", {}, {}, {}, 7.0, "all alike"});
  EXPECT_FALSE(hidden(1)) << "one comment on the block shows all its shots";
  book.add_comment(2, {"", 1.0, {}, {}, {}, ""});
  const auto blocks = book.blocks();
  const auto& said = blocks[0].shots[0].comments;
  ASSERT_EQ(said.size(), 2U);
  EXPECT_TRUE(said[0].blind);
  EXPECT_FALSE(said[1].blind) << "the numbers could be seen by then";
  ASSERT_EQ(blocks[0].comments.size(), 1U);
  EXPECT_FALSE(blocks[0].comments[0].blind) << "shot 1 could be seen by then";
  EXPECT_EQ(blocks[0].comments[0].feel, 7.0);
  EXPECT_FALSE(blocks[0].shots[1].comments[0].blind);

  book.change_comment(first, {"", {}, 4.0, {}, {}, "dull, dead"});
  const Comment changed = book.blocks()[0].shots[0].comments[0];
  EXPECT_EQ(changed.id, first);
  EXPECT_EQ(changed.hum, 4.0);
  EXPECT_EQ(changed.words, "dull, dead");
  EXPECT_EQ(changed.said_at, said[0].said_at);
  EXPECT_EQ(changed.changed_at.size(), changed.said_at.size());
  EXPECT_TRUE(said[0].changed_at.empty());
  EXPECT_FALSE(changed.blind) << "the numbers could be seen when it was changed";
  const auto expect_back = [&book](const Comment& was) {
    const auto comments = book.blocks()[0].shots[0].comments;
    ASSERT_EQ(comments.size(), 2U);
    EXPECT_EQ(comments[0].id, was.id);
    EXPECT_EQ(comments[0].words, was.words);
    EXPECT_EQ(comments[0].hum, was.hum);
    EXPECT_EQ(comments[0].loud, was.loud);
    EXPECT_EQ(comments[0].said_at, was.said_at);
    EXPECT_EQ(comments[0].changed_at, was.changed_at);
    EXPECT_EQ(comments[0].blind, was.blind);
  };
  book.put_comment_back(1, said[0]);
  expect_back(said[0]);
  book.remove_comment(first);
  book.put_comment_back(1, changed);
  expect_back(changed);
  EXPECT_THROW(book.put_comment_back(99, changed), RequestFailure);
  book.remove_comment(first);
  EXPECT_EQ(book.blocks()[0].shots[0].comments.size(), 1U);
  EXPECT_THROW(book.remove_comment(first), RequestFailure);
  EXPECT_THROW(book.change_comment(first, {"", {}, 4.0, {}, {}, ""}), RequestFailure);
  EXPECT_THROW(book.add_block_comment(9, {"", {}, 4.0, {}, {}, ""}), RequestFailure);
}

TEST(Corrections, AreKeptAndCanBeTakenBack) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  book.add_clip(1, made_up_clip(1));
  book.add_clip(1, made_up_clip(3));
  book.say_not_a_shot(1);
  EXPECT_EQ(book.blocks()[0].shots[0].dropped, "not a shot");
  book.undo_correction(1);
  EXPECT_EQ(book.blocks()[0].shots[0].dropped, "");
  EXPECT_THROW(book.undo_correction(1), RequestFailure);
  EXPECT_TRUE(book.corrections().empty());

  // 2.51 s at 48 kHz are 120480 samples.
  book.move_edge(1, 2.51);
  EXPECT_EQ(book.clip(1).places.onset_sample, 120480);
  EXPECT_NEAR(book.clip(1).places.onset_fraction, 0.0, 1e-6);
  EXPECT_EQ(book.clip(1).onset_s, 2.51);
  book.undo_correction(1);
  EXPECT_EQ(book.clip(1).onset_s, 2.5);
  EXPECT_THROW(book.move_edge(1, 4.0), RequestFailure);
  EXPECT_THROW(book.move_edge(1, 2.4), RequestFailure) << "its sound begins at 2.5 s";

  CodedClip missed = made_up_clip(2);
  missed.number = 0;
  const std::int64_t id = book.add_clip(1, missed);
  book.say_missed_shot(1, 5.0, id);
  book.say_missed_shot(1, 9.0, std::nullopt);
  book.say_not_a_shot(2);
  const auto corrections = book.corrections();
  ASSERT_EQ(corrections.size(), 3U);
  EXPECT_EQ(corrections[0].kind, Correction::Kind::missed_shot);
  EXPECT_EQ(corrections[0].shot, id);
  EXPECT_EQ(corrections[0].edge_s, 5.0);
  EXPECT_EQ(corrections[1].shot, std::nullopt);
  EXPECT_EQ(corrections[2].kind, Correction::Kind::not_a_shot);
  EXPECT_EQ(corrections[2].found_s, 7.5);
  EXPECT_EQ(corrections[2].block, 1);
  const auto shots = book.blocks()[0].shots;
  ASSERT_EQ(shots.size(), 3U);
  EXPECT_EQ(shots[1].id, id) << "in time order";
  EXPECT_EQ(shots[1].shot.number, 4);

  EXPECT_THROW(book.remove_missed_shot(1), RequestFailure) << "the finder found it";
  const std::int64_t said = book.add_comment(id, {"", 3.0, {}, {}, {}, ""});
  EXPECT_THROW(book.remove_missed_shot(id), RequestFailure) << "it has a comment";
  book.remove_comment(said);
  book.remove_missed_shot(id);
  EXPECT_EQ(book.blocks()[0].shots.size(), 2U);
  EXPECT_EQ(book.corrections().size(), 2U);
  EXPECT_THROW(book.clip(id), RequestFailure);
  book.check_whole();
}

}  // namespace
}  // namespace ringfall::logbook
