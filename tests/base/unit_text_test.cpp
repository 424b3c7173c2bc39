// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/unit_text.h"

#include <gtest/gtest.h>

#include "base/units.h"

namespace ringfall {
namespace {

// Factors: NIST SP 811 Appendix B.8 (yard 0.9144 m, inch 25.4 mm, grain 64.79891 mg, ounce 28.34952 g, pound-force 4.448222 N,
// foot 0.3048 m; degree Fahrenheit = 1.8 C + 32).
TEST(UnitText, SaysWhatWasTyped) {
  EXPECT_EQ(distance_text(parse_distance_m("20yd"), Units::archers), "20 yd");
  EXPECT_EQ(distance_text(parse_distance_m("20yd"), Units::metric), "18.29 m");
  EXPECT_EQ(distance_text(18.0, Units::metric), "18 m");
  EXPECT_EQ(distance_text(18.0, Units::archers), "19.7 yd");
  EXPECT_EQ(brace_text(parse_length_m("8.5in"), Units::archers), "8.50 in");
  EXPECT_EQ(brace_text(0.2159, Units::metric), "216 mm");
  EXPECT_EQ(arrow_mass_text(parse_mass_kg("412gr"), Units::archers), "412 gr");
  EXPECT_EQ(arrow_mass_text(0.02669715, Units::metric), "26.7 g");
  EXPECT_EQ(mass_text(parse_mass_kg("6.35oz"), Units::archers), "6.35 oz");
  EXPECT_EQ(mass_text(0.180, Units::metric), "180 g");
  EXPECT_EQ(draw_weight_text(parse_force_n("40lb"), Units::archers), "40.0 lb");
  EXPECT_EQ(draw_weight_text(177.92886, Units::metric), "178 N");
  EXPECT_EQ(arrow_speed_text(60.0, Units::metric), "60.0 m/s");
  EXPECT_EQ(arrow_speed_text(60.0, Units::archers), "197 ft/s");
  EXPECT_EQ(temperature_text(15.0, Units::archers), "59 F");
  EXPECT_EQ(temperature_text(-0.02, Units::metric), "0 C");
}

}  // namespace
}  // namespace ringfall
