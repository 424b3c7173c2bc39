// SPDX-License-Identifier: GPL-3.0-or-later
// Several bows, set-ups and sessions in one file; what of a shot is no single number.
#include <gtest/gtest.h>

#include "base/failure.h"
#include "logbook/made_up.h"
#include "logbook/shot_details.h"

namespace ringfall::logbook {
namespace {

Fittings made_up_fittings() {
  return {177.9, 0.22, 0.0259, "18 strands", "two of wool", {{Part::Kind::damper, "rubber", "upper limb", 0.012},
                                                              {Part::Kind::mass, "", "front", 0.180},
                                                              {Part::Kind::other, "plunger", "", std::nullopt}}};
}

void expect_same(const Fittings& got, const Fittings& wanted) {
  EXPECT_EQ(got.draw_weight_n, wanted.draw_weight_n);
  EXPECT_EQ(got.brace_height_m, wanted.brace_height_m);
  EXPECT_EQ(got.arrow_mass_kg, wanted.arrow_mass_kg);
  EXPECT_EQ(got.string, wanted.string);
  EXPECT_EQ(got.silencers, wanted.silencers);
  ASSERT_EQ(got.parts.size(), wanted.parts.size());
  for (std::size_t k = 0; k < got.parts.size(); ++k) {
    EXPECT_EQ(got.parts[k].kind, wanted.parts[k].kind);
    EXPECT_EQ(got.parts[k].what, wanted.parts[k].what);
    EXPECT_EQ(got.parts[k].place, wanted.parts[k].place);
    EXPECT_EQ(got.parts[k].mass_kg, wanted.parts[k].mass_kg);
  }
}

TEST(Bows, KeepWhatIsOnThem) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  book.add_bow({"second", made_up_fittings(), "lent"});
  ASSERT_EQ(book.bows().size(), 2U);
  expect_same(book.bows()[0].fittings, {});
  expect_same(book.bows()[1].fittings, made_up_fittings());
  EXPECT_EQ(book.bows()[1].note, "lent");
  book.change_bow("second", {"other", {}, ""});
  EXPECT_EQ(book.bows()[1].name, "other");
  expect_same(book.bows()[1].fittings, {});
  EXPECT_THROW(book.add_bow({"other", {}, ""}), RequestFailure) << "the name is taken";
  EXPECT_THROW(book.change_bow("third", {"third", {}, ""}), RequestFailure);
  Fittings broken = made_up_fittings();
  broken.parts[0].mass_kg = -1.0;
  EXPECT_THROW(book.change_bow("other", {"half", broken, ""}), LogbookFailure);
  EXPECT_EQ(book.bows()[1].name, "other") << "all or nothing";
}

TEST(SetUps, BelongToABowAndOneIsItsBaseline) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  book.add_bow({"second", {}, ""});
  logbook::SetUp with_parts{"bare", "", false, std::nullopt, "second", made_up_fittings(), "a note"};
  book.add_setup(with_parts);
  ASSERT_EQ(book.setups("second").size(), 1U) << "the same name on another bow is another set-up";
  const logbook::SetUp kept = book.setups("second")[0];
  EXPECT_TRUE(kept.baseline) << "the bow's first";
  EXPECT_EQ(kept.bow, "second");
  EXPECT_EQ(kept.note, "a note");
  expect_same(kept.fittings, made_up_fittings());
  // 12 g + 180 g; the plunger's mass is not known.
  EXPECT_DOUBLE_EQ(added_mass_kg(kept).value(), 0.192);
  with_parts.added_mass_kg = 0.2;
  EXPECT_EQ(added_mass_kg(with_parts), 0.2) << "what is stated goes before the sum";
  EXPECT_EQ(added_mass_kg({"x", "", false, std::nullopt}), std::nullopt);
  EXPECT_EQ(book.setups("made-up bow").size(), 1U);
  EXPECT_EQ(book.setups().size(), 2U);

  book.add_setup({"damper", "", true, std::nullopt, "second"});
  EXPECT_FALSE(book.setups("second")[0].baseline);
  EXPECT_TRUE(book.setups("second")[1].baseline);
  book.change_setup("bare", {"naked", "nothing on it", true, 0.5, "second"});
  EXPECT_EQ(book.setups("second")[0].name, "naked");
  EXPECT_TRUE(book.setups("second")[0].baseline);
  EXPECT_FALSE(book.setups("second")[1].baseline);
  expect_same(book.setups("second")[0].fittings, {});
  EXPECT_THROW(book.change_setup("naked", {"naked", "", false, std::nullopt, "second"}), RequestFailure) << "hand it on instead";
  EXPECT_TRUE(book.setups("made-up bow")[0].baseline) << "the other bow keeps its own";
  EXPECT_THROW(book.change_setup("nacked", {"x", "", false, std::nullopt, "second"}), RequestFailure);
}

