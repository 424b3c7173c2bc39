// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/logbook_intake.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "audio/sound_writer.h"
#include "base/failure.h"
#include "shot/numbers.h"
#include "shot/synthetic_shot.h"
#include "support/test_folder.h"

namespace ringfall::intake {
namespace {

namespace fs = std::filesystem;

constexpr double kRate_hz = 48000.0;
constexpr double kFullScale_db = 118.0;

struct Coding {
  audio::SampleCoding coding;
  const char* kept_as;
};

class LogbookIntake : public testing::TestWithParam<Coding> {
 protected:
  const TestFolder folder_;
};

TEST_P(LogbookIntake, ClipsGiveTheSameNumbersAgain) {
  // Invented shots, 6 s apart; the last two so close that one spoils the other's tail.
  std::vector<double> wave(static_cast<std::size_t>(26.0 * kRate_hz), 0.0);
  shot::add_white_noise(wave, 35.0, 3);
  std::uint64_t seed = 40;
  for (const double edge_s : {2.0, 8.01, 14.02, 20.03, 20.83}) {
    shot::SyntheticShot shot;
    shot.tones = {{95.0, 80.0, 0.30}, {1450.0, 74.0, 0.16}};
    shot.impact_lag_s = 0.344;
    shot::add_synthetic_shot(wave, kRate_hz, edge_s, shot, ++seed);
  }
  const std::string sound = folder_.path("a.wav");
  audio::write_wav(sound, shot::to_full_scale(wave, kFullScale_db), kRate_hz, GetParam().coding);
  RecordingOptions options;
  options.scale.full_scale_db_spl = kFullScale_db;
  options.settings.find.distance_m = 18.0;
  const auto recording = measure_recording(sound, options);
  ASSERT_GE(recording.shots.size(), 4U);

  auto book = logbook::Logbook::start(folder_.path("book"), {"made-up bow", "", "", 18.0, 20.0, "", kFullScale_db});
  book.add_setup({"bare", "", false, std::nullopt});
  const auto added = add_recording(book, recording, options.settings.find, {"bare", "note", ""});
  EXPECT_EQ(added.number, 1);
  ASSERT_EQ(added.shots.size(), recording.shots.size());
  auto other = logbook::Logbook::start(folder_.path("other"), {"made-up bow", "", "", 18.0, 20.0, "", kFullScale_db});
  EXPECT_THROW(add_recording(other, recording, options.settings.find, {"bear", "", ""}), RequestFailure) << "no such set-up";
  fs::remove(sound);  // the logbook has its own sound

  const auto blocks = book.blocks();
  ASSERT_EQ(blocks.size(), 1U);
  EXPECT_EQ(blocks[0].findings.size(), recording.findings.size());
  for (std::size_t k = 0; k < recording.shots.size(); ++k) {
    const auto& kept = blocks[0].shots[k];
    EXPECT_EQ(kept.id, added.shots[k]);
    EXPECT_EQ(book.clip(kept.id).coding, GetParam().kept_as);
    const auto again = remeasured(book, blocks[0], kept);
    bool any = false;
    for (const auto& number : shot::numbers()) {
      EXPECT_EQ(number.of(kept.shot), number.of(recording.shots[k])) << number.id;
      EXPECT_EQ(number.of(again), number.of(recording.shots[k])) << "shot " << k + 1 << ": " << number.id;
      any = any || number.of(again);
    }
    EXPECT_TRUE(any);
    ASSERT_EQ(again.tones.size(), recording.shots[k].tones.size());
    for (std::size_t tone = 0; tone < again.tones.size(); ++tone) {
      EXPECT_EQ(again.tones[tone].frequency_hz, recording.shots[k].tones[tone].frequency_hz);
      EXPECT_EQ(again.tones[tone].level_db, recording.shots[k].tones[tone].level_db);
    }
    EXPECT_EQ(again.findings.size(), recording.shots[k].findings.size());
  }
}

TEST_P(LogbookIntake, TheSameSoundIsKeptOnce) {
  std::vector<double> wave(static_cast<std::size_t>(10.0 * kRate_hz), 0.0);
  shot::add_white_noise(wave, 35.0, 3);
  for (const double edge_s : {2.0, 6.5}) shot::add_synthetic_shot(wave, kRate_hz, edge_s, {}, 11);
  const std::string sound = folder_.path("a.wav");
  audio::write_wav(sound, shot::to_full_scale(wave, kFullScale_db), kRate_hz, GetParam().coding);
  const std::string renamed = folder_.path("renamed.wav");
  fs::copy_file(sound, renamed);
  auto book = logbook::Logbook::start(folder_.path("book"), {"made-up bow", "", "", 18.0, 20.0, "", kFullScale_db});
  book.add_setup({"bare", "", false, std::nullopt});
  book.add_setup({"damper", "", false, std::nullopt});
  ASSERT_EQ(add_recording(book, measure_recording(sound, {}), {}, {"bare", "", ""}).shots.size(), 2U);
  // Also when not all of it is the same: one shot of the two.
  auto again = measure_recording(renamed, {});
  again.shots.erase(again.shots.begin());
  again.places.erase(again.places.begin());
  std::string said;
  try {
    add_recording(book, again, {}, {"damper", "", ""});
  } catch (const RequestFailure& refused) {
    said = refused.what();
  }
  EXPECT_NE(said.find("renamed.wav: block 1 holds this sound already ('bare', shot 2)"), std::string::npos) << said;
  EXPECT_EQ(book.blocks().size(), 1U) << "nothing is kept";
  book.drop_block(1, "in the wrong set-up");
  EXPECT_EQ(add_recording(book, again, {}, {"damper", "", ""}).number, 2);
}

/// An edge put 230 ms too late leaves hum no tail; put back, the shot is as it was, finding by finding.
TEST_P(LogbookIntake, AnEdgeMovedAndPutBackSpoilsNothing) {
  std::vector<double> wave(static_cast<std::size_t>(9.0 * kRate_hz), 0.0);
  shot::add_white_noise(wave, 35.0, 3);
  shot::SyntheticShot invented;
  invented.tones = {{95.0, 80.0, 0.30}, {1450.0, 74.0, 0.16}};
  invented.impact_lag_s = 0.344;
  shot::add_synthetic_shot(wave, kRate_hz, 3.0, invented, 41);
  const std::string sound = folder_.path("a.wav");
  audio::write_wav(sound, shot::to_full_scale(wave, kFullScale_db), kRate_hz, GetParam().coding);
  auto book = logbook::Logbook::start(folder_.path("book"), {"made-up bow", "", "", 18.0, 20.0, "", kFullScale_db});
  book.add_setup({"bare", "", false, std::nullopt});
  RecordingOptions options;
  options.scale.full_scale_db_spl = kFullScale_db;
  options.settings.find.distance_m = 18.0;
  auto recording = measure_recording(sound, options);
  ASSERT_EQ(recording.shots.size(), 1U);
  ASSERT_TRUE(recording.shots[0].hum);
  recording.shots[0].findings.push_back({"wind", Severity::caution, {Quantity::hum}, "Of the recording.", Origin::recording});
  recording.shots[0].findings.push_back({"noted", Severity::note, {}, "By a person.", Origin::person});
  recording.shots[0].findings.push_back({"an_old_error", Severity::void_, {Quantity::ping}, "An earlier version's.", Origin::clip});
  const auto id = add_recording(book, recording, {}, {"bare", "", ""}).shots.at(0);
  const auto kept = [&book] { return book.blocks()[0].shots[0].shot; };

  measure_again(book, id);
  EXPECT_FALSE(has_finding(kept().findings, "an_old_error")) << "a later version withdraws it";
  EXPECT_TRUE(has_finding(kept().findings, "wind") && has_finding(kept().findings, "noted")) << "no clip says them again";

  book.move_edge(id, kept().onset_s + 0.23);
  measure_again(book, id);
  EXPECT_FALSE(kept().hum);
  ASSERT_TRUE(has_finding(kept().findings, "tail_too_short"));
  EXPECT_TRUE(has_finding(kept().findings, "wind")) << "no clip says it again";

  take_back_correction(book, id);
  EXPECT_EQ(kept().hum, recording.shots[0].hum);
  EXPECT_EQ(kept().ping, recording.shots[0].ping);
  EXPECT_FALSE(has_finding(kept().findings, "tail_too_short"));
  EXPECT_TRUE(has_finding(kept().findings, "wind"));
  EXPECT_TRUE(has_finding(kept().findings, "noted"));
  EXPECT_EQ(kept().findings.size(), recording.shots[0].findings.size() - 1);
}

INSTANTIATE_TEST_SUITE_P(Codings, LogbookIntake,
                         testing::Values(Coding{audio::SampleCoding::wav_24_bit, "flac"},
                                         Coding{audio::SampleCoding::wav_float, "wav"}),
                         [](const auto& chosen) { return std::string(chosen.param.kept_as); });

}  // namespace
}  // namespace ringfall::intake
