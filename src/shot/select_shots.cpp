// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "shot/find.h"
#include "shot/select_own.h"

namespace ringfall::shot {
namespace {

using Events = std::span<const Event>;
using Indices = std::vector<std::size_t>;

constexpr double kLikelyShot = 0.30;
constexpr double kLeastCounted = 0.10;     // asked for by number, beside plain shots; 9 of 10 noises have under 0.04
constexpr double kDoubtful = 0.50;         // one or two events below this are no shots
constexpr std::size_t kFewDoubtful = 3;
constexpr double kPlainShot = 0.60;        // a neighbour's shot is a shot, too
constexpr double kFarNeighbour_db = 20.0;  // what is farther off is not told from other sounds
constexpr double kFaintestOther_db = 30.0;      // below this no word is worth it

std::string when(Events events, const Indices& chosen, double rate_hz) {
  std::string text;
  for (std::size_t k = 0; k < chosen.size() && k < 5; ++k) {
    text += fmt::format("{}{:.2f}", k == 0 ? "" : ", ", static_cast<double>(events[chosen[k]].onset_sample) / rate_hz);
  }
  return text + (chosen.size() > 5 ? " s, ..." : " s");
}

/// The N nearest and most shot-like, in time order.
Indices most_likely(Events events, std::span<const double> near_db, std::size_t wanted) {
  Indices order(events.size());
  std::iota(order.begin(), order.end(), 0U);
  if (order.empty()) return order;
  std::vector<double> sorted(near_db.begin(), near_db.end());
  std::ranges::sort(sorted, std::greater<>());
  const double usual_db = sorted[std::min(sorted.size(), wanted) / 2];
  const auto worth = [&](std::size_t k) {
    // 12 dB below the others weighs as much as no likeness at all; louder than they is no merit.
    return events[k].likeness + std::clamp((near_db[k] - usual_db) / 12.0, -3.0, 0.25);
  };
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) { return worth(a) > worth(b); });
  order.resize(std::min(wanted, order.size()));
  std::ranges::sort(order);
  return order;
}

void select_expected(Events events, double rate_hz, std::size_t wanted, Selection& selection) {
  double likeliest = 0.0;
  for (const Event& event : events) likeliest = std::max(likeliest, event.likeness);
  Indices possible;
  std::vector<Event> candidates;
  for (std::size_t k = 0; k < events.size(); ++k) {
    if (likeliest >= kPlainShot && events[k].likeness < kLeastCounted) continue;
    possible.push_back(k);
    candidates.push_back(events[k]);
  }
  for (const std::size_t k : most_likely(candidates, nearness_db(candidates), wanted)) selection.shots.push_back(possible[k]);
  if (selection.shots.size() < wanted) {
    selection.findings.push_back({"fewer_than_expected", Severity::caution, {},
                                  fmt::format("{} shot{} expected, {} found: nothing else is enough like a shot. The others are too faint, "
                                              "hidden in other sound, or not in this recording.",
                                              wanted, wanted == 1 ? " was" : "s were", selection.shots.size())});
    return;
  }
  Indices left_out;
  for (std::size_t k = 0; k < events.size(); ++k) {
    if (!std::ranges::binary_search(selection.shots, k) && events[k].likeness >= kLikelyShot) left_out.push_back(k);
  }
  if (left_out.empty()) return;
  selection.findings.push_back({"events_left_out", Severity::note, {},
                                fmt::format("{} more loud event{} (at {}) {} left out: only the {} most shot-like were asked for.",
                                            left_out.size(), left_out.size() == 1 ? "" : "s", when(events, left_out, rate_hz),
                                            left_out.size() == 1 ? "is" : "are", wanted)});
}

void report(Events events, const Indices& neighbours, double below_db, const Indices& others, double rate_hz,
            std::vector<Finding>& findings) {
  if (!neighbours.empty()) {
    findings.push_back({"neighbour_shot", Severity::note, {},
                        fmt::format("{} shot{} at {}, some {:.0f} dB fainter or duller than the others, {} left out as a "
                                    "neighbour's. If they count, say how many shots there are.",
                                    neighbours.size(), neighbours.size() == 1 ? "" : "s", when(events, neighbours, rate_hz),
                                    below_db, neighbours.size() == 1 ? "is" : "are")});
  }
  if (!others.empty()) {
    findings.push_back({"events_left_out", Severity::note, {},
                        fmt::format("{} sudden sound{} at {} {} not counted: too unlike the shots.", others.size(),
                                    others.size() == 1 ? "" : "s", when(events, others, rate_hz),
                                    others.size() == 1 ? "is" : "are")});
  }
}

void report_none(Events events, double rate_hz, std::vector<Finding>& findings) {
  if (events.empty()) return;
  Indices all(events.size());
  std::iota(all.begin(), all.end(), 0U);
  findings.push_back({"events_left_out", Severity::note, {},
                      fmt::format("No sound is enough like a shot; sudden ones are at {}. If shots are among them, say how many.",
                                  when(events, all, rate_hz))});
}

void select_likely(Events events, double sample_rate_hz, Selection& selection) {
  Indices likely;
  std::vector<Event> candidates;
  double likeliest = 0.0;
  for (std::size_t k = 0; k < events.size(); ++k) {
    if (events[k].likeness < kLikelyShot) continue;
    likely.push_back(k);
    candidates.push_back(events[k]);
    likeliest = std::max(likeliest, events[k].likeness);
  }
  if (likely.empty() || (likely.size() < kFewDoubtful && likeliest < kDoubtful)) {
    report_none(events, sample_rate_hz, selection.findings);
    return;
  }
  const auto near_db = nearness_db(candidates);
  const double limit_db = own_limit_db(near_db);
  std::vector<double> own_db;
  for (std::size_t k = 0; k < likely.size(); ++k) {
    if (near_db[k] < limit_db) continue;
    selection.shots.push_back(likely[k]);
    own_db.push_back(near_db[k]);
  }
  const double usual_db = quantile(own_db, 0.5);
  Indices neighbours;
  Indices others;
  std::vector<double> below_db;
  for (std::size_t k = 0; k < likely.size(); ++k) {
    const double under_db = usual_db - near_db[k];
    if (near_db[k] >= limit_db || under_db > kFaintestOther_db) continue;
    if (under_db < kFarNeighbour_db && candidates[k].likeness >= kPlainShot) {
      neighbours.push_back(likely[k]);
      below_db.push_back(under_db);
    } else {
      others.push_back(likely[k]);
    }
  }
  report(events, neighbours, below_db.empty() ? 0.0 : quantile(below_db, 0.5), others, sample_rate_hz, selection.findings);
}

}  // namespace

Selection select_shots(Events events, double sample_rate_hz, const FindSettings& settings) {
  Selection selection;
  if (settings.expect) {
    select_expected(events, sample_rate_hz, static_cast<std::size_t>(std::max(*settings.expect, 0)), selection);
  } else {
    select_likely(events, sample_rate_hz, selection);
  }
  std::vector<Event> own;
  for (const std::size_t k : selection.shots) own.push_back(events[k]);
  for (const std::size_t k : lone_impacts(own, sample_rate_hz)) selection.doubtful_impacts.push_back(selection.shots[k]);
  return selection;
}

}  // namespace ringfall::shot
