// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/distance_estimate.h"

#include <gtest/gtest.h>

#include <cmath>
#include <utility>

#include "base/csv.h"

namespace ringfall::compare {
namespace {

// 30 + 48 + 72 printed values: ISO 9613-1:1993 Table 1 and ISO 9613-2:1996 Table 2 as transcribed in open test data, in dB/km.
// Printed to three digits (Table 2: one decimal), so half a unit of the last digit is allowed beside 0.45 % (the third digit where a value prints three).
// ISO 9613-2's 15 C, 80 %, 1 kHz prints 4.1 where its own formula gives 4.15.
TEST(Distance, AbsorptionMeetsThePrintedTables) {
  const auto table = read_csv(RINGFALL_TEST_DATA "/iso9613_air_absorption.csv");
  const auto temperature = table.needed_column("T_C");
  const auto humidity = table.needed_column("RH_pct");
  const auto nominal = table.needed_column("nominal_Hz");
  const auto printed = table.needed_column("printed_table_value");
  std::size_t rows = 0;
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const auto want = table.number(row, printed);
    if (!want) continue;
    const double third = std::round(10.0 * std::log10(*table.number(row, nominal) / 1000.0));
    const double exact_hz = 1000.0 * std::pow(10.0, third / 10.0);
    const Air air{*table.number(row, temperature), *table.number(row, humidity), 101.325};
    const double found = 1000.0 * air_absorption_db_per_m(exact_hz, air);
    const std::string& cell = table.rows[row][printed];
    const auto point = cell.find('.');
    const double last_digit = point == std::string::npos ? 1.0 : std::pow(10.0, -static_cast<double>(cell.size() - point - 1));
    EXPECT_NEAR(found, *want, 0.51 * last_digit + 0.0045 * *want) << "line " << table.lines[row];
    ++rows;
  }
  EXPECT_GE(rows, 100U);
}

// Molecules absorb by how often they collide: attenuation over pressure hangs on frequency over pressure and the share of water only (Bass et
// al., JASA 97 (1995) 680, from memory). At half the pressure half the relative humidity is the same share, so that half of each printed value
// holds at half its frequency.
TEST(Distance, AtHalfThePressureThePrintedTablesHoldByHalves) {
  const auto table = read_csv(RINGFALL_TEST_DATA "/iso9613_air_absorption.csv");
  const auto temperature = table.needed_column("T_C");
  const auto humidity = table.needed_column("RH_pct");
  const auto nominal = table.needed_column("nominal_Hz");
  const auto printed = table.needed_column("printed_table_value");
  std::size_t rows = 0;
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const auto want = table.number(row, printed);
    if (!want || *want < 10.0) continue;  // three digits
    const double exact_hz = 1000.0 * std::pow(10.0, std::round(10.0 * std::log10(*table.number(row, nominal) / 1000.0)) / 10.0);
    const Air thin{*table.number(row, temperature), 0.5 * *table.number(row, humidity), 0.5 * 101.325};
    EXPECT_NEAR(1000.0 * air_absorption_db_per_m(0.5 * exact_hz, thin), 0.5 * *want, 0.006 * *want) << "line " << table.lines[row];
    ++rows;
  }
  EXPECT_GE(rows, 40U);
}

// Far below both relaxation frequencies absorption grows with f^2.
TEST(Distance, GrowsWithTheSquareFarBelowRelaxation) {
  const Air humid{20.0, 100.0, 101.325};
  EXPECT_NEAR(air_absorption_db_per_m(20.0, humid) / air_absorption_db_per_m(10.0, humid), 4.0, 0.02);
}

// Spreading alone (absorption of 63 Hz over 40 m is 0.005 dB): 1 m -> 2, 10, 20, 40 m is 6.02, 20, 26.02, 32.04 dB.
TEST(Distance, SpreadsByTwentyLog) {
  DistanceQuestion question;
  question.at_mark = {{63.0, 90.0}};
  for (const auto& [metres, loss_db] : {std::pair{2.0, 6.02}, std::pair{10.0, 20.0}, std::pair{20.0, 26.02}, std::pair{40.0, 32.04}}) {
    const auto found = estimate_at(question, metres).value();
    EXPECT_NEAR(found.level_z_db, 90.0 - loss_db, 0.01) << metres;
    EXPECT_NEAR(found.spreading_db, loss_db, 0.005);
    EXPECT_NEAR(found.level_a_db, 90.0 - loss_db - 26.2, 0.01);  // IEC 61672-1 Table 3: -26.2 dB at 63 Hz
  }
}

