// SPDX-License-Identifier: GPL-3.0-or-later
// The logbook's verbs, as a person uses them.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "terminal/exit_status.h"
#include "terminal/program.h"

namespace ringfall::terminal {
namespace {

using Json = nlohmann::json;

class LogbookVerbs : public testing::Test {
 protected:
  std::string book() const { return folder_.path("book"); }
  static std::string demo(const char* name) { return fives_folder() + "/" + name; }

  void expect(const std::vector<std::string>& arguments, int status, const std::string& says) const {
    const auto ran = run_program(arguments);
    EXPECT_EQ(ran.status, status) << arguments[0] << ": " << ran.error;
    EXPECT_NE((ran.out + ran.error).find(says), std::string::npos) << arguments[0] << ": " << ran.out << ran.error;
  }
  Json listed() const { return Json::parse(run_program({"list", book(), "--json", "--check"}).out); }

  TestFolder folder_;
};

TEST_F(LogbookVerbs, AnEveningFromStartToCompare) {
  expect({"start", book(), "--bow", "made-up bow", "--place", "hall", "--distance", "20yd", "--temperature", "59F",
          "--full-scale-spl", "118"}, kDone, "is ready");
  expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare", "--note", "dry"}, kDone, "shots 1 to 5");
  expect({"add", book(), demo("block2-clay-ring.wav"), demo("block5-clay-ring.wav"), "--setup", "steel", "--changed",
          "a plug", "--added-mass", "180"}, kDone, "shots 11 to 15");
  expect({"add", book(), demo("block6-bare.wav"), "--setup", "bare"}, kDone, "block 4 of 'bare'");
  expect({"comment", book(), "7", "--hum", "2", "--feel", "8", "less", "hum"}, kDone, "shot 7");
  expect({"drop", book(), "3", "plucked", "string"}, kDone, "left out");

  Json all = listed();
  EXPECT_EQ(all["bow"], "made-up bow");
  EXPECT_DOUBLE_EQ(all["distance_m"].get<double>(), 18.288);  // 20 international yards of 0.9144 m
  EXPECT_DOUBLE_EQ(all["temperature_c"].get<double>(), 15.0);
  ASSERT_EQ(all["setups"].size(), 2U);
  EXPECT_EQ(all["setups"][0]["baseline"], true);
  EXPECT_DOUBLE_EQ(all["setups"][1]["added_mass_kg"].get<double>(), 0.180);
  ASSERT_EQ(all["blocks"].size(), 4U);
  EXPECT_EQ(all["blocks"][0]["note"], "dry");
  EXPECT_EQ(all["blocks"][0]["shots"][2]["dropped"], "plucked string");
  EXPECT_EQ(all["blocks"][1]["shots"][1]["comments"][0]["words"], "less hum");
  expect({"list", book()}, kDone, "left out: plucked string");

  // The numbers are those of measure with the same chain.
  const auto measured = run_program({"measure", "--json", "--distance", "20yd", "--temperature", "59F", "--full-scale-spl", "118",
                                     demo("block1-bare.wav")});
  const Json shot = Json::parse(measured.out)["recordings"][0]["shots"][1];
  const Json kept = all["blocks"][0]["shots"][1]["numbers"];
  EXPECT_EQ(kept["hum"], shot["hum"]);
  EXPECT_EQ(kept["exposure_db"], shot["levels"]["exposure_db"]);
  EXPECT_EQ(kept["arrow_speed_m_s"], shot["arrow_speed_m_s"]);

  // A dropped shot does not count: 4 + 5 against 5 + 5; restored it does.
  const auto shots_compared = [&] {
    const Json compared = Json::parse(run_program({"compare", book(), "--json"}).out);
    EXPECT_EQ(compared["baseline"], "bare");
    return compared["against"][0]["numbers"][0]["baseline"]["n"].get<int>();
  };
  EXPECT_EQ(shots_compared(), 9);
  expect({"compare", book()}, kDone, "Shot 3 of 'bare' is left out: plucked string.");
  expect({"restore", book(), "3"}, kDone, "counts again");
  EXPECT_EQ(shots_compared(), 10);
  expect({"drop", book(), "--block", "4", "wind"}, kDone, "block 4 is left out");
  EXPECT_EQ(shots_compared(), 5);
  expect({"restore", book(), "4", "--block"}, kDone, "counts again");

  // Measuring the kept sound again changes nothing.
  const std::string before = run_program({"compare", book(), "--json"}).out;
  expect({"remeasure", book()}, kDone, "20 shots measured again");
  EXPECT_EQ(run_program({"compare", book(), "--json"}).out, before);

  // A report is made from the kept sound alone.
  expect({"report", book(), "--main", "hum", "-o", folder_.path("page.html")}, kDone, "page.html");
  EXPECT_NE(file_text(folder_.path("page.html")).find("<audio"), std::string::npos) << "with the sound";
}

TEST_F(LogbookVerbs, SaysWhatIsWrong) {
  expect({"list", book()}, kUnusable, "there is no such logbook");
  expect({"start", book()}, kDone, "is ready");
  expect({"start", book()}, kUnusable, "this file exists");
  expect({"add", book(), demo("block1-bare.wav"), "--setup", "bare"}, kDone, "New set-up 'bare', the baseline");
  expect({"add", book(), demo("block6-bare.wav"), "--setup", "barre"}, kBadCommand, "did you mean 'bare'?");
  expect({"add", book(), demo("block6-bare.wav"), "--setup", "bare", "--changed", "x"}, kBadCommand, "there already");
  expect({"add", book(), demo("missing.wav"), "--setup", "steel"}, kUnusable, "missing.wav");
  EXPECT_EQ(listed()["setups"].size(), 1U) << "nothing to keep makes no set-up";
  expect({"comment", book(), "6", "loud"}, kBadCommand, "there is no shot 6");
  expect({"comment", book(), "1"}, kBadCommand, "nothing was said");
  expect({"comment", book(), "1", "--loud", "11"}, kBadCommand, "--loud: '11' must be a number from 0 to 10");
  expect({"comment", book(), "1", "--ping", "nan"}, kBadCommand, "--ping: 'nan' must be a number from 0 to 10");
  expect({"drop", book(), "1"}, kBadCommand, "reason");
  expect({"restore", book(), "9", "--block"}, kBadCommand, "there is no block 9");
  expect({"start", folder_.path("far"), "--distance", "200m"}, kBadCommand, "--distance");
  std::ofstream(folder_.path("text")) << "no logbook";
  expect({"list", folder_.path("text")}, kUnusable, "this is no logbook");
  for (const char* verb : {"start", "add", "list", "comment", "drop", "restore", "remeasure"}) {
    expect({verb, "--help"}, kDone, "Example: ringfall " + std::string(verb));
  }
}

}  // namespace
}  // namespace ringfall::terminal
