// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/answer.h"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace ringfall::compare {
namespace {

constexpr std::size_t kMostBlocksMore = 12;  // more of each than this are not worth an evening

using Rows = std::vector<NumberDifference>;

const NumberDifference* row_of(const Rows& rows, std::string_view id) {
  const auto found = std::ranges::find_if(rows, [id](const auto& row) { return row.number->id == id; });
  return found == rows.end() ? nullptr : &*found;
}

Change change_of(const NumberDifference& row) {
  const bool less = row.at_least.value_or(row.difference->difference) < 0.0;
  if (claims_difference(row.verdict)) return less ? Change::less : Change::more;
  if (row.verdict == Verdict::hint || row.verdict == Verdict::one_block_only) return less ? Change::leaning_less : Change::leaning_more;
  return row.verdict == Verdict::at_most_small ? Change::same : Change::open;
}

Sureness sureness_of(const NumberDifference& row) {
  switch (row.verdict) {
    case Verdict::clear: return Sureness::clear;
    case Verdict::hint: return Sureness::hint;
    case Verdict::one_block_only:
    case Verdict::not_settled_by_blocks: return Sureness::assumed;
    case Verdict::not_settled: return Sureness::open;
    default: return row.rests.ground == Ground::known_wander ? Sureness::one_block : Sureness::sure;
  }
}

/// A mean, or with bounded shots the most it can be.
std::optional<double> shown_mean(const Spread& spread) { return spread.mean_between ? spread.mean_between->high : spread.mean; }

Statement statement_of(const NumberDifference& row) {
  Statement said;
  said.number = row.number->id;
  said.label = row.number->label;
  said.unit = row.number->unit;
  said.decimals = row.number->decimals;
  said.from = shown_mean(row.baseline);
  said.to = shown_mean(row.setup);
  said.from_at_most = row.baseline.bounded > 0;
  said.to_at_most = row.setup.bounded > 0;
  said.from_blocks = row.baseline.blocks;
  said.to_blocks = row.setup.blocks;
  said.spread_from = row.rests.from;
  if (!row.difference) {
    said.why_not = row.sessions == 0 ? "no session has a value of it with both" : "too few values, or all alike";
    return said;
  }
  said.change = change_of(row);
  said.sureness = sureness_of(row);
  said.verdict = row.verdict;
  said.difference = row.difference->difference;
  said.at_least = row.at_least;
  said.interval = row.difference->interval;
  said.df = row.difference->df;
  said.adjusted_p = row.adjusted_p;
  said.blocks_to_settle = row.units_to_settle;
  return said;
}

Statement nothing_on(std::string_view id) {
  Statement said;
  said.number = id;
  if (const auto* number = shot::find_number(id)) {
    said.label = number->label;
    said.unit = number->unit;
    said.decimals = number->decimals;
  }
  said.why_not = "nothing was measured of it";
  return said;
}

/// Hum or ping; where it can't be told, the level of its band's tail.
Statement ringing(const Rows& rows, std::string_view id, std::string_view tail) {
  const auto* row = row_of(rows, id);
  const auto* stand_in = row_of(rows, tail);
  const bool told = row && row->difference && (row->baseline.bounded + row->setup.bounded == 0 || claims_difference(row->verdict));
  if (!told && stand_in && stand_in->difference) {
    Statement said = statement_of(*stand_in);
    said.instead_of = id;
    return said;
  }
  return row ? statement_of(*row) : nothing_on(id);
}

bool settled(const Statement& said) {
  return said.change == Change::less || said.change == Change::more || said.change == Change::same;
}

void add_next(Answer& answer) {
  const std::vector<const Statement*> asked = {&answer.loudness, &answer.hum, &answer.ping, answer.main ? &*answer.main : &answer.loudness};
  bool open = false;
  bool one_block = false;
  bool beyond = false;
  for (const Statement* said : asked) {
    if (said->change == Change::no_number || settled(*said)) continue;
    open = true;
    one_block = one_block || said->from_blocks < 2 || said->to_blocks < 2;
    const std::size_t have = std::min(said->from_blocks, said->to_blocks);
    const std::size_t need = said->blocks_to_settle.value_or(said->change == Change::open ? kMostBlocksMore + have + 1 : have + 2);
    if (need > have + kMostBlocksMore) {
      beyond = true;
    } else {
      answer.blocks = std::max(answer.blocks, need - have);
    }
  }
  if (!open) return;
  answer.next = one_block              ? NextStep::once_more
                : answer.blocks > 0    ? NextStep::more_blocks
                : beyond               ? NextStep::too_many
                                       : NextStep::nothing;
  if (one_block) answer.blocks = 0;
}

}  // namespace

Answer answer_of(const std::string& setup, const std::string& against, const std::vector<NumberDifference>& numbers,
                 const std::string& main_number) {
  Answer answer;
  answer.setup = setup;
  answer.against = against;
  const auto* main = row_of(numbers, main_number);
  const bool foreign = main && !main->number->number;
  const auto* loudness = foreign ? main : row_of(numbers, "exposure_db");
  answer.loudness = loudness ? statement_of(*loudness) : nothing_on("exposure_db");
  answer.hum = foreign ? nothing_on("hum") : ringing(numbers, "hum", "hum_tail_db");
  answer.ping = foreign ? nothing_on("ping") : ringing(numbers, "ping", "ping_tail_db");
  const auto said_already = [&](std::string_view id) {
    return id == answer.loudness.number || id == answer.hum.number || id == answer.ping.number;
  };
  if (main && !said_already(main_number)) answer.main = statement_of(*main);
  std::vector<const NumberDifference*> others;
  for (const NumberDifference& row : numbers) {
    if (!row.difference || !claims_difference(row.verdict) || said_already(row.number->id) || row.number->id == main_number) continue;
    if (family_of(*row.number) != Family::check) others.push_back(&row);
  }
  std::ranges::stable_sort(others, std::ranges::greater{}, [](const auto* row) { return std::abs(row->difference->t); });
  for (const auto* row : others) answer.others.push_back(statement_of(*row));
  add_next(answer);
  return answer;
}

}  // namespace ringfall::compare