// ISO 9613-2 Table 2: 32.8 dB/km at 4 kHz, 10 C, 70 %: 39 m lose 1.28 dB beside 32.04 dB of spreading.
TEST(Distance, AirTakesTheHighBandsToo) {
  DistanceQuestion question;
  question.at_mark = {{4000.0, 80.0}};
  question.air = {10.0, 70.0, 101.325};
  const auto found = estimate_at(question, 40.0).value();
  EXPECT_NEAR(found.level_z_db, 80.0 - 32.04 - 1.28, 0.02);
  EXPECT_NEAR(found.lost_in_air_a_db, 1.28, 0.02);
  EXPECT_DOUBLE_EQ(found.level_high_db.value(), found.level_z_db);
}

// IEC 61672-1:2013 Table 3, A weighting at the octaves; at the mark nothing else is taken off.
TEST(Distance, WeighsEachOctaveAsTheStandard) {
  for (const auto& [nominal_hz, a_db] :
       {std::pair{63.0, -26.2}, std::pair{125.0, -16.1}, std::pair{250.0, -8.6}, std::pair{500.0, -3.2}, std::pair{1000.0, 0.0},
        std::pair{2000.0, 1.2}, std::pair{4000.0, 1.0}, std::pair{8000.0, -1.1}, std::pair{16000.0, -6.6}}) {
    DistanceQuestion question;
    question.at_mark = {{nominal_hz, 80.0}};
    EXPECT_NEAR(estimate_at(question, 1.0).value().level_a_db, 80.0 + a_db, 1e-9) << nominal_hz;
  }
}

// By hand: four octaves of 80 dB are 86.02 dB, three 84.77 dB; the one at 1 kHz is none of them.
TEST(Distance, TheHighBandGoesFromTwoToSixteenKilohertz) {
  DistanceQuestion question;
  question.at_mark = {{1000.0, 90.0}};
  EXPECT_FALSE(estimate_at(question, 1.0)->level_high_db);
  EXPECT_FALSE(estimate_at(question, 1.0)->high_to_hz);
  question.at_mark = {{1000.0, 90.0}, {2000.0, 80.0}, {4000.0, 80.0}, {8000.0, 80.0}};
  EXPECT_NEAR(estimate_at(question, 1.0)->level_high_db.value(), 84.77, 0.005);
  EXPECT_EQ(estimate_at(question, 1.0)->high_to_hz, 8000.0);
  question.at_mark.push_back({16000.0, 80.0});
  EXPECT_NEAR(estimate_at(question, 1.0)->level_high_db.value(), 86.02, 0.005);
  EXPECT_EQ(estimate_at(question, 1.0)->high_to_hz, 16000.0);
}

// 20 yd at 250 ft/s and 20 C, by hand: 18.288 m / 343.2 m/s = 53 ms, 60 ft / 250 ft/s = 240 ms.
TEST(Distance, SoundArrivesBeforeTheArrow) {
  DistanceQuestion question;
  question.at_mark = {{1000.0, 80.0}};
  question.arrow_speed_m_s = 250.0 * 0.3048;
  const auto found = estimate_at(question, 20.0 * 0.9144).value();
  EXPECT_NEAR(found.sound_s, 0.053, 0.0005);
  EXPECT_NEAR(found.arrow_s.value(), 0.240, 1e-6);
}

TEST(Distance, NoBandNoAnswerAndNoPromise) {
  EXPECT_FALSE(estimate_at({}, 10.0));
  EXPECT_FALSE(not_modelled().empty());
  for (const auto& sentence : hunting_cautions()) EXPECT_EQ(sentence.find("safe distance"), std::string::npos);
}

}  // namespace
}  // namespace ringfall::compare
