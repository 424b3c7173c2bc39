// SPDX-License-Identifier: GPL-3.0-or-later
// What a person types with two bows in one logbook, and other words that two people understand in two ways: capitals, dates, chains, tables.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "logbook/logbook.h"
#include "support/made_session.h"
#include "terminal/exit_status.h"
#include "terminal/program.h"

namespace ringfall::terminal {
namespace {

using Json = nlohmann::json;

class TwoBows : public testing::Test {
 protected:
  std::string book() const { return folder_.path("book"); }
  static std::string demo(const char* name) { return fives_folder() + "/" + name; }
  std::string expect(const std::vector<std::string>& arguments, int status, const std::string& says, const std::string& environment = {}) const {
    const auto ran = run_program(arguments, environment);
    EXPECT_EQ(ran.status, status) << arguments[0] << ": " << ran.out << ran.error;
    EXPECT_NE((ran.out + ran.error).find(says), std::string::npos) << arguments[0] << ": " << ran.out << ran.error;
    return ran.out;
  }
  /// "bare" and "steel" of the recurve, "bare" and "rubber" of the longbow, which is shot last.
  void shoot() const {
    expect({"start", book(), "--bow", "recurve"}, kDone, "is ready");
    expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare"}, kDone, "block 1");
    expect({"add", book(), demo("block2-clay-ring.wav"), "--setup", "steel"}, kDone, "block 2");
    expect({"bow", "add", book(), "longbow"}, kDone, "longbow");
    expect({"session", book(), "--bow", "longbow"}, kDone, "with 'longbow'");
    expect({"add", book(), demo("block6-bare.wav"), "--setup", "bare"}, kDone, "the baseline");
    expect({"add", book(), demo("block3-felt-cuff.wav"), "--setup", "rubber"}, kDone, "block 4");
  }

