// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/own_shots.h"

#include <algorithm>
#include <cmath>

#include "shot/impact_search.h"
#include "shot/own_chain.h"
#include "shot/select_own.h"

namespace ringfall::shot {
namespace {

using Places = std::vector<std::size_t>;

constexpr double kUsualSpread_db = 1.8, kLeastSpread_db = 1.2, kMostSpread_db = 2.4;
constexpr double kNormalMad = 1.4826;      // standard deviation over median |deviation|, normal distribution
constexpr double kFarBelow_db = 24.0;      // under the loud ones: other sounds
constexpr double kFarAbove_db = 10.0;      // over them: exceptions, which say nothing of the rest
constexpr double kExceptions = 0.15;
constexpr double kPlainLikeness = 0.60;
constexpr double kDuller_octave = 0.3;
constexpr double kAlikeLevel_db = 3.0;
constexpr std::size_t kLagsShared = 3, kDullShared = 2;
constexpr double kForeignLag = 0.4, kForeignDull = 0.5;
constexpr double kLoudOnes_db = 2.5;
constexpr double kNeighbourRange_db = 16.0;
constexpr double kTakenBack_db = 8.0;
constexpr double kFewLeftOut = 0.10;
constexpr double kDoubtfulWorth = 1.5;
constexpr double kOverlap_db = 1.0;
constexpr std::size_t kNear = 3;           // own shots looked at on either side
constexpr int kRounds = 4;

/// The events that matter, with what is asked of them again and again.
struct OwnCourse {
  std::vector<Event> events;
  Places index;  ///< in the caller's list
  std::vector<double> level_db;
  std::vector<double> lag_s;
  std::vector<ChainHint> hints;
  double spread_db = kUsualSpread_db;
  double rate_hz = 0.0;
  Places own;

