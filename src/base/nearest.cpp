// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/nearest.h"

#include <algorithm>
#include <numeric>

namespace ringfall {
namespace {

/// Letters to insert, delete or replace to make one word the other (Levenshtein 1966).
std::size_t edit_distance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), 0U);
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t replaced = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({replaced, row[j] + 1, row[j + 1] + 1});
    }
  }
  return row.back();
}

}  // namespace

std::string did_you_mean(const std::string& wrong, const std::vector<std::string>& names) {
  const auto nearest =
      std::ranges::min_element(names, {}, [&](const std::string& name) { return edit_distance(wrong, name); });
  if (nearest != names.end() && 3 * edit_distance(wrong, *nearest) <= std::max(nearest->size(), wrong.size())) {
    return "; did you mean '" + *nearest + "'?";
  }
  if (names.empty()) return "; there is none";
  std::string list;
  for (const auto& name : names) list += (list.empty() ? "" : ", ") + name;
  return "; there are: " + list;
}

}  // namespace ringfall