  const TestFolder folder_;
};

TEST_F(TwoBows, AreComparedEachWithItsOwnBaseline) {
  shoot();
  expect({"compare", book(), "--main", "hum"}, kBadCommand, "say which with --bow");
  expect({"report", book(), "-o", folder_.path("a.html")}, kBadCommand, "say which with --bow");
  expect({"compare", book(), "--main", "hum", "--bow", "longbow", "--all"}, kDone, "rubber: hum is ");
  expect({"compare", book(), "--main", "hum", "--bow", "longbow"}, kDone, "against 'bare'");
  expect({"compare", book(), "--main", "hum", "--bow", "crossbow"}, kBadCommand, "there is no bow 'crossbow'");
  expect({"compare", book(), "--main", "hum", "--baseline", "recurve: bare"}, kNotMeasured, "against 'recurve: bare'");
  expect({"compare", demo_folder(), "--main", "hum", "--bow", "longbow"}, kBadCommand, "--bow is for a logbook");
  // A name that one bow has needs no bow.
  expect({"hunting", book(), "rubber"}, kDone, "'rubber' at a distance");
  expect({"hunting", book(), "bare"}, kBadCommand, "a set-up of 2 bows");
  expect({"hunting", book(), "bare", "--bow", "recurve"}, kDone, "'bare' at a distance");
  expect({"season", book(), "--bow", "longbow"}, kDone, "longbow, rubber");
}

// Only the recurve has "steel": a shot of the longbow can't be kept with it, and must not be heard first.
TEST_F(TwoBows, ListeningIsWithTheSessionsBow) {
  shoot();
  audio::write_wav(folder_.path("a.wav"), made_session(2).samples, kSessionRate_hz, audio::SampleCoding::wav_24_bit);
  const std::vector<std::string> listen = {"listen", book(), "--from", folder_.path("a.wav"), "--speed", "0", "--setup"};
  const auto with = [&](std::vector<std::string> more) {
    more.insert(more.begin(), listen.begin(), listen.end());
    return more;
  };
  expect(with({"steel"}), kBadCommand, "there is no set-up 'steel' yet");
  expect(with({"bare", "--bow", "recurve"}), kBadCommand, "the last session is with the bow 'longbow'");
  EXPECT_EQ(logbook::Logbook(book()).blocks().size(), 4U);
  expect(with({"steel", "--new"}), kDone, "Block 5 of 'steel'");
  const auto blocks = logbook::Logbook(book()).blocks();
  ASSERT_EQ(blocks.size(), 5U);
  EXPECT_EQ(blocks[4].bow, "longbow");
  EXPECT_EQ(blocks[4].shots.size(), 2U);
  EXPECT_EQ(logbook::Logbook(book()).setups("longbow").size(), 3U) << "made for the bow that is shot";
}

TEST_F(TwoBows, NamesThatDifferInCapitalsAreOne) {
  shoot();
  for (const char* name : {"Rubber", "RUBBER"}) {
    expect({"add", book(), demo("block4-felt-cuff.wav"), "--setup", name}, kBadCommand, "'rubber', which differs in capitals only");
    expect({"add", book(), demo("block4-felt-cuff.wav"), "--setup", name, "--new"}, kBadCommand, "differs in capitals only");
    expect({"set-up", "add", book(), name}, kBadCommand, "differs in capitals only");
  }
  EXPECT_EQ(logbook::Logbook(book()).blocks().size(), 4U);
}

TEST_F(TwoBows, AnotherMicrophoneEndsACalibration) {
  expect({"start", book(), "--bow", "recurve", "--microphone", "small one", "--full-scale-spl", "118"}, kDone, "is ready");
  EXPECT_NE(expect({"session", book()}, kDone, "is started").find("full scale 118 dB"), std::string::npos);
  EXPECT_EQ(logbook::Logbook(book()).conditions().full_scale_db_spl, 118.0);
  expect({"session", book(), "--microphone", "another"}, kDone, "the calibration of the session before does not hold");
  EXPECT_EQ(logbook::Logbook(book()).conditions().full_scale_db_spl, std::nullopt);
}

// "ABC-10" of POSIX is ten hours east of UTC: half past six in the morning there is half past eight of the evening before in Greenwich.
TEST_F(TwoBows, ADayIsTheArchersDay) {
  const std::string east = "TZ=ABC-10";
  expect({"start", book(), "--bow", "recurve", "--date", "2026-02-03T06:30"}, kDone, "is ready", east);
  EXPECT_EQ(logbook::Logbook(book()).conditions().started_at, "2026-02-02T20:30:00Z");
  expect({"list", book()}, kDone, "2026-02-03 06:30", east);
  expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare"}, kDone, "block 1", east);
  EXPECT_EQ(expect({"season", book()}, kDone, "2026-02-03", east).find("2026-02-02"), std::string::npos);
  // A day alone is that day, wherever one is: at its noon.
  for (const char* zone : {"TZ=ABC-13", "TZ=ABC11", "TZ=UTC"}) {
    expect({"session", book(), "--change", "1", "--date", "2026-02-03"}, kDone, "is changed", zone);
    expect({"list", book()}, kDone, "2026-02-03 12:00", zone);
  }
}

// A change of the bow does not rewrite the sessions before it, and the season says what followed.
TEST_F(TwoBows, AChangeOfTheBowIsDated) {
  expect({"start", book(), "--bow", "recurve", "--date", "2026-05-01", "--string", "14 strnds"}, kDone, "is ready");
  expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare"}, kDone, "block 1");
  expect({"bow", "change", book(), "recurve", "--string", "14 strands", "--always"}, kDone, "14 strands");
  expect({"bow", "change", book(), "recurve", "--string", "18 strands", "--since", "2026-06-03"}, kDone, "18 strands");
  expect({"bow", "list", book()}, kDone, "until 2026-06-03 12:00: string 14 strands");
  expect({"bow", "change", book(), "recurve", "--note", "lent"}, kDone, "lent");
  expect({"bow", "change", book(), "recurve", "--string", "20 strands", "--since", "2026-06-01"}, kBadCommand, "in its order of time");
  expect({"bow", "change", book(), "recurve", "--string", "20 strands", "--since", "2026-02-30"}, kBadCommand, "is no date");
  expect({"session", book(), "--date", "2026-06-10"}, kDone, "is started");
  expect({"add", book(), demo("block6-bare.wav"), "--setup", "bare"}, kDone, "block 2");
  const auto season = expect({"season", book()}, kDone, "New string '18 strands' (before '14 strands') on 2026-06-03: sound exposure ");
  EXPECT_EQ(season.find("strnds"), std::string::npos);
  EXPECT_NE(run_program({"season", book(), "--json"}).out.find("\"changes_of_the_bow\": ["), std::string::npos);
}

// What `export` writes for spreadsheets is a table of numbers like any other: what was left out stays so, and no time or place is a number.
// The bows have no session in common, so one set-up of three can be compared, which is status 1.
TEST_F(TwoBows, AnExportCanBeComparedAsATable) {
  shoot();
  expect({"drop", book(), "2", "plucked"}, kDone, "left out");
  expect({"export", book(), folder_.path("out")}, kDone, "");
  expect({"compare", "--table", folder_.path("out/shots.csv"), "--baseline", "longbow: bare", "--all"}, kNotMeasured,
         "longbow: rubber: exposure_db is ");
  const auto json = run_program({"compare", "--table", folder_.path("out/shots.csv"), "--baseline", "longbow: bare", "--json"});
  ASSERT_EQ(json.status, kNotMeasured) << json.error;
  EXPECT_EQ(json.out.find("onset_s"), std::string::npos);
  EXPECT_NE(json.out.find("Shot 2 of block 1 ('recurve: bare') is left out: plucked."), std::string::npos) << json.out.substr(0, 3000);
}

TEST_F(TwoBows, ATakeFolderIsMadeOrRefusedBeforeTheFirstShot) {
  made_logbook(book(), 18.0);
  audio::write_wav(folder_.path("a.wav"), made_session(2).samples, kSessionRate_hz, audio::SampleCoding::wav_24_bit);
  std::ofstream(folder_.path("file")) << "no folder";
  const auto listen = [&](const std::string& takes) {
    return std::vector<std::string>{"listen", book(), "--from", folder_.path("a.wav"), "--speed", "0", "--setup", "bare", "--take", takes};
  };
  expect(listen(folder_.path("file")), kUnusable, "takes can't be recorded in this folder");
  expect(listen(folder_.path("file/under")), kUnusable, "takes can't be recorded in this folder");
  EXPECT_EQ(logbook::Logbook(book()).blocks().size(), 0U);
  expect(listen(folder_.path("new/takes")), kDone, "The whole take: ");
  EXPECT_TRUE(std::filesystem::exists(logbook::Logbook(book()).blocks().at(0).file));
}

}  // namespace
}  // namespace ringfall::terminal
