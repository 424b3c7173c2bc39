// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/comment_count.h"

#include <fmt/format.h>

#include <algorithm>

namespace ringfall::compare {

std::optional<Finding> comment_count_finding(const SessionPlan& plan, const std::string& file, std::size_t shots_found) {
  std::size_t comments = 0;
  int highest = 0;
  for (const auto& [place, said] : plan.said) {
    if (place.first != file) continue;
    ++comments;
    highest = std::max(highest, place.second);
  }
  if (comments == 0 || (comments == shots_found && static_cast<std::size_t>(highest) == shots_found)) return std::nullopt;
  return Finding{"comments_unlike_shots", Severity::caution, {},
                 fmt::format("{}: {} comment{} (the last on shot {}), but {} shot{} found. Comments belong to shots by their number: "
                             "check that none was missed or counted twice before trusting words against numbers.",
                             file, comments, comments == 1 ? "" : "s", highest, shots_found, shots_found == 1 ? "" : "s")};
}

}  // namespace ringfall::compare
