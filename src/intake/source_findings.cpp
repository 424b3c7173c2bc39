// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/source_findings.h"

#include <fmt/format.h>

#include "base/units.h"

namespace ringfall::intake {
namespace {

constexpr double kMissingWorthAWord_s = 0.001;

}  // namespace

std::vector<Finding> findings_of_source(const audio::SourceHealth& begin, const audio::SourceHealth& end, double sample_rate_hz) {
  std::vector<Finding> findings;
  if (const auto times = end.overruns - begin.overruns; times > 0) {
    const double lost_s = static_cast<double>(end.lost_frames - begin.lost_frames) / sample_rate_hz;
    findings.push_back({"overrun", Severity::caution, {},
                        fmt::format("The computer was too slow {} time{} and lost {:.2f} s of sound; shots near that are marked. "
                                    "Close other programs.", times, times == 1 ? "" : "s", lost_s)});
  }
  if (const auto times = end.glitches - begin.glitches; times > 0) {
    findings.push_back({"device_glitch", Severity::caution, {},
                        fmt::format("The sound device said {} time{} that it lost sound; shots near that are marked. Try another "
                                    "plug, and close other programs.", times, times == 1 ? "" : "s")});
  }
  if (const double missing_s = end.missing_s - begin.missing_s; missing_s > kMissingWorthAWord_s) {
    findings.push_back({"sound_missing", Severity::caution, {},
                        fmt::format("{:.1f} s of sound never came from the device, though it did not say so; shots near that are "
                                    "marked. Switch off the power saving of the sound system.", missing_s)});
  }
  return findings;
}

std::optional<Finding> loss_between(const audio::SourceHealth& begin, const audio::SourceHealth& end, double sample_rate_hz) {
  const auto findings = findings_of_source(begin, end, sample_rate_hz);
  return findings.empty() ? std::nullopt : std::optional(findings.front());
}

}  // namespace ringfall::intake
