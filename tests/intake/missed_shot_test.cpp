// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <filesystem>

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

}  // namespace
}  // namespace ringfall::intake
