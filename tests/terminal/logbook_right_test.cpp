// SPDX-License-Identifier: GPL-3.0-or-later
// Putting a logbook right, and what it refuses: the same sound twice, wrong set-ups, dates, damage, names that can't be.
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "audio/sound_writer.h"
#include "logbook/database.h"
#include "support/damaged_page.h"
#include "terminal/exit_status.h"
#include "terminal/program.h"

namespace ringfall::terminal {
namespace {

using Json = nlohmann::json;
namespace fs = std::filesystem;

class LogbookRight : public testing::Test {
 protected:
  std::string book() const { return folder_.path("book"); }
  static std::string demo(const char* name) { return fives_folder() + "/" + name; }

  std::string expect(const std::vector<std::string>& arguments, int status, const std::string& says) const {
    const auto ran = run_program(arguments);
    EXPECT_EQ(ran.status, status) << arguments[0] << ": " << ran.error;
    EXPECT_NE((ran.out + ran.error).find(says), std::string::npos) << arguments[0] << ": " << ran.out << ran.error;
    return ran.out + ran.error;
  }
  static Json json_of(std::vector<std::string> arguments) {
    arguments.emplace_back("--json");
    return Json::parse(run_program(arguments).out);
  }

  TestFolder folder_;
};

TEST_F(LogbookRight, TheSameRecordingTwiceIsRefused) {
  expect({"start", book()}, kDone, "is ready");
  const Json added = json_of({"add", book(), demo("block1-bare.wav"), "--setup", "bare"});
  ASSERT_EQ(added["blocks"].size(), 1U);
  EXPECT_EQ(added["blocks"][0]["block"], 1);
  ASSERT_EQ(added["blocks"][0]["shots"].size(), 5U);
  EXPECT_EQ(added["blocks"][0]["shots"][4]["shot"], 5);
  EXPECT_TRUE(added["complaints"].empty());
  fs::copy_file(demo("block1-bare.wav"), folder_.path("renamed.wav"));
  expect({"add", book(), demo("block6-bare.wav"), folder_.path("renamed.wav"), "--setup", "steel"}, kBadCommand,
         "block 1 holds this sound already ('bare'");
  const Json all = json_of({"list", book()});
  EXPECT_EQ(all["blocks"].size(), 1U) << "nothing is kept";
  EXPECT_EQ(all["setups"].size(), 1U) << "and no set-up made";
}

TEST_F(LogbookRight, BlocksAndSetUpsArePutRight) {
  expect({"start", book()}, kDone, "is ready");
  expect({"set-up", "add", book(), "bare"}, kDone, "bare (baseline)");
  expect({"set-up", "add", book(), "dampr"}, kDone, "dampr");
  expect({"add", book(), demo("block1-bare.wav"), "--setup", "dampr"}, kDone, "block 1 of 'dampr'");
  expect({"set-up", "remove", book(), "dampr"}, kBadCommand, "block 1 was shot with 'dampr'");
  expect({"block", book(), "1"}, kBadCommand, "say what is right");
  expect({"block", book(), "2", "--setup", "bare"}, kBadCommand, "there is no block 2");
  expect({"block", book(), "1", "--setup", "bar"}, kBadCommand, "did you mean 'bare'?");
  expect({"block", book(), "1", "--setup", "bare"}, kDone, "block 1 belongs to 'bare' now; it was with 'dampr'");
  expect({"block", book(), "1", "--note", "windy"}, kDone, "its remark is new");
  expect({"block", book(), "1", "--note", "still"}, kDone, "its remark was \"windy\"");
  const Json block = json_of({"list", book()})["blocks"][0];
  EXPECT_EQ(block["setup"], "bare");
  EXPECT_EQ(block["note"], "still");
  expect({"set-up", "remove", book(), "dampr"}, kDone, "is taken away");
  expect({"set-up", "remove", book(), "dampr"}, kBadCommand, "there is no set-up 'dampr'");
  for (const auto& verb : {std::vector<std::string>{"block", "--help"}, {"set-up", "remove", "--help"}}) expect(verb, kDone, "Example: ringfall");

  expect({"restore", book(), "3"}, kBadCommand, "shot 3 was not left out");
  expect({"restore", book(), "1", "--block"}, kBadCommand, "block 1 was not left out");
  expect({"drop", book(), "3", "plucked"}, kDone, "shot 3 is left out");
  expect({"drop", book(), "3", "arm", "hit"}, kDone, "the reason before was: plucked");
  expect({"restore", book(), "3"}, kDone, "it was left out for: arm hit");
  expect({"drop", book(), "--block", "1", "wind"}, kDone, "block 1 is left out");
  expect({"restore", book(), "3"}, kBadCommand, "its block 1 is (wind)");
  // The number by which the logbook knows the shot, not that in its recording.
  expect({"restore", book(), "--block", "1"}, kDone, "counts again");
  expect({"add", book(), demo("block6-bare.wav"), "--setup", "bare"}, kDone, "shots 6 to 10");
  EXPECT_NE(expect({"show", book(), "8"}, kDone, "shot 8: ").find("\n     8  "), std::string::npos);
}

TEST_F(LogbookRight, SessionsAreDatedAndSayWhatTheyTakeOver) {
  expect({"start", book(), "--date", "2026-02-30"}, kBadCommand, "is no date");
  expect({"start", book(), "--date", "2999-01-01"}, kBadCommand, "yet to come");
  expect({"start", book(), "--date", "3.10.2026"}, kBadCommand, "write it like 2026-10-03");
  expect({"start", book(), "--date", "2026-01-03", "--place", "hall", "--distance", "18m", "--microphone", "made-up"}, kDone, "is ready");
  expect({"session", book(), "--date", "2026-02-03T18:30", "--microphone", "another"}, kDone,
         "as in the session before: bow 'bow', place 'hall', distance 18 m\n");
  Json sessions = json_of({"list", book()})["sessions"];
  EXPECT_EQ(sessions[0]["started_at"], "2026-01-03T12:00:00Z");
  // Two days of zones on either side of UTC.
  EXPECT_EQ(sessions[1]["started_at"].get<std::string>().substr(0, 9), "2026-02-0");
  const auto zoned = run_program({"session", book(), "--change", "2", "--date", "2026-02-03T18:30"}, "TZ=UTC-2");
  EXPECT_EQ(zoned.status, kDone) << zoned.error;
  // "UTC-2" of POSIX is two hours east of UTC.
  EXPECT_EQ(json_of({"list", book()})["sessions"][1]["started_at"], "2026-02-03T16:30:00Z");
  EXPECT_NE(expect({"session", "--help"}, kDone, "takes over").find("humidity, check tone and remark are its own"), std::string::npos);

  // Two sessions at one time: a trend has no time to be over.
  expect({"session", book(), "--change", "2", "--date", "2026-01-03"}, kDone, "is changed");
  expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare", "--session", "1"}, kDone, "block 1");
  expect({"add", book(), demo("block6-bare.wav"), "--setup", "bare", "--session", "2"}, kDone, "block 2");
  expect({"season", book()}, kDone, "late ring-down, A: 2 sessions within a day, no trend yet");
}

TEST_F(LogbookRight, WhatADamagedFileStillHoldsIsShown) {
  expect({"start", book()}, kDone, "is ready");
  expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare"}, kDone, "shots 1 to 5");
  expect({"add", book(), demo("block2-clay-ring.wav"), "--setup", "steel"}, kDone, "shots 6 to 10");
  damage_a_sound(book());
  const auto listed = run_program({"list", book()});
  EXPECT_EQ(listed.status, kUnusable);
  EXPECT_NE(listed.out.find("left out: the file is damaged under its sound"), std::string::npos) << listed.out;
  std::string damaged;
  std::string sound;
  const Json all = Json::parse(run_program({"list", book(), "--json"}).out);
  for (const auto& block : all["blocks"]) {
    for (const auto& shot : block["shots"]) {
      EXPECT_TRUE(shot["numbers"]["exposure_db"].is_number());
      (shot["dropped"].is_null() ? sound : damaged) = std::to_string(shot["shot"].get<int>());
    }
  }
  ASSERT_FALSE(damaged.empty() || sound.empty());
  EXPECT_NE(listed.error.find("damaged under the sound of shot " + damaged + ";"), std::string::npos) << listed.error;
  expect({"show", book(), sound}, kDone, "Level over time");
  const std::string shown = expect({"show", book(), damaged}, kUnusable, "left out: the file is damaged under its sound");
  EXPECT_NE(shown.find("exposure"), std::string::npos) << shown;
  EXPECT_EQ(shown.find("Level over time"), std::string::npos) << shown;
  EXPECT_EQ(shown.find("not measured yet"), std::string::npos) << shown;
  expect({"show", book(), damaged, "--plot", folder_.path("pictures")}, kUnusable, "damaged");
  expect({"compare", book()}, kDone, "Shot " + damaged + " of '");
  std::string left_out;
  const Json compared = json_of({"compare", book()});
  for (const auto& doubt : compared["findings"]) {
    if (doubt["code"] == "shot_left_out") left_out += doubt["sentence"].get<std::string>();
  }
  EXPECT_NE(left_out.find("is left out: the file is damaged under its sound."), std::string::npos) << left_out;
  expect({"season", book()}, kDone, "Fewer than four sessions");
  EXPECT_EQ(run_program({"check", book()}).status, kUnusable);
}

TEST_F(LogbookRight, DamagedSoundIsSeen) {
  expect({"start", book()}, kDone, "is ready");
  expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare"}, kDone, "shots 1 to 5");
  EXPECT_EQ(json_of({"check", book()})["whole"], true);
  {
    // 40 bytes in the middle of a sound, written by SQLite itself: the file's pages stay whole.
    const logbook::Database database(book(), logbook::Database::Access::existing);
    database.run("UPDATE shot SET clip = CAST(substr(clip, 1, length(clip) / 2) || "
                 "x'5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A5A' || "
                 "substr(clip, length(clip) / 2 + 41) AS BLOB) WHERE id = 3");
  }
  expect({"check", book()}, kUnusable, "block 1: " + book() + ": the kept sound of shot 3 is damaged");
  const Json checked = json_of({"check", book()});
  EXPECT_EQ(checked["whole"], false);
  ASSERT_EQ(checked["complaints"].size(), 1U);
  EXPECT_EQ(checked["complaints"][0]["shot"], 3);
  EXPECT_EQ(checked["complaints"][0]["block"], 1);
  expect({"list", book(), "--check"}, kUnusable, "shot 3");
  const std::string said = expect({"remeasure", book()}, kUnusable, "4 shots measured again");
  EXPECT_NE(said.find("shot 3 of block 1"), std::string::npos) << said;
  EXPECT_EQ(said.find("internal"), std::string::npos) << said;
}

TEST_F(LogbookRight, NamesThatCannotBe) {
  expect({"start", book()}, kDone, "is ready");
  for (const auto& words : {std::vector<std::string>{"export", book(), ""}, {"set-up", "add", book(), ""}, {"bow", "add", book(), " "},
                            {"copy", book(), ""}, {"import", "", book()}, {"list", ""}, {"start", ""}, {"measure", ""}, {"demo", ""},
                            {"compare", ""}, {"add", book(), "", "--setup", "bare"}, {"report", book(), "-o", ""},
                            {"plan", "", "b"}, {"listen", book(), "--setup", ""}, {"show", book(), "1", "--plot", ""}}) {
    expect(words, kBadCommand, "empty");
  }
  expect({"set-up", "add", book(), "two\nlines"}, kBadCommand, "stands on one line");
  expect({"bow", "change", book(), "bow", "--name", "a\tb"}, kBadCommand, "stands on one line");
  const std::string long_name(300, 'x');
  for (const auto& words : {std::vector<std::string>{"list", long_name}, {"start", folder_.path(long_name)},
                            {"copy", book(), folder_.path(long_name)},
                            {"export", book(), folder_.path(long_name)}, {"import", long_name, folder_.path("b")}, {"measure", long_name},
                            {"demo", folder_.path(long_name)}, {"compare", long_name}, {"report", book(), "-o", folder_.path(long_name + ".html")}}) {
    const std::string said = expect(words, kUnusable, "xxx");
    EXPECT_EQ(said.find("filesystem error"), std::string::npos) << said;
  }
  std::ofstream(folder_.path("mine")) << "mine";
  expect({"demo", folder_.str()}, kUnusable, "nothing is written over");
  EXPECT_EQ(file_text(folder_.path("mine")), "mine");
  expect({"demo", fives_folder()}, kUnusable, "nothing is written over");
}

TEST_F(LogbookRight, MeasuringOptionsHaveNoMeaningForIt) {
  expect({"start", book()}, kDone, "is ready");
  expect({"compare", book(), "--channel", "4"}, kBadCommand, "--channel says how recordings are measured");
  expect({"report", book(), "--jobs", "1", "--expect", "3", "-o", folder_.path("p.html")}, kBadCommand, "--expect, --jobs say how");
}

TEST_F(LogbookRight, HuntingTakesTheSessionsAir) {
  expect({"start", book(), "--temperature", "5C", "--humidity", "80"}, kDone, "is ready");
  expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare"}, kDone, "block 1");
  expect({"session", book(), "--temperature", "30C"}, kDone, "session 2");  // not one of this set-up
  const Json own = json_of({"hunting", book(), "bare"});
  EXPECT_EQ(own["air"]["temperature_c"], 5.0);
  EXPECT_EQ(own["air"]["humidity_percent"], 80.0);
  EXPECT_EQ(own["air"]["temperature_from"], "session");
  EXPECT_EQ(own["air"]["humidity_from"], "session");
  EXPECT_EQ(own["last_session"], 1);
  EXPECT_EQ(json_of({"hunting", book(), "bare", "--temperature", "15C"})["air"]["temperature_c"], 15.0);
  // 20 international yards of 0.9144 m are asked for and answered.
  const std::string yards = expect({"hunting", book(), "bare", "--distance", "20yd", "--units", "archers"}, kDone, "taken to stand 1.1 yd");
  EXPECT_NE(yards.find("20.0 "), std::string::npos) << yards;
  EXPECT_NE(yards.find(" yd"), std::string::npos) << yards;
  EXPECT_NE(expect({"hunting", book(), "bare"}, kDone, "taken to stand 1 m").find("Air: 5 C (session 1), 80 %"), std::string::npos);
  expect({"session", book(), "--change", "1", "--temperature", "-30C"}, kDone, "is changed");
  expect({"hunting", book(), "bare"}, kBadCommand, "give --temperature");
}

// 20 C and 50 % are assumed where nobody said it: docs/measures/season.md#at-a-distance.
TEST_F(LogbookRight, ATemperatureThatNobodySaidIsNoneAndWhatIsAssumedIsSaid) {
  expect({"start", book(), "--distance", "18m"}, kDone, "is ready");
  expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare"}, kDone, "block 1");
  EXPECT_TRUE(json_of({"list", book()})["temperature_c"].is_null());
  EXPECT_EQ(expect({"list", book()}, kDone, "18 m").find(" C"), std::string::npos);
  const Json assumed = json_of({"hunting", book(), "bare"});
  EXPECT_EQ(assumed["air"]["temperature_c"], 20.0);
  EXPECT_EQ(assumed["air"]["temperature_from"], "assumed");
  EXPECT_EQ(assumed["air"]["humidity_percent"], 50.0);
  EXPECT_EQ(assumed["air"]["humidity_from"], "assumed");
  const std::string said = expect({"hunting", book(), "bare", "--humidity", "60"}, kDone, "Air: 20 C (assumed: nobody");
  EXPECT_NE(said.find("60 % humidity, "), std::string::npos) << said;
  EXPECT_EQ(json_of({"hunting", book(), "bare", "--humidity", "60"})["air"]["humidity_from"], "asked");

  // An evening at 2 C: what is assumed for the other one is no word about it.
  expect({"session", book(), "--temperature", "2C"}, kDone, "session 2");
  expect({"add", book(), demo("block2-clay-ring.wav"), "--setup", "steel"}, kDone, "block 2");
  expect({"add", book(), demo("block6-bare.wav"), "--setup", "bare"}, kDone, "block 3");
  const std::string compared = expect({"compare", book(), "--all"}, kDone, "Nobody said how warm the air was in session 1:");
  EXPECT_EQ(compared.find("Shot between"), std::string::npos) << compared;
  const Json bare = json_of({"season", book()})["setups"][0];
  EXPECT_TRUE(bare["sessions"][0]["temperature_c"].is_null());
  EXPECT_EQ(bare["sessions"][1]["temperature_c"], 2.0);
  EXPECT_NE(bare["air"].get<std::string>().find("in session 1:"), std::string::npos) << bare["air"];
  expect({"season", book()}, kDone, "Nobody said how warm");
  expect({"report", book(), "-o", folder_.path("page.html")}, kDone, "page.html");
  EXPECT_NE(file_text(folder_.path("page.html")).find("Where nobody said how warm the air was it is taken for 20 C"), std::string::npos);

  expect({"session", book(), "--change", "1", "--temperature", "20C"}, kDone, "is changed");
  expect({"compare", book(), "--all"}, kDone, "Shot between 2 and 20 C");
  expect({"report", book(), "-o", folder_.path("other.html")}, kDone, "other.html");
  EXPECT_EQ(file_text(folder_.path("other.html")).find("Where nobody said"), std::string::npos);
  // A new session's air is its own.
  expect({"session", book(), "--change", "2", "--humidity", "70"}, kDone, "is changed");
  expect({"session", book()}, kDone, "session 3");
  const Json next = json_of({"list", book()})["sessions"];
  EXPECT_EQ(next[1]["temperature_c"], 2.0);
  EXPECT_EQ(next[1]["humidity_percent"], 70.0);
  EXPECT_TRUE(next[2]["temperature_c"].is_null() && next[2]["humidity_percent"].is_null()) << next[2];
  EXPECT_EQ(next[2]["distance_m"], 18.0) << "its place is as before";
  expect({"session", book(), "--change", "2", "--temperature", "none"}, kDone, "is changed");
  EXPECT_TRUE(json_of({"list", book()})["sessions"][1]["temperature_c"].is_null());
}

TEST_F(LogbookRight, AnEmptyLogbookAndNamesOfNothingAreSaidPlainly) {
  expect({"start", folder_.path("no/such/book")}, kUnusable, "there is no folder '" + folder_.path("no/such") + "'; make it first");
  expect({"start", book()}, kDone, "is ready");
  expect({"list", book()}, kDone, "none yet; the first recording added makes one");
  expect({"hunting", book(), "bare"}, kNotMeasured, "no shot that counts is in the logbook yet");
  expect({"import", folder_.path("nothing"), folder_.path("b")}, kUnusable, "there is no such folder");
  expect({"compare", folder_.path("nothing")}, kUnusable, "there is no such logbook, folder or table");
  expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare"}, kDone, "block 1");
  EXPECT_EQ(expect({"list", book()}, kDone, "bare (baseline)").find("none yet"), std::string::npos);
  expect({"listen", book(), "--setup", "bar"}, kBadCommand, "did you mean 'bare'? If it is a new one");
  expect({"listen", book(), "--setup", "steel"}, kBadCommand, "there are: bare; if it is a new one");
  expect({"set-up", "remove", book(), "bare"}, kBadCommand, "block 1 was shot with 'bare'; put it into another");
  expect({"add", book(), demo("block6-bare.wav"), "--setup", "bare"}, kDone, "block 2");
  expect({"set-up", "remove", book(), "bare"}, kBadCommand, "block 1 and 1 more were shot with 'bare'; put them into another");
}

TEST_F(LogbookRight, WhyThereIsNoShotIsSaidWhereItIsKnown) {
  expect({"start", book()}, kDone, "is ready");
  const auto sound = [this](const char* name, double rate_hz, float amplitude) {
    std::vector<float> samples(static_cast<std::size_t>(3.0 * rate_hz));
    for (std::size_t k = 0; k < samples.size(); ++k) samples[k] = amplitude * static_cast<float>(static_cast<int>(k % 7) - 3);
    audio::write_wav(folder_.path(name), samples, rate_hz, audio::SampleCoding::wav_24_bit);
    return folder_.path(name);
  };
  const std::string silent = sound("silent.wav", 48000.0, 0.0F);
  expect({"measure", silent}, kNotMeasured, "this is digital silence");
  expect({"add", book(), silent, "--setup", "bare"}, kNotMeasured, "nothing is kept of it. No loud edge");
  EXPECT_EQ(json_of({"add", book(), silent, "--setup", "bare"})["complaints"].size(), 1U);
  expect({"measure", sound("call.wav", 8000.0, 0.01F)}, kNotMeasured, "At 8000 Hz nothing above 4 kHz is in it");
  // 3 * 0.0003 is -61 dB re full scale.
  expect({"measure", sound("faint.wav", 48000.0, 0.0003F)}, kNotMeasured, "louder than -61 dB re full");
}

TEST_F(LogbookRight, PlansSayWhatTheyTakeForGranted) {
  expect({"plan", "a", "b"}, kDone, "--from LOGBOOK knows better");
  EXPECT_EQ(run_program({"plan", "a", "b", "--block-spread", "0.3"}).out.find("--from LOGBOOK"), std::string::npos);
}

TEST_F(LogbookRight, WithoutADeviceTheStatusIsThree) {
  expect({"start", book()}, kDone, "is ready");
  expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare"}, kDone, "block 1");
  expect({"play", book(), "1", "--device", "no such device"}, kUnusable, "device");
  expect({"chain", "--device", "no such device"}, kUnusable, "device");
  expect({"listen", book(), "--setup", "bare", "--device", "no such device"}, kUnusable, "device");
  EXPECT_TRUE(json_of({"devices"})["devices"].is_array());
}

}  // namespace
}  // namespace ringfall::terminal
