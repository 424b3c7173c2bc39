// SPDX-License-Identifier: GPL-3.0-or-later
// Bows, set-ups, sessions, single shots, blind comments, corrections, copies and exports through the command line.
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <numbers>

#include "audio/sound_writer.h"
#include "terminal/exit_status.h"
#include "terminal/program.h"

namespace ringfall::terminal {
namespace {

using Json = nlohmann::json;
namespace fs = std::filesystem;

class LogbookThings : public testing::Test {
 protected:
  std::string book() const { return folder_.path("book"); }
  static std::string demo(const char* name) { return fives_folder() + "/" + name; }

  std::string expect(const std::vector<std::string>& arguments, int status, const std::string& says) const {
    const auto ran = run_program(arguments);
    EXPECT_EQ(ran.status, status) << arguments[0] << ": " << ran.error;
    EXPECT_NE((ran.out + ran.error).find(says), std::string::npos) << arguments[0] << ": " << ran.out << ran.error;
    return ran.out;
  }
  static Json json_of(std::vector<std::string> arguments) {
    arguments.emplace_back("--json");
    return Json::parse(run_program(arguments).out);
  }

  TestFolder folder_;
};

// 1 lbf = 4.4482216152605 N, 1 in = 25.4 mm, 1 gr = 64.79891 mg, 1 oz = 28.349523125 g (NIST SP 811 Appendix B.8).
TEST_F(LogbookThings, BowsAndSetUpsInArchersUnits) {
  expect({"start", book(), "--bow", "recurve", "--draw-weight", "40lb", "--brace", "8.5in", "--arrow-mass", "412gr", "--humidity",
          "55", "--microphone", "made-up", "--check-tone", "-23.5"}, kDone, "is ready");
  expect({"bow", "add", book(), "longbow", "--part", "mass, lead, grip, 2oz", "--note", "lent"}, kDone, "lead at grip of 56.7 g");
  Json bows = json_of({"bow", "list", book()})["bows"];
  ASSERT_EQ(bows.size(), 2U);
  EXPECT_NEAR(bows[0]["fittings"]["draw_weight_n"].get<double>(), 40.0 * 4.4482216152605, 1e-9);
  EXPECT_NEAR(bows[0]["fittings"]["brace_height_m"].get<double>(), 0.2159, 1e-12);
  EXPECT_NEAR(bows[0]["fittings"]["arrow_mass_kg"].get<double>(), 412.0 * 64.79891e-6, 1e-12);
  EXPECT_NEAR(bows[1]["fittings"]["parts"][0]["mass_kg"].get<double>(), 2.0 * 0.028349523125, 1e-12);
  expect({"bow", "list", book(), "--units", "archers"}, kDone, "40.0 lb on the fingers, brace height 8.50 in, arrow 412 gr");
  expect({"bow", "list", book()}, kDone, "178 N on the fingers, brace height 216 mm, arrow 26.7 g");
  expect({"bow", "change", book(), "recurve", "--brace", "none", "--string", "18 strands"}, kDone, "string 18 strands");
  bows = json_of({"bow", "list", book()})["bows"];
  EXPECT_TRUE(bows[0]["fittings"]["brace_height_m"].is_null());
  EXPECT_FALSE(bows[0]["fittings"]["draw_weight_n"].is_null()) << "what is not given stays";
  expect({"bow", "change", book(), "recurv", "--note", "x"}, kBadCommand, "did you mean 'recurve'?");
  expect({"bow", "add", book(), "longbow"}, kBadCommand, "there already");
  expect({"bow", "change", book(), "recurve", "--draw-weight", "40"}, kBadCommand, "--draw-weight: '40' has no unit; write lb, kg or N behind it");
  expect({"bow", "change", book(), "recurve", "--arrow-mass", "412"}, kBadCommand, "--arrow-mass");

  expect({"set-up", "add", book(), "bare"}, kDone, "bare (baseline)");
  expect({"set-up", "add", book(), "damper", "--changed", "rubber", "--part", "damper, rubber, upper limb, 12g", "--part",
          "damper, rubber, lower limb, 12g"}, kDone, "adds 24 g");
  expect({"set-up", "change", book(), "damper", "--name", "rubber", "--added-mass", "30g", "--brace", "8.75in"}, kDone, "adds 30 g");
  Json setups = json_of({"set-up", "list", book()})["setups"];
  ASSERT_EQ(setups.size(), 2U);
  EXPECT_EQ(setups[1]["name"], "rubber");
  EXPECT_EQ(setups[1]["changed"], "rubber");
  EXPECT_EQ(setups[1]["bow"], "recurve");
  EXPECT_EQ(setups[1]["fittings"]["parts"].size(), 2U);
  EXPECT_DOUBLE_EQ(setups[1]["added_mass_kg"].get<double>(), 0.030);
  expect({"set-up", "change", book(), "rubber", "--baseline"}, kDone, "rubber (baseline)");
  EXPECT_EQ(json_of({"set-up", "list", book()})["setups"][0]["baseline"], false);
  expect({"set-up", "change", book(), "rubbr", "--note", "x"}, kBadCommand, "did you mean 'rubber'?");
  expect({"set-up", "add", book(), "x", "--part", "dampr, y"}, kBadCommand, "did you mean 'damper'?");
  expect({"set-up", "add", book(), "x", "--part", "mass, a, b, 1g, c"}, kBadCommand, "says too much");
  expect({"set-up", "list", book(), "--bow", "longbow"}, kDone, "no set-up yet");

  expect({"session", book(), "--bow", "longbow", "--place", "wood", "--blind"}, kDone, "session 2 with 'longbow'");
  Json all = json_of({"list", book()});
  EXPECT_EQ(all["bow"], "longbow");
  EXPECT_EQ(all["sessions"][0]["humidity_percent"], 55.0);
  EXPECT_EQ(all["sessions"][0]["check_tone_db"], -23.5);
  EXPECT_EQ(all["sessions"][1]["microphone"], "made-up") << "the chain is as before";
  EXPECT_TRUE(all["sessions"][1]["check_tone_db"].is_null()) << "the tone is not";
  EXPECT_EQ(all["sessions"][1]["blind"], true);
  expect({"session", book(), "--change", "2", "--not-blind", "--temperature", "41F"}, kDone, "session 2 is changed");
  all = json_of({"list", book()});
  EXPECT_EQ(all["blind"], false);
  EXPECT_DOUBLE_EQ(all["temperature_c"].get<double>(), 5.0);
  expect({"session", book(), "--change", "3", "--place", "x"}, kBadCommand, "there is no session 3");
  for (const char* verb : {"bow add", "bow change", "bow list", "set-up add", "set-up change", "set-up list"}) {
    const std::string words = verb;
    const auto blank = words.find(' ');
    expect({words.substr(0, blank), words.substr(blank + 1), "--help"}, kDone, "Example: ringfall " + words);
  }
  for (const char* verb : {"session", "bow", "set-up", "show", "correct", "copy", "check", "export", "import", "completion"}) {
    expect({verb, "--help"}, kDone, "Example: ");
  }
}

// A tone of amplitude 0.1 from a calibrator of 94 dB: full scale = 94 - 20 lg(0.1 / sqrt 2) = 117.01 dB.
TEST_F(LogbookThings, ASessionIsCalibratedByARecording) {
  std::vector<float> tone(3 * 48000);
  for (std::size_t k = 0; k < tone.size(); ++k) {
    tone[k] = static_cast<float>(0.1 * std::sin(2.0 * std::numbers::pi * 1000.0 * static_cast<double>(k) / 48000.0));
  }
  audio::write_wav(folder_.path("calibrator.wav"), tone, 48000.0, audio::SampleCoding::wav_24_bit);
  expect({"start", book(), "--calibrate", folder_.path("calibrator.wav")}, kDone, "is ready");
  EXPECT_NEAR(json_of({"list", book()})["sessions"][0]["full_scale_db_spl"].get<double>(), 94.0 + 23.0103, 0.02);
  expect({"session", book(), "--calibrate", folder_.path("calibrator.wav"), "--calibrator", "114"}, kDone, "session 2");
  EXPECT_NEAR(json_of({"list", book()})["sessions"][1]["full_scale_db_spl"].get<double>(), 114.0 + 23.0103, 0.02);
  expect({"start", folder_.path("other"), "--calibrate", demo("block1-bare.wav")}, kUnusable, "block1-bare.wav");
  EXPECT_FALSE(fs::exists(folder_.path("other"))) << "nothing is begun on a wrong calibration";
}

TEST_F(LogbookThings, ShotsBlindCommentsAndCorrections) {
  expect({"start", book(), "--blind", "--distance", "18m"}, kDone, "is ready");
  const std::string added = expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare"}, kDone, "stay hidden");
  EXPECT_EQ(added.find("dB"), std::string::npos) << "no number is shown: " << added;
  EXPECT_TRUE(json_of({"list", book()})["blocks"][0]["shots"][1]["numbers"]["hum"].is_null());
  EXPECT_EQ(json_of({"list", book()})["blocks"][0]["shots"][1]["hidden"], true);
  EXPECT_TRUE(json_of({"show", book(), "2"})["shot"]["measured"].is_null());
  expect({"show", book(), "2"}, kDone, "hidden until you comment");
  expect({"show", book(), "2", "--plot", folder_.path("pictures")}, kBadCommand, "comment on the shot first");
  expect({"list", book()}, kDone, "hidden until you comment");
  for (const char* verb : {"compare", "season"}) expect({verb, book()}, kUnusable, "so that their numbers stay hidden");
  // It names the way out, in words that work as they stand.
  const std::string way = "`ringfall session " + book() + " --change 1 --not-blind`";
  expect({"compare", book()}, kUnusable, way);
  expect({"compare", book()}, kUnusable, "`ringfall comment " + book() + " ");
  expect({"report", book(), "-o", folder_.path("page.html")}, kUnusable, "session 1 is blind");
  expect({"export", book(), folder_.path("tables")}, kDone, "Don't look into it yet");
  expect({"comment", book(), "2", "--hum", "7", "it", "hums"}, kDone, "comment 1 is kept with shot 2");
  Json shot = json_of({"show", book(), "2"})["shot"];
  EXPECT_EQ(shot["comments"][0]["blind"], true);
  EXPECT_TRUE(shot["measured"]["levels"]["exposure_db"].is_number());
  EXPECT_FALSE(shot["measured"]["hits"].empty());
  EXPECT_TRUE(json_of({"show", book(), "3"})["shot"]["measured"].is_null());
  const std::string text = expect({"show", book(), "2", "--plot", folder_.path("pictures")}, kDone, "loud edge");
  EXPECT_NE(text.find("said (1): hum 7, \"it hums\""), std::string::npos) << text;
  EXPECT_EQ(std::distance(fs::directory_iterator(folder_.path("pictures")), fs::directory_iterator()), 8);
  expect({"comment", book(), "1", "--edit", "--hum", "6"}, kDone, "comment 1 on shot 2 is changed; it was: hum 7, \"it hums\"");
  EXPECT_EQ(json_of({"show", book(), "2"})["shot"]["comments"][0]["hum"], 6.0);
  expect({"comment", book(), "1", "--block", "--feel", "5", "alike"}, kDone, "kept with block 1");
  EXPECT_EQ(json_of({"show", book(), "3"})["shot"]["block_comments"][0]["words"], "alike");
  EXPECT_TRUE(json_of({"show", book(), "3"})["shot"]["measured"].is_object()) << "a word on the block shows all its shots";
  expect({"list", book()}, kDone, "(1) hum 6");
  expect({"list", book()}, kDone, "said of the block: (2) feel 5, \"alike\"");
  expect({"comment", book(), "1", "--remove"}, kDone, "comment 1 on shot 2 is taken away; it was: hum 6");
  expect({"comment", book(), "1", "--remove"}, kBadCommand, "there is no comment 1");
  expect({"show", book(), "99"}, kBadCommand, "there is no shot 99");

  expect({"correct", book(), "1", "--not-a-shot"}, kDone, "does not count");
  EXPECT_EQ(json_of({"list", book()})["blocks"][0]["shots"][0]["dropped"], "not a shot");
  expect({"correct", book(), "1", "--undo"}, kDone, "as it was found");
  const Json before = json_of({"show", book(), "1"})["shot"];
  EXPECT_TRUE(before["dropped"].is_null());
  const double edge_s = before["onset_s"].get<double>();
  expect({"correct", book(), "1", "--edge", std::to_string(edge_s + 0.010)}, kDone, "measured again");
  const Json moved = json_of({"show", book(), "1"})["shot"];
  EXPECT_NEAR(moved["onset_s"].get<double>(), edge_s + 0.010, 1e-6);
  EXPECT_NE(moved["measured"]["levels"]["exposure_db"], before["measured"]["levels"]["exposure_db"]);
  expect({"correct", book(), "1", "--undo"}, kDone, "as it was found");
  EXPECT_NEAR(json_of({"show", book(), "1"})["shot"]["measured"]["levels"]["exposure_db"].get<double>(),
              before["measured"]["levels"]["exposure_db"].get<double>(), 1e-6);
  expect({"correct", book(), "1", "--undo"}, kBadCommand, "can be taken back");
  expect({"correct", book(), "1"}, kBadCommand, "say one of --not-a-shot, --edge, --missed, --undo");
  expect({"correct", book(), "1", "--undo", "--not-a-shot"}, kBadCommand, "say only one of");
}

// The demo's shots stand 6 s apart; told to expect 4 the finder leaves one of the 5 out.
TEST_F(LogbookThings, AMissedShotIsPutIn) {
  expect({"start", book()}, kDone, "is ready");
  expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare", "--expect", "4"}, kDone, "shots 1 to 4");
  const Json whole = json_of({"measure", demo("block1-bare.wav")})["recordings"][0]["shots"];
  const Json four = json_of({"list", book()})["blocks"][0]["shots"];
  ASSERT_EQ(whole.size(), 5U);
  ASSERT_EQ(four.size(), 4U);
  double missed_s = 0.0;
  for (const Json& shot : whole) {
    bool known = false;
    for (const Json& kept : four) known = known || std::abs(kept["onset_s"].get<double>() - shot["onset_s"].get<double>()) < 0.1;
    if (!known) missed_s = shot["onset_s"].get<double>();
  }
  ASSERT_GT(missed_s, 0.0);
  const std::string place = std::to_string(missed_s);
  expect({"correct", book(), "1", "--missed", std::to_string(missed_s - 1.0)}, kBadCommand, "nothing rises");
  expect({"correct", book(), "1", "--missed", place, "--recording", demo("block6-bare.wav")}, kBadCommand, "not the recording of block 1");
  expect({"correct", book(), "1", "--missed", std::to_string(four[1]["onset_s"].get<double>() + 0.05)}, kBadCommand, "shot 2 is there already");
  expect({"correct", book(), "1", "--missed", "9:00"}, kBadCommand, "has ended");
  expect({"correct", book(), "1", "--missed", place}, kDone, "kept as shot 5");
  EXPECT_EQ(json_of({"list", book()})["blocks"][0]["shots"].size(), 5U);
  expect({"comment", book(), "5", "loud"}, kDone, "shot 5");
  expect({"correct", book(), "5", "--undo"}, kBadCommand, "has comments");
  expect({"comment", book(), "1", "--remove"}, kDone, "taken away");
  expect({"correct", book(), "5", "--undo"}, kDone, "taken out again");
  EXPECT_EQ(json_of({"list", book()})["blocks"][0]["shots"].size(), 4U);
  expect({"correct", book(), "5", "--undo"}, kBadCommand, "there is no shot 5");
}

TEST_F(LogbookThings, CopiesAndExportsAreWhole) {
  expect({"start", book()}, kDone, "is ready");
  expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare"}, kDone, "block 1");
  expect({"comment", book(), "2", "loud,", "\"dull\""}, kDone, "shot 2");
  const std::string listed = run_program({"list", book(), "--json"}).out;
  expect({"check", book()}, kDone, "nothing is damaged, 5 shots");
  expect({"copy", book(), folder_.path("copy")}, kDone, "is a whole copy");
  EXPECT_FALSE(fs::exists(folder_.path("copy-wal"))) << "one file";
  EXPECT_EQ(run_program({"list", folder_.path("copy"), "--json"}).out, listed);
  expect({"copy", book(), folder_.path("copy")}, kUnusable, "not written over");
  expect({"export", book(), folder_.path("open")}, kDone, "5 shots in");
  expect({"export", book(), folder_.path("open")}, kUnusable, "nothing is written over");
  expect({"import", folder_.path("open"), folder_.path("again")}, kDone, "is a logbook again");
  EXPECT_EQ(run_program({"list", folder_.path("again"), "--json"}).out, listed);
  EXPECT_EQ(run_program({"show", folder_.path("again"), "3", "--json"}).out, run_program({"show", book(), "3", "--json"}).out);
  expect({"import", folder_.path("open"), book()}, kUnusable, "not written over");
  expect({"import", fives_folder(), folder_.path("no")}, kUnusable, "no export of a logbook");
  // The sound in an export is sound as it is.
  expect({"measure", folder_.path("open/sounds/shot-2.flac")}, kDone, "");
}

}  // namespace
}  // namespace ringfall::terminal