  bool has(std::size_t k) const { return std::ranges::binary_search(own, k); }
  bool alike(std::size_t a, std::size_t b) const { return lag_s[a] > 0.0 && lag_s[b] > 0.0 && same_lag(lag_s[a], lag_s[b]); }
};

/// What the archer's loud shots have at least: a few exceptions, claps and knocks, may be louder.
double loud_level_db(std::span<const Event> events) {
  std::vector<double> levels_db;
  for (const Event& event : events) {
    if (event.likeness >= kPlainLikeness) levels_db.push_back(event_level_db(event));
  }
  if (levels_db.empty()) {
    for (const Event& event : events) levels_db.push_back(event_level_db(event));
  }
  std::ranges::sort(levels_db, std::greater<>());
  const auto exceptions = std::max<std::size_t>(2, static_cast<std::size_t>(kExceptions * static_cast<double>(levels_db.size())));
  return levels_db[std::min(exceptions, levels_db.size() - 1)];
}

void learn_spread(OwnCourse& course) {
  std::vector<double> apart_db;
  for (std::size_t k = 1; k < course.own.size(); ++k) {
    apart_db.push_back(std::abs(course.level_db[course.own[k]] - course.level_db[course.own[k - 1]]));
  }
  course.spread_db = apart_db.size() < 4 ? kUsualSpread_db
                                         : std::clamp(kNormalMad * quantile(apart_db, 0.5), kLeastSpread_db, kMostSpread_db);
}

/// Those left out that are alike in level and share a lag that no loud own shot has, or are duller than the loud own ones, are
/// one neighbour: what is like them is likely his, too.
void learn_hints(OwnCourse& course) {
  std::vector<double> own_db;
  for (const std::size_t k : course.own) own_db.push_back(course.level_db[k]);
  const double loud_db = quantile(own_db, 1.0 - kExceptions) - kLoudOnes_db;
  std::vector<double> brightness_hz;
  Places loud;
  for (const std::size_t k : course.own) {
    if (course.level_db[k] < loud_db) continue;
    loud.push_back(k);
    brightness_hz.push_back(course.events[k].brightness_hz);
  }
  const double usual_hz = quantile(brightness_hz, 0.5);
  const auto is_dull = [&](std::size_t k) {
    return std::log2(usual_hz / std::max(course.events[k].brightness_hz, 1.0)) > kDuller_octave;
  };
  for (std::size_t k = 0; k < course.events.size(); ++k) {
    std::size_t lags = 0;
    std::size_t dull = 0;
    for (std::size_t o = 0; o < course.events.size(); ++o) {
      if (o == k || course.has(o) || std::abs(course.level_db[o] - course.level_db[k]) >= kAlikeLevel_db) continue;
      lags += course.alike(o, k) ? 1U : 0U;
      dull += is_dull(o) ? 1U : 0U;
    }
    const bool own_lag = std::ranges::any_of(loud, [&](std::size_t l) { return course.alike(l, k); });
    double& foreign = course.hints[k].foreign;
    foreign = lags >= kLagsShared && !own_lag ? kForeignLag : 1.0;
    if (dull >= kDullShared && is_dull(k)) foreign *= kForeignDull;
  }
}

/// The own places nearest in time, up to three on either side.
Places own_near(const OwnCourse& course, std::size_t k) {
  const auto after = std::ranges::upper_bound(course.own, k);
  const auto before = std::ranges::lower_bound(course.own, k);
  const auto from = before - std::min<std::ptrdiff_t>(kNear, before - course.own.begin());
  const auto to = after + std::min<std::ptrdiff_t>(kNear, course.own.end() - after);
  Places near(from, before);
  near.insert(near.end(), after, to);
  return near;
}

double under_near_db(const OwnCourse& course, std::size_t k) {
  std::vector<double> near_db;
  for (const std::size_t n : own_near(course, k)) near_db.push_back(course.level_db[n]);
  return near_db.empty() ? 0.0 : quantile(near_db, 0.5) - course.level_db[k];
}

Places left_out(const OwnCourse& course, double within_db) {
  Places out;
  for (std::size_t k = 0; k < course.events.size(); ++k) {
    if (!course.has(k) && course.events[k].likeness >= kPlainLikeness && under_near_db(course, k) < within_db) out.push_back(k);
  }
  return out;
}

/// Where next to nothing was left out there is no neighbour: what is not far below counts. Returns what came back.
Places take_back(OwnCourse& course) {
  const Places out = left_out(course, kNeighbourRange_db);
  Places back;
  const double few = std::max(2.0, kFewLeftOut * static_cast<double>(course.own.size()));
  if (static_cast<double>(out.size()) > few) return back;
  for (const std::size_t k : out) {
    if (under_near_db(course, k) < kTakenBack_db) back.push_back(k);
  }
  course.own.insert(course.own.end(), back.begin(), back.end());
  std::ranges::sort(course.own);
  return back;
}

/// Does own shot `place` have another lag than both its neighbours in time, and is that lag shared by others of the kind?
bool shoots_in_turn(const OwnCourse& course, std::size_t place) {
  const auto turns = [&](std::size_t p) {
    if (p == 0 || p + 1 >= course.own.size()) return false;
    const std::size_t i = course.own[p - 1], k = course.own[p], j = course.own[p + 1];
    return course.lag_s[i] > 0.0 && course.lag_s[k] > 0.0 && course.lag_s[j] > 0.0 && !course.alike(i, k) && !course.alike(j, k);
  };
  if (!turns(place)) return false;
  std::size_t sharing = 0;
  for (std::size_t p = 0; p < course.own.size(); ++p) {
    if (p != place && turns(p) && course.alike(course.own[p], course.own[place])) ++sharing;
  }
  return sharing >= 2;
}

Places doubtful(const OwnCourse& course, const Places& back) {
  const Places out = left_out(course, kNeighbourRange_db);
  double loudest_out_db = -1e9;
  bool lags_heard = false;
  for (const std::size_t o : out) {
    loudest_out_db = std::max(loudest_out_db, course.level_db[o]);
    lags_heard = lags_heard || course.lag_s[o] > 0.0;
  }
  const auto as_faint = [&](std::size_t k) {
    if (out.size() < 2 || course.level_db[k] > loudest_out_db + kOverlap_db) return false;
    const auto near = own_near(course, k);
    const bool own_lag = lags_heard && std::ranges::any_of(near, [&](std::size_t n) { return course.alike(n, k); }) &&
                         std::ranges::none_of(out, [&](std::size_t o) { return course.alike(o, k); });
    return !own_lag;
  };
  Places named;
  for (std::size_t place = 0; place < course.own.size(); ++place) {
    const std::size_t k = course.own[place];
    const bool nearly_out = course.own.size() > 2 && worth_in_chain(course.events, course.hints, course.spread_db, course.rate_hz,
                                                                    course.own, place) < kDoubtfulWorth;
    if (std::ranges::binary_search(back, k) || nearly_out || as_faint(k) || shoots_in_turn(course, place)) named.push_back(k);
  }
  return named;
}

Places in_callers_list(const OwnCourse& course, Places places) {
  for (std::size_t& k : places) k = course.index[k];
  return places;
}

}  // namespace

OwnShots own_shots(std::span<const Event> events, double sample_rate_hz) {
  OwnShots told;
  if (events.empty()) return told;
  const double loud_db = loud_level_db(events);
  OwnCourse course;
  course.rate_hz = sample_rate_hz;
  Places louder;
  for (std::size_t k = 0; k < events.size(); ++k) {
    const double level_db = event_level_db(events[k]);
    if (level_db < loud_db - kFarBelow_db) {
      told.others.push_back(k);
    } else if (level_db > loud_db + kFarAbove_db) {
      louder.push_back(k);
    } else {
      course.events.push_back(events[k]);
      course.index.push_back(k);
      course.level_db.push_back(level_db);
      course.lag_s.push_back(impact_lag_samples(events[k]) / sample_rate_hz);
    }
  }
  course.hints.resize(course.events.size());
  for (int round = 0; round < kRounds; ++round) {
    const Places before = course.own;
    course.own = own_chain(course.events, course.hints, course.spread_db, sample_rate_hz);
    if (round + 1 == kRounds || course.own == before) break;
    learn_spread(course);
    learn_hints(course);
  }
  const Places back = take_back(course);
  told.doubtful = in_callers_list(course, doubtful(course, back));
  told.own = in_callers_list(course, course.own);
  std::vector<double> below_db;
  for (std::size_t k = 0; k < course.events.size(); ++k) {
    if (course.has(k)) continue;
    const double under_db = under_near_db(course, k);
    const bool shot = course.events[k].likeness >= kPlainLikeness && under_db < kNeighbourRange_db;
    (shot ? told.neighbours : told.others).push_back(course.index[k]);
    if (shot) below_db.push_back(under_db);
  }
  if (!below_db.empty()) told.below_db = quantile(below_db, 0.5);
  for (const std::size_t k : louder) {
    told.own.push_back(k);
    told.doubtful.push_back(k);
  }
  for (Places* list : {&told.own, &told.doubtful, &told.others}) std::ranges::sort(*list);
  return told;
}

}  // namespace ringfall::shot
