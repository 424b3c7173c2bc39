// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/units.h"

#include <gtest/gtest.h>

#include <limits>
#include <string>

#include "base/failure.h"

namespace ringfall {
namespace {

// NIST SP 811 (2008) Appendix B.8: the factors printed in bold are exact; the grain is 6.479 891 E-05 kg.
TEST(Units, ExactFactors) {
  EXPECT_DOUBLE_EQ(kYard_m, 9.144e-01);
  EXPECT_DOUBLE_EQ(kFoot_m, 3.048e-01);
  EXPECT_DOUBLE_EQ(kInch_m, 2.54e-02);
  EXPECT_DOUBLE_EQ(kPound_kg, 4.5359237e-01);
  EXPECT_NEAR(kOunce_kg, 2.834952e-02, 5e-9);
  EXPECT_DOUBLE_EQ(kGrain_kg, 6.479891e-05);
}

// By hand from lg 2 = 0.30103; 94 dB for 1 Pa re 20 uPa: 20 lg 50000 = 93.979 dB (IEC 60942 calibrator, nominal 94 dB).
TEST(Units, Decibels) {
  EXPECT_NEAR(power_to_db(2.0), 3.0103, 5e-5);
  EXPECT_NEAR(amplitude_to_db(2.0), 6.0206, 5e-5);
  EXPECT_NEAR(amplitude_to_db(1.0 / kReferencePressure_pa), 93.979, 5e-4);
  EXPECT_DOUBLE_EQ(power_to_db(1.0), 0.0);
  EXPECT_NEAR(db_to_power(3.0103), 2.0, 1e-5);
  EXPECT_NEAR(db_to_amplitude(-20.0), 0.1, 1e-15);
  EXPECT_EQ(power_to_db(0.0), -std::numeric_limits<double>::infinity());
  EXPECT_EQ(amplitude_to_db(0.0), -std::numeric_limits<double>::infinity());
}

// ISO 9613-1:1993 A.5, evaluated by hand to two decimals; 331.45 m/s at 0 C in dry air is a handbook value (CRC Handbook
// of Chemistry and Physics, from memory), 0.05 % above the formula.
TEST(Units, SoundSpeed) {
  EXPECT_DOUBLE_EQ(sound_speed_m_s(20.0), 343.2);
  EXPECT_NEAR(sound_speed_m_s(-10.0), 325.17, 0.006);
  EXPECT_NEAR(sound_speed_m_s(10.0), 337.30, 0.006);
  EXPECT_NEAR(sound_speed_m_s(30.0), 349.00, 0.006);
  EXPECT_NEAR(sound_speed_m_s(0.0), 331.45, 331.45 * 0.001);
}

// Conversions by the exact factors above; the temperatures are the fixed points of the scales.
TEST(Units, ParsesNumberWithUnit) {
  EXPECT_DOUBLE_EQ(parse_distance_m("18"), 18.0);
  EXPECT_DOUBLE_EQ(parse_distance_m(" +18 m "), 18.0);
  EXPECT_DOUBLE_EQ(parse_distance_m("20yd"), 18.288);
  EXPECT_DOUBLE_EQ(parse_distance_m("20 y"), 18.288);
  EXPECT_DOUBLE_EQ(parse_distance_m("60 ft"), 18.288);
  EXPECT_DOUBLE_EQ(parse_speed_m_s("60"), 60.0);
  EXPECT_DOUBLE_EQ(parse_speed_m_s("60.5 m/s"), 60.5);
  EXPECT_DOUBLE_EQ(parse_speed_m_s("200 ft/s"), 60.96);
  EXPECT_DOUBLE_EQ(parse_speed_m_s("200fps"), 60.96);
  EXPECT_DOUBLE_EQ(parse_speed_m_s("216km/h"), 60.0);
  EXPECT_DOUBLE_EQ(parse_temperature_c("-5"), -5.0);
  EXPECT_DOUBLE_EQ(parse_temperature_c("100 C"), 100.0);
  EXPECT_DOUBLE_EQ(parse_temperature_c("32F"), 0.0);
  EXPECT_DOUBLE_EQ(parse_temperature_c("212F"), 100.0);
  EXPECT_DOUBLE_EQ(parse_temperature_c("-40F"), -40.0);
}

// International yard and pound of 1959: 1 lb = 0.45359237 kg, 1 in = 25.4 mm; 7000 grains and 16 ounces to the pound; standard
// free fall 9.80665 m/s2 (3rd CGPM, 1901), so 1 lbf = 4.4482216152605 N (NIST SP 811 Appendix B.8).
TEST(Units, ReadsArchersUnits) {
  EXPECT_DOUBLE_EQ(parse_mass_kg("7000gr"), 0.45359237);
  EXPECT_DOUBLE_EQ(parse_mass_kg("7000 gn"), 0.45359237);
  EXPECT_DOUBLE_EQ(parse_mass_kg("16oz"), 0.45359237);
  EXPECT_DOUBLE_EQ(parse_mass_kg("1 lb"), 0.45359237);
  EXPECT_DOUBLE_EQ(parse_mass_kg("180"), 0.180);
  EXPECT_DOUBLE_EQ(parse_mass_kg("180g"), 0.180);
  EXPECT_DOUBLE_EQ(parse_mass_kg("0.18kg"), 0.180);
  EXPECT_NEAR(parse_force_n("1lb"), 4.4482216152605, 1e-12);
  EXPECT_DOUBLE_EQ(parse_force_n("40 lbs"), 40.0 * parse_force_n("1lbf"));
  EXPECT_DOUBLE_EQ(parse_force_n("10kg"), 98.0665);
  EXPECT_DOUBLE_EQ(parse_force_n("178N"), 178.0);
  EXPECT_DOUBLE_EQ(parse_length_m("10in"), 0.254);
  EXPECT_DOUBLE_EQ(parse_length_m("216mm"), 0.216);
  EXPECT_DOUBLE_EQ(parse_length_m("21.6 cm"), 0.216);
  EXPECT_DOUBLE_EQ(parse_length_m("0.216m"), 0.216);
  EXPECT_THROW(parse_force_n("40"), RequestFailure) << "40 what?";
  EXPECT_THROW(parse_length_m("8.5"), RequestFailure);
  EXPECT_THROW(parse_mass_kg("1st"), RequestFailure);
}

/// The sentence of the RequestFailure that parsing throws, or "" when it does not.
template <class Parse>
std::string refusal(Parse parse, const char* text) {
  try {
    parse(text);
  } catch (const RequestFailure& failure) {
    return failure.what();
  }
  return {};
}

TEST(Units, RefusesWhatIsNoNumberOrUnit) {
  for (const char* text : {"", "  ", "far", "m", "nan", "inf", "1e999"}) {
    EXPECT_NE(refusal(parse_distance_m, text).find("is not a distance; write it like"), std::string::npos) << text;
  }
  EXPECT_EQ(refusal(parse_distance_m, "18 mm"), "'18 mm': the unit 'mm' is not known here; use m, yd or ft");
  EXPECT_EQ(refusal(parse_speed_m_s, "60 kn"), "'60 kn': the unit 'kn' is not known here; use m/s or ft/s");
  EXPECT_EQ(refusal(parse_temperature_c, "290K"), "'290K': the unit 'K' is not known here; use C or F");
  EXPECT_NE(refusal(parse_distance_m, "1,5m").find("',5m'"), std::string::npos);
}

}  // namespace
}  // namespace ringfall