TEST(Sessions, BlocksBelongToTheirs) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  book.add_bow({"second", {}, ""});
  const Conditions wood{"second", "", "wood", 30.0, 5.0, "recorder, gain 3", std::nullopt, 80.0, "made-up microphone 2", "card",
                        -23.5, true, "rain"};
  EXPECT_EQ(book.start_session(wood), 2);
  EXPECT_THROW(book.add_block({"bare", "b.wav", 48000.0, "", "", {}}), RequestFailure) << "the second bow has no such set-up";
  book.add_setup({"bare", "", false, std::nullopt});
  EXPECT_EQ(book.add_block({"bare", "b.wav", 48000.0, "", "", {}, 0, 2}), 2);
  EXPECT_EQ(book.add_block({"bare", "c.wav", 48000.0, "", "", {}, 1, std::nullopt}), 3);
  const auto sessions = book.sessions();
  ASSERT_EQ(sessions.size(), 2U);
  EXPECT_EQ(sessions[0].bow, "made-up bow");
  EXPECT_FALSE(sessions[0].blind);
  const Conditions kept = book.conditions();
  EXPECT_EQ(kept.session, 2);
  EXPECT_EQ(kept.bow, "second");
  EXPECT_EQ(kept.place, "wood");
  EXPECT_EQ(kept.distance_m, 30.0);
  EXPECT_EQ(kept.temperature_c, 5.0);
  EXPECT_EQ(kept.humidity_percent, 80.0);
  EXPECT_EQ(kept.chain, "recorder, gain 3");
  EXPECT_EQ(kept.microphone, "made-up microphone 2");
  EXPECT_EQ(kept.device, "card");
  EXPECT_EQ(kept.full_scale_db_spl, std::nullopt);
  EXPECT_EQ(kept.check_tone_db, -23.5);
  EXPECT_TRUE(kept.blind);
  EXPECT_EQ(kept.note, "rain");
  const auto blocks = book.blocks();
  ASSERT_EQ(blocks.size(), 3U);
  EXPECT_EQ(blocks[1].session, 2);
  EXPECT_EQ(blocks[1].bow, "second");
  EXPECT_EQ(blocks[1].channel, 2);
  EXPECT_TRUE(blocks[1].blind);
  EXPECT_EQ(blocks[2].bow, "made-up bow");
  EXPECT_EQ(blocks[2].channel, std::nullopt);
  Conditions changed = kept;
  changed.check_tone_db = -22.0;
  changed.blind = false;
  book.change_session(changed);
  EXPECT_EQ(book.conditions().check_tone_db, -22.0);
  EXPECT_EQ(book.conditions().started_at, kept.started_at);
  EXPECT_FALSE(book.blocks()[1].blind);
  EXPECT_THROW(book.conditions(3), RequestFailure);
  EXPECT_THROW(book.start_session({"third", "", "", std::nullopt, 20.0, "", std::nullopt}), RequestFailure);
  EXPECT_EQ(book.sessions().size(), 2U);
  book.add_setup({"damper", "", false, std::nullopt});
  book.change_block(2, "damper", "the wrong one was named");
  EXPECT_EQ(book.blocks()[1].setup, "damper");
  EXPECT_EQ(book.blocks()[1].note, "the wrong one was named");
}

TEST(ShotDetails, ComeBackExactly) {
  shot::Shot shot;
  shot.hits = {{0.0, -3.3333333333333335}, {0.0123456789012345678, -20.1}};
  shot.ring_down.bands = {{31.5, 0.1 + 0.2, std::nullopt}, {63.0, std::nullopt, 1.0 / 3.0}};
  shot.buzz = shot::Buzz{11.1, 96.7};
  shot::Shot back;
  read_details(details_text(shot), back);
  ASSERT_EQ(back.hits.size(), 2U);
  EXPECT_EQ(back.hits[1].lag_s, shot.hits[1].lag_s);
  EXPECT_EQ(back.hits[0].level_db, shot.hits[0].level_db);
  ASSERT_EQ(back.ring_down.bands.size(), 2U);
  EXPECT_EQ(back.ring_down.bands[0].late_s, shot.ring_down.bands[0].late_s);
  EXPECT_EQ(back.ring_down.bands[0].range_db, std::nullopt);
  EXPECT_EQ(back.ring_down.bands[1].range_db, shot.ring_down.bands[1].range_db);
  ASSERT_TRUE(back.buzz);
  EXPECT_EQ(back.buzz->rate_hz, 96.7);
  for (const char* other : {"", "{", "[1]", "{\"hits\":3,\"bands\":[{\"centre_hz\":null}],\"buzz\":7}"}) {
    shot::Shot none;
    read_details(other, none);
    EXPECT_TRUE(none.hits.empty() && none.ring_down.bands.empty() && !none.buzz) << other;
  }
}

}  // namespace
}  // namespace ringfall::logbook
