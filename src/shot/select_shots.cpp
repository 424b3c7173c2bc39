// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "shot/find.h"
#include "shot/own_chain.h"
#include "shot/own_shots.h"
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
constexpr double kFaintestOther_db = 30.0;      // below the shots no word is worth it

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

/// "3, 7-9 and 12"
std::string numbered(const Indices& chosen, const Indices& of) {
  std::vector<std::string> parts;
  for (std::size_t k = 0; k < chosen.size();) {
    const auto number = [&](std::size_t n) { return std::ranges::lower_bound(of, chosen[n]) - of.begin() + 1; };
    std::size_t end = k + 1;
    while (end < chosen.size() && number(end) == number(end - 1) + 1) ++end;
    parts.push_back(end - k == 1 ? fmt::format("{}", number(k)) : fmt::format("{}-{}", number(k), number(end - 1)));
    k = end;
  }
  std::string text;
  for (std::size_t k = 0; k < parts.size(); ++k) text += (k == 0 ? "" : k + 1 == parts.size() ? " and " : ", ") + parts[k];
  return text;
}

void report_doubt(Events events, const Indices& doubtful, const Indices& shots, double rate_hz, std::vector<Finding>& findings) {
  if (doubtful.empty()) return;
  const bool one = doubtful.size() == 1;
  findings.push_back({"own_or_neighbour", Severity::caution, {},
                      fmt::format("Shot{} {} (at {}) may be {}neighbour's: by level, time and impact {} can't be told from the archer's own. {} "
                                  "counted. Listen to {}; leave out what is not yours: say how many shots are yours (--expect N), or "
                                  "drop {} from the logbook.",
                                  one ? "" : "s", numbered(doubtful, shots), when(events, doubtful, rate_hz), one ? "a " : "in part a ",
                                  one ? "it" : "they", one ? "It is" : "They are", one ? "it" : "them", one ? "it" : "those")});
}

void report(Events events, const Indices& neighbours, double below_db, const Indices& others, double rate_hz,
            std::vector<Finding>& findings) {
  if (!neighbours.empty()) {
    findings.push_back({"neighbour_shot", Severity::note, {},
                        fmt::format("{} shot{} at {}, some {:.0f} dB fainter than the shots before and after, {} left out as a "
                                    "neighbour's. If they count, say how many shots there are (--expect N).",
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
  const OwnShots told = own_shots(candidates, sample_rate_hz);
  const auto in_events = [&](const Indices& chosen) {
    Indices places;
    for (const std::size_t k : chosen) places.push_back(likely[k]);
    return places;
  };
  selection.shots = in_events(told.own);
  selection.in_doubt = in_events(told.doubtful);
  std::vector<double> own_db;
  for (const std::size_t k : told.own) own_db.push_back(event_level_db(candidates[k]));
  const double faintest_db = quantile(own_db, 0.5) - kFaintestOther_db;
  Indices others;
  for (const std::size_t k : told.others) {
    if (event_level_db(candidates[k]) >= faintest_db) others.push_back(likely[k]);
  }
  report(events, in_events(told.neighbours), told.below_db, others, sample_rate_hz, selection.findings);
  report_doubt(events, selection.in_doubt, selection.shots, sample_rate_hz, selection.findings);
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
