// SPDX-License-Identifier: GPL-3.0-or-later
// The verbs round a comparison, as a person types them.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "terminal/program.h"

namespace ringfall::terminal {
namespace {

std::string table_in(const TestFolder& folder) {
  const std::string path = folder.path("t.csv");
  std::ofstream(path) << "setup,block,shot,vibration [m/s2],said feel\nbare,1,1,5.1,3\nbare,1,2,5.4,4\nrub,2,1,3.0,8\nrub,2,2,3.3,7\n"
                         "rub,3,1,3.1,8\nrub,3,2,2.8,9\nbare,4,1,5.0,3\nbare,4,2,5.6,2\n";
  return path;
}

// By hand: block means 5.25, 5.3 against 3.15, 2.95: -2.225.
TEST(ComparisonVerbs, AForeignTableIsComparedLikeShots) {
  const TestFolder folder;
  const auto ran = run_program({"compare", "--table", table_in(folder), "--json"});
  EXPECT_EQ(ran.status, 0) << ran.error;
  EXPECT_NE(ran.out.find("\"main_number\": \"vibration\""), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("\"difference\": -2.225"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("\"blocks\": \"A B B A\""), std::string::npos);
  const auto text = run_program({"compare", "--table", table_in(folder), "--all"}, "NO_COLOR=1 COLUMNS=120");
  // Eight ratings in four blocks tell as much as five: tau-b -0.82 is not settled.
  EXPECT_NE(text.out.find("'feel' as said and vibration as measured: not settled"), std::string::npos) << text.out;
  EXPECT_EQ(run_program({"compare", "--table", table_in(folder), "--csv"}).out.rfind("baseline,setup,", 0), 0U);
}

// That the count is right is the business of compare.* and stats.*; here: it is asked for, said and put out.
TEST(ComparisonVerbs, ADifferenceThatIsWantedGetsItsCount) {
  const TestFolder folder;
  const auto json = nlohmann::json::parse(run_program({"compare", "--table", table_in(folder), "--difference", "0.5", "--json"}).out);
  EXPECT_EQ(json["wanted_difference"], 0.5);
  const auto needed = json["against"][0]["units_for_wanted"];
  ASSERT_TRUE(needed.is_object()) << json["against"][0];
  EXPECT_GE(needed["each"].get<int>(), 2);
  const auto text = run_program({"compare", "--table", table_in(folder), "--difference", "0.5"}, "NO_COLOR=1");
  std::string flat = text.out;
  for (std::size_t at = 0; (at = flat.find("\n    ", at)) != std::string::npos;) flat.replace(at, 5, " ");
  EXPECT_NE(flat.find(fmt::format("A true difference of 0.5 m/s2 would be found in 8 of 10 such comparisons with {} blocks each",
                                  needed["each"].get<int>())), std::string::npos) << text.out;
  const auto unasked = nlohmann::json::parse(run_program({"compare", "--table", table_in(folder), "--json"}).out);
  EXPECT_TRUE(unasked["wanted_difference"].is_null());
  EXPECT_TRUE(unasked["against"][0]["units_for_wanted"].is_null());
  EXPECT_EQ(run_program({"compare", "--table", table_in(folder)}).out.find("A true difference"), std::string::npos);
  for (const char* none : {"0", "-0", "nan", "inf", "2e6", "half"}) {
    const auto refused = run_program({"compare", "--table", table_in(folder), "--difference", none});
    EXPECT_EQ(refused.status, 2) << none;
    EXPECT_NE(refused.error.find("must be a number and not 0"), std::string::npos) << refused.error;
  }
  EXPECT_EQ(run_program({"compare", "--table", table_in(folder), "--difference", "-0.5"}).status, 0) << "a fall is a difference too";
}

TEST(ComparisonVerbs, OneSourceAndOnlyOne) {
  const TestFolder folder;
  EXPECT_EQ(run_program({"compare"}).status, 2);
  EXPECT_EQ(run_program({"compare", demo_folder(), "--table", table_in(folder)}).status, 2);
}

// Nothing is measured for a question that can't be answered: there isn't even a sound file in the folder.
TEST(ComparisonVerbs, NamesAndPlacesAreCheckedBeforeMeasuring) {
  const TestFolder folder;
  std::ofstream(folder.path("setups.csv")) << "file,setup,block\ngone.wav,bare,1\nlost.wav,rubber,2\n";
  const auto number = run_program({"compare", folder.str(), "--main", "humm"});
  EXPECT_EQ(number.status, 2);
  EXPECT_NE(number.error.find("did you mean 'hum'"), std::string::npos) << number.error;
  const auto setup = run_program({"compare", folder.str(), "--baseline", "bar"});
  EXPECT_EQ(setup.status, 2);
  EXPECT_NE(setup.error.find("did you mean 'bare'"), std::string::npos) << setup.error;
  const auto place = run_program({"report", folder.str(), "-o", folder.path("no/such/page.html")});
  EXPECT_EQ(place.status, 3);
  EXPECT_NE(place.error.find("make it first"), std::string::npos) << place.error;
}

TEST(ComparisonVerbs, TonesAreMatchedBetweenSetUps) {
  const auto ran = run_program({"compare", demo_folder(), "--main", "hum", "--json"});
  ASSERT_EQ(ran.status, 0) << ran.error;
  EXPECT_NE(ran.out.find("\"match\": \"same\""), std::string::npos);
  EXPECT_NE(ran.out.find("\"kendall_tau_b\""), std::string::npos);
}

TEST(ComparisonVerbs, PlanSaysOrderNumberAndCautions) {
  const auto ran = run_program({"plan", "bare", "rubber", "--difference", "1", "--spread", "1"}, "NO_COLOR=1");
  EXPECT_EQ(ran.status, 0) << ran.error;
  EXPECT_NE(ran.out.find("bare, rubber, rubber, bare"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("without an arrow"), std::string::npos);
  EXPECT_EQ(run_program({"plan", "bare", "rubber", "--number", "hum"}).status, 2);  // no spread known
  EXPECT_EQ(run_program({"plan", "bare"}).status, 2);
  EXPECT_EQ(run_program({"plan", "bare", "rubber", "--difference", "nan"}).status, 2);
}

TEST(ComparisonVerbs, SeasonAndHuntingFromALogbook) {
  const TestFolder folder;
  const std::string book = folder.path("book.ringfall");
  ASSERT_EQ(run_program({"start", book, "--bow", "recurve"}).status, 0);
  ASSERT_EQ(run_program({"add", book, fives_folder() + "/block1-bare.wav", "--setup", "bare"}).status, 0);
  const auto season = run_program({"season", book, "--json"});
  EXPECT_EQ(season.status, 0) << season.error;
  EXPECT_NE(season.out.find("\"bow\": \"recurve\""), std::string::npos) << season.out;
  EXPECT_EQ(run_program({"season", book, "--bow", "recurv"}).status, 2);
  // For a spreadsheet: the numbers of --json, a line a session.
  const auto csv = run_program({"season", book, "--csv"});
  EXPECT_EQ(csv.out.rfind("bow,setup,session,started_at,shots,level_reference,exposure_db,hum,ping,late_s,arrow_speed_m_s,exposure_sd_db,"
                          "check_tone_db,temperature_c\r\nrecurve,bare,1,20", 0), 0U) << csv.out;
  const auto point = nlohmann::json::parse(season.out)["setups"][0]["sessions"][0];
  const std::string after = fmt::format(",5,re full scale,{:.6g},{:.6g},", point["means"]["exposure_db"].get<double>(),
                                        point["means"]["hum"].get<double>());
  EXPECT_NE(csv.out.find(after), std::string::npos) << csv.out << after;
  EXPECT_EQ(csv.out.substr(csv.out.size() - 4), ",,\r\n") << "no check tone, no temperature: empty cells";
  EXPECT_EQ(run_program({"season", book, "--csv", "--json"}).status, 2);
  const auto hunting = run_program({"hunting", book, "bare", "--distance", "20m", "--arrow-speed", "60m/s"}, "NO_COLOR=1");
  EXPECT_EQ(hunting.status, 0) << hunting.error;
  EXPECT_NE(hunting.out.find("No distance is made safe"), std::string::npos) << hunting.out;
  EXPECT_NE(hunting.out.find("333 ms"), std::string::npos) << hunting.out;  // 20 m / 60 m/s
  EXPECT_EQ(run_program({"hunting", book, "bar"}).status, 2);
  EXPECT_EQ(run_program({"hunting", book, "bare", "--distance", "500m"}).status, 2);

  // A calibrated session of the same bow (full scale 118 dB: 118 dB more) is no louder bow, and no mean is made of both.
  ASSERT_EQ(run_program({"session", book, "--full-scale-spl", "118"}).status, 0);
  ASSERT_EQ(run_program({"add", book, fives_folder() + "/block6-bare.wav", "--setup", "bare"}).status, 0);
  const auto mixed = run_program({"season", book}, "NO_COLOR=1");
  EXPECT_NE(mixed.out.find("Of another scale: session 1 (not calibrated)"), std::string::npos) << mixed.out;
  EXPECT_NE(mixed.out.find("late ring-down, A: 2 sessions within a day, no trend yet."), std::string::npos) << mixed.out;
  const auto afar = run_program({"hunting", book, "bare"}, "NO_COLOR=1");
  EXPECT_NE(afar.out.find("re 20 uPa"), std::string::npos) << afar.out;
  EXPECT_NE(afar.out.find("5 shots of sessions without a calibration are left out"), std::string::npos) << afar.out;
  EXPECT_NE(afar.out.find("2-16 kHz"), std::string::npos) << afar.out;
}

// 0.1 dB under 1 dB of spread: not even 60 blocks each find it (stats/power.h).
TEST(ComparisonVerbs, APlanThatCantReachThePowerSaysSo) {
  const auto ran = run_program({"plan", "bare", "rubber", "--difference", "0.1", "--spread", "1", "--block-spread", "0.3"}, "NO_COLOR=1");
  EXPECT_NE(ran.out.find("60 blocks of 6 shots"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("can't be reached within"), std::string::npos) << ran.out;
  const auto point = run_program({"plan", "bare", "rubber", "--number", "hum", "--difference", "1", "--spread", "1"}, "NO_COLOR=1");
  EXPECT_NE(point.out.find("A true difference of 1 point in hum"), std::string::npos) << point.out;
}

}  // namespace
}  // namespace ringfall::terminal
