// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ringfall::work {

/// What a person may say, both ends taken in; whoever asks for it holds it against these.
struct Limits {
  double low;
  double high;
  /// NaN lies in none.
  constexpr bool hold(double value) const { return value >= low && value <= high; }
};

inline constexpr Limits kTargetDistance_m{1.0, 150.0};
inline constexpr Limits kArrowSpeed_m_s{15.0, 200.0};
inline constexpr Limits kAir_c{-40.0, 60.0};
inline constexpr Limits kHumidity_percent{0.0, 100.0};
inline constexpr Limits kFullScale_db_spl{60.0, 200.0};
inline constexpr Limits kCalibrator_db{60.0, 140.0};
inline constexpr Limits kCheckTone_db{-200.0, 200.0};

inline constexpr Limits kDrawWeight_n{10.0, 2000.0};
inline constexpr Limits kBraceHeight_m{0.05, 1.0};
inline constexpr Limits kArrowMass_kg{0.005, 0.2};
inline constexpr Limits kAddedMass_kg{0.0, 10.0};

/// Level at a distance: ISO 9613-1 has its air from -20 to 50 C and from 10 % (its Table 1).
inline constexpr Limits kAfarAir_c{-20.0, 50.0};
inline constexpr Limits kAfarHumidity_percent{10.0, 100.0};
inline constexpr Limits kAfarPressure_kpa{50.0, 110.0};
inline constexpr Limits kMark_m{0.3, 10.0};
inline constexpr double kFarthest_m = 100.0;

}  // namespace ringfall::work
