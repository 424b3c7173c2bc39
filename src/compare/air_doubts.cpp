// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/air_doubts.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/units.h"
#include "compare/session.h"

namespace ringfall::compare {
namespace {

constexpr double kWarmer_c = 5.0;  // rubber and strings change

}  // namespace

std::vector<Finding> air_doubts(const std::vector<AirOfSession>& sessions) {
  std::optional<double> coldest;
  std::optional<double> warmest;
  std::set<int> all;
  std::set<int> unsaid;
  bool speeds = false;
  for (const auto& air : sessions) {
    all.insert(air.session);
    if (!air.temperature_c) {
      unsaid.insert(air.session);
      speeds = speeds || air.has_arrow_speed;
      continue;
    }
    coldest = std::min(coldest.value_or(*air.temperature_c), *air.temperature_c);
    warmest = std::max(warmest.value_or(*air.temperature_c), *air.temperature_c);
  }
  std::vector<Finding> findings;
  if (coldest && *warmest - *coldest > kWarmer_c) {
    findings.push_back({"temperature_differs", Severity::caution, {},
                        fmt::format("Shot between {:.0f} and {:.0f} C: rubber stiffens in the cold and strings and limbs change; a "
                                    "damper may do more or less at another temperature.",
                                    *coldest, *warmest)});
  }
  if (all.size() > 1 && !unsaid.empty()) {
    findings.push_back({"temperature_not_said", Severity::note, {},
                        fmt::format("Nobody said how warm the air was in {}: whether warmth or cold plays a part between the sessions is "
                                    "not known{}.",
                                    sessions_text({unsaid.begin(), unsaid.end()}),
                                    speeds ? fmt::format(", and arrow speeds are reckoned for {:g} C there", kAssumedTemperature_c) : "")});
  }
  return findings;
}

}  // namespace ringfall::compare
