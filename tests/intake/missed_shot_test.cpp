// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <filesystem>
#include <functional>

#include "audio/channel_reader.h"
#include "audio/sound_writer.h"
#include "base/failure.h"
#include "intake/logbook_intake.h"
#include "shot/synthetic_shot.h"
#include "support/test_folder.h"

namespace ringfall::intake {
namespace {

constexpr double kRate_hz = 48000.0;

/// Three invented shots; the logbook is told of the first and the last only.
class MissedShot : public testing::Test {
 protected:
  MissedShot() {
    std::vector<double> wave(static_cast<std::size_t>(16.0 * kRate_hz), 0.0);
    shot::add_white_noise(wave, 35.0, 3);
    for (const double edge_s : {2.0, 7.0, 12.0}) {
      shot::SyntheticShot shot;
      shot.tones = {{95.0, 80.0, 0.30}};
      shot::add_synthetic_shot(wave, kRate_hz, edge_s, shot, 7);
    }
    audio::write_wav(sound_, shot::to_full_scale(wave, 118.0), kRate_hz, audio::SampleCoding::wav_24_bit);
    book_.add_setup({"bare", "", false, std::nullopt});
    whole_ = measure_recording(sound_, {});
    Recording two = whole_;
    two.shots.erase(two.shots.begin() + 1);
    two.places.erase(two.places.begin() + 1);
    add_recording(book_, two, {}, {"bare", "", ""});
  }

