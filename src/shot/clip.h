// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace ringfall::shot {

/// The sound around one shot, cut from a recording or read back from a logbook: all that measuring needs.
struct Clip {
  std::vector<float> samples;       ///< full scale = 1; lossy and float files may go above
  double sample_rate_hz = 0.0;      ///< 8000 .. 192000
  std::int64_t first_sample = 0;    ///< position of samples[0] in its recording
  std::int64_t onset_sample = 0;    ///< the loud edge, in the recording's count; inside the clip
  double onset_fraction = 0.0;      ///< sub-sample part of the edge, 0 <= fraction < 1
  std::optional<std::int64_t> impact_sample;  ///< target impact as heard, in the recording's count
  std::optional<std::int64_t> next_shot_sample;  ///< a later shot's onset, when close
};

/// How samples become pressures.
struct Scale {
  std::optional<double> full_scale_db_spl;  ///< level of a full-scale peak; nullopt: not calibrated
  /// Pressure of a sample of 1.0, with the nominal full scale when not calibrated.
  double pascal_per_unit() const;
  /// What to add to a level re 20 uPa to get the level as printed (0 when calibrated, -120 when not).
  double printed_offset_db() const;
};

}  // namespace ringfall::shot
