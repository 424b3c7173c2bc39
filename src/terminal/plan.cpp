// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cstdio>

#include "base/failure.h"
#include "base/text.h"
#include "compare/logbook_session.h"
#include "compare/plan.h"
#include "compare/plan_advice.h"
#include "terminal/exit_status.h"
#include "terminal/ink.h"
#include "terminal/output.h"
#include "terminal/planning_json.h"
#include "terminal/text_table.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {
namespace {

constexpr std::size_t kPlanWidth = 100;
/// Spread of shots of one archer when nothing is known: 0.5 to 1.5 dB (trade practice, no source).
constexpr double kUsualSpread_db = 1.0;

compare::ShotScatter scatter_for(const PlanRequest& request, const compare::Measure& measure) {
  if (!request.logbook.empty()) {
    const logbook::Logbook book(request.logbook);
    const auto seen = compare::scatter_seen(compare::logbook_session(book, std::nullopt, compare::Hidden::taken_in), measure);
    if (seen) return *seen;
    throw RequestFailure(fmt::format("{}: it shows no spread of {} yet: no block has two shots with different values; give --spread",
                                     request.logbook, measure.label));
  }
  compare::ShotScatter scatter;
  if (!request.spread && measure.unit != "dB") {
    throw RequestFailure(fmt::format("how much {} scatters from shot to shot is not known: give --spread in {}, or --from LOGBOOK",
                                     measure.label, measure.unit));
  }
  scatter.within_block = request.spread.value_or(kUsualSpread_db);
  scatter.between_blocks = request.block_spread.value_or(0.0);
  return scatter;
}

std::string basis_text(const PlanRequest& request, const compare::ShotScatter& scatter, const compare::Measure& measure) {
  const std::string spreads = fmt::format("{} {} within a block and {} {} from block to block",
                                          plain_number(scatter.within_block, measure.decimals + 1), measure.unit,
                                          plain_number(scatter.between_blocks, measure.decimals + 1), measure.unit);
  if (scatter.shots > 0) return fmt::format("Spread seen: {} ({} shots in {} blocks).", spreads, scatter.shots, scatter.blocks);
  std::string text = fmt::format("Spread {}: {}.", request.spread ? "as stated" : "assumed (common practice)", spreads);
  if (!request.block_spread) {
    text += " Blocks are taken not to differ, and they often do, which asks for more blocks: --from LOGBOOK knows better.";
  }
  return text;
}

std::string advice_text(const char* title, const std::vector<std::string>& lines, const Ink& ink) {
  std::string out = "\n" + ink.strong(title) + "\n";
  for (const auto& line : lines) out += "  - " + wrapped(line, kPlanWidth, 4) + "\n";
  return out;
}

/// "1 point", "1.5 points", "1 dB".
std::string amount(double value, const std::string& unit) {
  return fmt::format("{:g} {}", value, value == 1.0 && unit == "points" ? "point" : unit);
}

std::string plan_text(const PlanRequest& request, const compare::ShootingPlan& plan, const compare::ShotScatter& scatter,
                      const compare::Measure& measure, const Ink& ink) {
  std::string order;
  for (const auto& block : plan.order) order += (order.empty() ? "" : ", ") + request.setups[block.setup];
  std::string out = ink.strong(fmt::format("{} blocks of {} shots for each set-up: {} shots each, about {} arrows with warm-up",
                                           plan.blocks_per_setup, plan.shots_per_block, plan.shots_per_setup, plan.arrows)) +
                    "\n  " + wrapped("Order: " + order + ".", kPlanWidth, 4) + "\n  " +
                    wrapped(basis_text(request, scatter, measure), kPlanWidth, 4) + "\n  " +
                    wrapped(fmt::format("A true difference of {} in {} is then found {:.0f} times out of 100; the interval is about "
                                        "+-{} {}.",
                                        amount(request.wanted, measure.unit), measure.label, 100.0 * plan.power,
                                        plain_number(plan.half_width, measure.decimals + 1), measure.unit),
                            kPlanWidth, 4) + "\n";
  if (!plan.reaches) {
    out += "  " + wrapped(fmt::format("No plan of up to {} blocks for each set-up finds it {:.0f} times out of 100: it can't be reached within an "
                                      "evening. This one comes nearest and finds {} as often as wanted. Look for a larger difference, or "
                                      "make shots and blocks scatter less.",
                                      plan.blocks_per_setup, 100.0 * request.power,
                                      plain_number(plan.detectable, measure.decimals + 1) + " " + measure.unit),
                          kPlanWidth, 4) + "\n";
  } else if (plan.too_many) {
    out += "  " + wrapped(fmt::format("That is more than an evening holds ({} arrows). Spread it over several sessions, each with all "
                                      "set-ups, or look for a larger difference.",
                                      compare::kMostArrows),
                          kPlanWidth, 4) + "\n";
  }
  out += advice_text("Checklist", compare::checklist(), ink);
  out += advice_text("Microphone", compare::microphone_placing(), ink);
  out += advice_text("Safety", compare::shooting_cautions(), ink);
  return out;
}

}  // namespace

int plan(const PlanRequest& request) {
  const auto measure = compare::wanted_measure(compare::measures_of({}), request.number);
  const auto scatter = scatter_for(request, measure);
  const auto planned = compare::plan_shooting({request.setups, request.wanted, scatter, request.power});
  const std::string out = request.json ? plan_json(request, planned, scatter, measure)
                                       : plan_text(request, planned, scatter, measure, Ink::for_standard_output());
  put(out);
  return kDone;
}

}  // namespace ringfall::terminal
