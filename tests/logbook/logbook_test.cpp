// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/logbook.h"

#include <gtest/gtest.h>

#include "base/failure.h"
#include "logbook/made_up.h"
#include "shot/numbers.h"

namespace ringfall::logbook {
namespace {

/// A shot whose numbers are all there and all different; half of them when `half`.
shot::Shot made_up_shot(bool half) {
  shot::Shot shot;
  shot.number = 1;
  shot.tail_end_s = 2.9;
  double value = 0.1;
  bool keep = true;
  for (const auto& number : shot::numbers()) {
    value += 1.0 / 3.0;
    if (keep) number.in(shot) = value;
    keep = !half || !keep;
  }
  shot.tones = {{95.123456789, 61.0, 0.4, 0.01, shot::ToneFamily::hum}, {700.0, 50.0, 0.3, 0.002, shot::ToneFamily::mid},
                {1450.0, 40.0, 0.2, 0.001, shot::ToneFamily::ping}};
  shot.findings = {{"made_up", Severity::void_, {Quantity::levels, Quantity::ping}, "A made-up remark."}};
  return shot;
}

TEST(Logbook, GivesBackWhatItWasGiven) {
  const TestFolder folder;
  {
    Logbook book = made_up_logbook(folder.path("a"));
    book.add_setup({"damper", "30 g below the grip", false, 0.030});
    EXPECT_EQ(book.add_block({"damper", "b.wav", 44100.0, "wind", "gusts", {{"chain", Severity::note, {}, "Made up."}}}), 2);
    EXPECT_EQ(book.add_clip(1, made_up_clip(1)), 1);
    EXPECT_EQ(book.add_clip(2, made_up_clip(2)), 2);
    book.set_numbers(1, made_up_shot(false), "0.1");
    book.set_numbers(1, made_up_shot(true), "0.2");  // replaces
    book.add_comment(1, {"", 7.0, 0.0, 10.0, std::nullopt, "it's \"tinny\""});
  }
  EXPECT_FALSE(std::filesystem::exists(folder.path("a-wal"))) << "one file when closed";
  const Logbook book(folder.path("a"));
  book.check_whole();
  const auto conditions = book.conditions();
  EXPECT_EQ(conditions.bow, "made-up bow");
  EXPECT_EQ(conditions.place, "made-up hall");
  EXPECT_EQ(conditions.chain, "made-up microphone");
  EXPECT_EQ(conditions.distance_m, 18.0);
  EXPECT_EQ(conditions.temperature_c, 15.0);
  EXPECT_EQ(conditions.full_scale_db_spl, 118.0);
  EXPECT_EQ(conditions.started_at.size(), std::string("2026-01-01T00:00:00Z").size());
  const auto setups = book.setups();
  ASSERT_EQ(setups.size(), 2U);
  EXPECT_TRUE(setups[0].baseline);
  EXPECT_FALSE(setups[1].baseline);
  EXPECT_EQ(setups[1].changed, "30 g below the grip");
  EXPECT_EQ(setups[1].added_mass_kg, 0.030);

  const auto blocks = book.blocks();
  ASSERT_EQ(blocks.size(), 2U);
  EXPECT_EQ(blocks[1].setup, "damper");
  EXPECT_EQ(blocks[1].file, "b.wav");
  EXPECT_EQ(blocks[1].note, "wind");
  EXPECT_EQ(blocks[1].dropped, "gusts");
  EXPECT_EQ(blocks[1].sample_rate_hz, 44100.0);
  ASSERT_EQ(blocks[1].findings.size(), 1U);
  EXPECT_EQ(blocks[1].findings[0].code, "chain");
  ASSERT_EQ(blocks[0].shots.size(), 1U);
  const KeptShot& kept = blocks[0].shots[0];
  const shot::Shot given = made_up_shot(true);
  for (const auto& number : shot::numbers()) EXPECT_EQ(number.of(kept.shot), number.of(given)) << number.id;
  EXPECT_EQ(kept.analyser, "0.2");
  EXPECT_EQ(kept.shot.tail_end_s, 2.9);
  EXPECT_EQ(kept.shot.onset_s, 2.5);
  ASSERT_EQ(kept.shot.tones.size(), 3U);
  for (std::size_t k = 0; k < 3; ++k) {
    EXPECT_EQ(kept.shot.tones[k].frequency_hz, given.tones[k].frequency_hz);
    EXPECT_EQ(kept.shot.tones[k].damping_ratio, given.tones[k].damping_ratio);
    EXPECT_EQ(kept.shot.tones[k].family, given.tones[k].family);
  }
  ASSERT_EQ(kept.shot.findings.size(), 1U);
  EXPECT_EQ(kept.shot.findings[0].severity, Severity::void_);
  EXPECT_EQ(kept.shot.findings[0].voids, given.findings[0].voids);
  EXPECT_EQ(kept.shot.findings[0].sentence, "A made-up remark.");
  ASSERT_EQ(kept.comments.size(), 1U);
  EXPECT_EQ(kept.comments[0].ping, 10.0);
  EXPECT_EQ(kept.comments[0].hum, 0.0);
  EXPECT_EQ(kept.comments[0].feel, std::nullopt);
  EXPECT_EQ(kept.comments[0].words, "it's \"tinny\"");
  EXPECT_TRUE(blocks[1].shots[0].analyser.empty()) << "kept, not measured yet";

  const CodedClip clip = book.clip(2);
  const CodedClip wanted = made_up_clip(2);
  EXPECT_EQ(clip.bytes, wanted.bytes);
  EXPECT_EQ(clip.number, 2);
  EXPECT_EQ(clip.places.sample_rate_hz, 44100.0);
  EXPECT_EQ(clip.places.first_sample, wanted.places.first_sample);
  EXPECT_EQ(clip.places.onset_sample, wanted.places.onset_sample);
  EXPECT_EQ(clip.places.onset_fraction, 0.25);
  EXPECT_EQ(clip.places.impact_sample, wanted.places.impact_sample);
  EXPECT_EQ(clip.places.next_shot_sample, std::nullopt);
}

TEST(Logbook, DropsAndRestores) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  book.add_clip(1, made_up_clip(1));
  book.drop_shot(1, "plucked");
  book.drop_block(1, "wind");
  EXPECT_EQ(book.blocks()[0].dropped, "wind");
  EXPECT_EQ(book.blocks()[0].shots[0].dropped, "plucked");
  book.drop_shot(1, "");
  book.drop_block(1, "");
  EXPECT_EQ(book.blocks()[0].dropped, "");
  EXPECT_EQ(book.blocks()[0].shots[0].dropped, "");
  EXPECT_THROW(book.drop_shot(2, "x"), RequestFailure);
  EXPECT_THROW(book.drop_block(2, "x"), RequestFailure);
}

TEST(Logbook, RefusesWhatCannotBe) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  book.add_clip(1, made_up_clip(1));
  EXPECT_THROW(book.add_comment(1, {"", 10.5, {}, {}, {}, ""}), LogbookFailure);
  EXPECT_THROW(book.add_comment(1, {"", {}, -0.1, {}, {}, "x"}), LogbookFailure);
  EXPECT_THROW(book.add_comment(1, {"", {}, {}, 11.0, {}, "x"}), LogbookFailure);
  EXPECT_THROW(book.add_comment(1, {"", {}, {}, {}, 11.0, "x"}), LogbookFailure);
  EXPECT_THROW(book.add_comment(1, {"", {}, {}, {}, {}, ""}), LogbookFailure) << "nothing said";
  EXPECT_THROW(book.add_comment(2, {"", 5.0, {}, {}, {}, ""}), RequestFailure) << "no such shot";
  EXPECT_TRUE(book.blocks()[0].shots[0].comments.empty());
  EXPECT_THROW(book.add_clip(1, made_up_clip(1)), LogbookFailure) << "this shot of the block is there already";
  EXPECT_THROW(book.add_clip(7, made_up_clip(1)), RequestFailure) << "no such block";
  EXPECT_THROW(book.add_setup({"bare", "", false, std::nullopt}), RequestFailure) << "the name is taken";
  EXPECT_THROW(book.add_setup({"", "", false, std::nullopt}), RequestFailure);
  try {
    book.add_block({"bar", "a.wav", 48000.0, "", "", {}});
    ADD_FAILURE() << "no such set-up";
  } catch (const RequestFailure& failure) {
    EXPECT_NE(std::string(failure.what()).find("did you mean 'bare'"), std::string::npos) << failure.what();
  }
  EXPECT_EQ(book.blocks().size(), 1U);
  EXPECT_THROW(Logbook::start(folder.path("a"), made_up_conditions()), LogbookFailure) << "never written over";
}

TEST(Logbook, ForeignKeysHold) {
  const TestFolder folder;
  made_up_logbook(folder.path("a")).add_clip(1, made_up_clip(1));
  const Database database(folder.path("a"), Database::Access::existing);
  EXPECT_THROW(database.run("DELETE FROM setup"), LogbookFailure);
  EXPECT_THROW(database.run("DELETE FROM session"), LogbookFailure);
  EXPECT_THROW(database.run("INSERT INTO number VALUES (99, 'hum', 1.0)"), LogbookFailure);
  EXPECT_THROW(database.run("UPDATE shot SET onset_s = 'soon'"), LogbookFailure) << "STRICT";
}

}  // namespace
}  // namespace ringfall::logbook
