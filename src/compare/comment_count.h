// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "base/finding.h"
#include "compare/session.h"

namespace ringfall::compare {

/// `comments_unlike_shots`, a caution: comments belong to shots by their number, so when a recording's comments are not as many
/// as the shots found in it, or name a shot that was not found, they may sit with the wrong ones. nullopt: as many, or no
/// comment at all.  Tested: compare.CommentCount.*
std::optional<Finding> comment_count_finding(const SessionPlan& plan, const std::string& file, std::size_t shots_found);

}  // namespace ringfall::compare
