// SPDX-License-Identifier: GPL-3.0-or-later
// The verbs round a comparison, as a person types them.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

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
  const auto text = run_program({"compare", "--table", table_in(folder)}, "NO_COLOR=1");
  EXPECT_NE(text.out.find("the higher the one, the lower the other"), std::string::npos) << text.out;
  EXPECT_EQ(run_program({"compare", "--table", table_in(folder), "--csv"}).out.rfind("baseline,setup,", 0), 0U);
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
  ASSERT_EQ(run_program({"add", book, demo_folder() + "/block1-bare.wav", "--setup", "bare"}).status, 0);
  const auto season = run_program({"season", book, "--json"});
  EXPECT_EQ(season.status, 0) << season.error;
  EXPECT_NE(season.out.find("\"bow\": \"recurve\""), std::string::npos) << season.out;
  EXPECT_EQ(run_program({"season", book, "--bow", "recurv"}).status, 2);
  const auto hunting = run_program({"hunting", book, "bare", "--distance", "20m", "--arrow-speed", "60m/s"}, "NO_COLOR=1");
  EXPECT_EQ(hunting.status, 0) << hunting.error;
  EXPECT_NE(hunting.out.find("No distance is made safe"), std::string::npos) << hunting.out;
  EXPECT_NE(hunting.out.find("333 ms"), std::string::npos) << hunting.out;  // 20 m / 60 m/s
  EXPECT_EQ(run_program({"hunting", book, "bar"}).status, 2);
  EXPECT_EQ(run_program({"hunting", book, "bare", "--distance", "500m"}).status, 2);

  // A calibrated session of the same bow (full scale 118 dB: 118 dB more) is no louder bow, and no mean is made of both.
  ASSERT_EQ(run_program({"session", book, "--full-scale-spl", "118"}).status, 0);
  ASSERT_EQ(run_program({"add", book, demo_folder() + "/block6-bare.wav", "--setup", "bare"}).status, 0);
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