  const TestFolder folder_;
  const std::string sound_ = folder_.path("a.wav");
  logbook::Logbook book_ = logbook::Logbook::start(folder_.path("book"), {"made-up bow", "", "", std::nullopt, 20.0, "", std::nullopt});
  Recording whole_;
};

TEST_F(MissedShot, IsMeasuredAsIfItHadBeenFound) {
  ASSERT_EQ(whole_.shots.size(), 3U);
  const double edge_s = whole_.shots[1].onset_s;
  const auto id = add_missed_shot(book_, 1, edge_s, std::nullopt);
  const auto block = book_.blocks().at(0);
  ASSERT_EQ(block.shots.size(), 3U);
  EXPECT_EQ(block.shots[1].id, id) << "in time order";
  // Its edge is a whole sample, the finder's a part of one: 1/48 ms apart at most.
  EXPECT_NEAR(block.shots[1].shot.onset_s, edge_s, 0.5 / kRate_hz);
  ASSERT_TRUE(block.shots[1].shot.levels.exposure_db);
  EXPECT_NEAR(*block.shots[1].shot.levels.exposure_db, whole_.shots[1].levels.exposure_db.value(), 0.05);
  EXPECT_NEAR(block.shots[1].shot.hum.value(), whole_.shots[1].hum.value(), 0.1);
  EXPECT_FALSE(block.shots[1].analyser.empty());
  const auto corrections = book_.corrections();
  ASSERT_EQ(corrections.size(), 1U);
  EXPECT_EQ(corrections[0].kind, logbook::Correction::Kind::missed_shot);
  EXPECT_EQ(corrections[0].shot, id);
}

TEST_F(MissedShot, NeedsTheRecordingAndATimeInIt) {
  EXPECT_THROW(add_missed_shot(book_, 2, 7.0, std::nullopt), RequestFailure) << "no such block";
  EXPECT_THROW(add_missed_shot(book_, 1, 17.0, std::nullopt), RequestFailure) << "the recording is 16 s long";
  EXPECT_THROW(add_missed_shot(book_, 1, 7.0, folder_.path("gone.wav")), FileFailure);
  const std::string other = folder_.path("other.wav");
  audio::write_wav(other, std::vector<float>(44100, 0.0F), 44100.0, audio::SampleCoding::wav_24_bit);
  EXPECT_THROW(add_missed_shot(book_, 1, 0.5, other), RequestFailure) << "another sample rate";
  EXPECT_EQ(book_.blocks().at(0).shots.size(), 2U);
  EXPECT_TRUE(book_.corrections().empty());
}

std::string refusal_of(const std::function<void()>& act) {
  try {
    act();
  } catch (const RequestFailure& refused) {
    return refused.what();
  }
  return "";
}

TEST_F(MissedShot, IsRefusedWhereThereIsOneOrNone) {
  // Known shots at 2 and 12 s; 80 ms (MeasureSettings::hit_window_s) are one shot's.
  for (const double edge_s : {2.0, 2.079, 1.93}) {
    const std::string said = refusal_of([&] { add_missed_shot(book_, 1, edge_s, std::nullopt); });
    EXPECT_NE(said.find("shot 1 is there already"), std::string::npos) << edge_s << ": " << said;
  }
  for (const double edge_s : {1.0, 5.0, 6.9, 7.2, 14.0}) {
    const std::string said = refusal_of([&] { add_missed_shot(book_, 1, edge_s, std::nullopt); });
    EXPECT_NE(said.find("nothing rises above the floor"), std::string::npos) << edge_s << ": " << said;
  }
  EXPECT_EQ(book_.blocks().at(0).shots.size(), 2U);
  EXPECT_TRUE(book_.corrections().empty());
  // A person reads the place off a picture: 30 ms off is near enough.
  EXPECT_EQ(add_missed_shot(book_, 1, 7.03, std::nullopt), 3);
}

TEST_F(MissedShot, NeedsTheBlocksOwnRecording) {
  std::vector<double> wave(static_cast<std::size_t>(16.0 * kRate_hz), 0.0);
  shot::add_white_noise(wave, 35.0, 4);
  for (const double edge_s : {2.0, 7.0, 12.0}) shot::add_synthetic_shot(wave, kRate_hz, edge_s, {}, 8);
  const std::string other = folder_.path("other.wav");
  audio::write_wav(other, shot::to_full_scale(wave, 118.0), kRate_hz, audio::SampleCoding::wav_24_bit);
  std::string said = refusal_of([&] { add_missed_shot(book_, 1, 7.0, other); });
  EXPECT_NE(said.find("this is not the recording of block 1: the sound of shot 1"), std::string::npos) << said;
  // Its own with 10 ms missing at the begin, and cut off before the last shot.
  const auto own = [&] {
    audio::ChannelReader reader(audio::open_sound(sound_), 0);
    std::vector<float> all(static_cast<std::size_t>(16.0 * kRate_hz));
    std::size_t filled = 0;
    while (const std::size_t got = reader.read(std::span(all).subspan(filled))) {
      filled += got;
      if (filled == all.size()) break;
    }
    return all;
  }();
  const std::string late = folder_.path("late.wav");
  audio::write_wav(late, {own.begin() + 480, own.end()}, kRate_hz, audio::SampleCoding::wav_24_bit);
  EXPECT_NE(refusal_of([&] { add_missed_shot(book_, 1, 7.0, late); }).find("not the recording"), std::string::npos);
  const std::string early = folder_.path("early.wav");
  audio::write_wav(early, {own.begin(), own.begin() + static_cast<std::ptrdiff_t>(9.0 * kRate_hz)}, kRate_hz, audio::SampleCoding::wav_24_bit);
  EXPECT_NE(refusal_of([&] { add_missed_shot(book_, 1, 7.0, early); }).find("the sound of shot 2"), std::string::npos);
  EXPECT_EQ(book_.blocks().at(0).shots.size(), 2U);
  // Another coding of the same sound at the same places will do.
  const std::string coded = folder_.path("coded.wav");
  audio::write_wav(coded, own, kRate_hz, audio::SampleCoding::wav_float);
  EXPECT_EQ(add_missed_shot(book_, 1, 7.0, coded), 3);
}

// Of several corrections of one shot the last goes first; that it was missed goes last, and the shot with it.
TEST_F(MissedShot, IsTakenBackLikeAnyOtherCorrection) {
  using Kind = logbook::Correction::Kind;
  const std::int64_t id = add_missed_shot(book_, 1, 7.0, std::nullopt);
  const auto found = [&] { return book_.blocks().at(0).shots.at(1); };
  const double onset_s = found().shot.onset_s;
  book_.move_edge(id, onset_s + 0.02);
  measure_again(book_, id);
  book_.say_not_a_shot(id);
  EXPECT_EQ(take_back_correction(book_, id), Kind::not_a_shot);
  EXPECT_TRUE(found().dropped.empty());
  EXPECT_EQ(take_back_correction(book_, id), Kind::moved_edge);
  EXPECT_NEAR(found().shot.onset_s, onset_s, 1e-9);
  EXPECT_FALSE(found().analyser.empty()) << "measured again";
  EXPECT_EQ(take_back_correction(book_, id), Kind::missed_shot);
  EXPECT_EQ(book_.blocks().at(0).shots.size(), 2U);
  EXPECT_TRUE(book_.corrections().empty());
  EXPECT_THROW(take_back_correction(book_, 1), RequestFailure) << "nothing was said against the finder";
}

}  // namespace
}  // namespace ringfall::intake
