// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/shot_hearing.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "shot/impact_search.h"
#include "shot/impact_window.h"

namespace ringfall::intake {
namespace {

constexpr double kPart_s = 0.010;
constexpr double kFinderBehind_s = 0.110;   // the finder looks 95 ms ahead, in parts of 10 ms
constexpr double kFirstLook_s = 0.500;      // the tail's end (MeasureSettings::tail_limit_s)
constexpr double kHastyDistance_m = 9.9;    // impacts 0.1 to 0.37 s after the edge
constexpr double kVerdictSlack_s = 0.2;
constexpr double kSame_s = 0.003;           // one edge as two finders place it
constexpr double kSameImpact_s = 0.010;
constexpr double kImpactNotLouder_db = 3.0;
constexpr double kImpactRise_db = 6.0;

shot::FindSettings hasty_settings(shot::FindSettings settings) {
  settings.post_roll_s = kFirstLook_s - kFinderBehind_s + kPart_s;
  settings.distance_m = std::min(settings.distance_m.value_or(kHastyDistance_m), kHastyDistance_m);
  settings.arrow_speed_m_s.reset();
  return settings;
}

/// An impact between the hasty window and the end of the tail: the loudest clear rise there.
std::optional<double> late_impact_s(const shot::Clip& clip) {
  const auto edge = static_cast<std::size_t>(clip.onset_sample - clip.first_sample);
  const auto candidates =
      shot::impact_candidates(std::span(clip.samples).subspan(edge), clip.sample_rate_hz, {0.034, kFirstLook_s});
  std::optional<double> lag_s;
  double loudest_db = -1e9;
  for (const auto& candidate : candidates) {
    if (candidate.shot_like || candidate.rise_db < kImpactRise_db || candidate.level_db < loudest_db) continue;
    loudest_db = candidate.level_db;
    lag_s = candidate.lag_s;
  }
  return lag_s;
}

}  // namespace

ShotHearing::ShotHearing(double sample_rate_hz, const shot::FindSettings& settings, Handlers handlers)
    : rate_hz_(sample_rate_hz),
      settings_(settings),
      handlers_(std::move(handlers)),
      verdict_s_(std::max(settings.post_roll_s, shot::impact_window(settings).latest_s) + kVerdictSlack_s),
      ring_(static_cast<std::size_t>((settings.pre_roll_s + verdict_s_ + 1.0) * sample_rate_hz)),
      hasty_finder_(sample_rate_hz, hasty_settings(settings), [this](shot::FoundEvent&& found) { hasty(std::move(found)); }),
      finder_(sample_rate_hz, settings, [this](shot::FoundEvent&& found) { verdict(std::move(found)); }) {}

void ShotHearing::push(std::span<const float> samples) {
  const auto part = static_cast<std::size_t>(kPart_s * rate_hz_);
  while (!samples.empty()) {
    take(samples.first(std::min(part, samples.size())));
    samples = samples.subspan(std::min(part, samples.size()));
  }
}

void ShotHearing::take(std::span<const float> part) {
  ring_.push(part);
  hasty_finder_.push(part);
  finder_.push(part);
  look_at_clock(false);
}

bool ShotHearing::expects_more() const {
  return std::ranges::any_of(pending_, [](const Pending& pending) { return !pending.complete; });
}

void ShotHearing::finish() {
  hasty_finder_.finish();
  // Kept before the verdict, as always.
  look_at_clock(true);
  finder_.finish();
  while (!pending_.empty()) {
    const Pending none = pending_.front();
    pending_.pop_front();
    handlers_.refuted(none.onset, none.complete);
  }
}

shot::Clip ShotHearing::cut(std::int64_t onset, double fraction, double after_s) const {
  shot::Clip clip;
  clip.sample_rate_hz = rate_hz_;
  clip.first_sample = std::max<std::int64_t>(ring_.begin(), onset - std::llround(settings_.pre_roll_s * rate_hz_));
  clip.samples = ring_.copy(clip.first_sample, onset + std::llround(after_s * rate_hz_));
  clip.onset_sample = onset;
  clip.onset_fraction = fraction;
  return clip;
}

void ShotHearing::hasty(shot::FoundEvent&& found) {
  const shot::Event& event = found.event;
  // The finder proper may have spoken already, at the end of the stream.
  if (event.onset_sample <= last_verdict_) return;
  Pending next{event.onset_sample, event.onset_fraction, event.edge_db};
  // A later impact is known for one before its own sound is complete.
  const double may_be_impact_s = verdict_s_ - settings_.post_roll_s;
  for (const Pending& before : pending_) {
    const double lag_s = static_cast<double>(next.onset - before.onset) / rate_hz_;
    next.waits = next.waits || (lag_s < may_be_impact_s && event.edge_db < before.edge_db + kImpactNotLouder_db);
  }
  const bool alone = std::ranges::none_of(pending_, [&](const Pending& before) {
    return static_cast<double>(next.onset - before.onset) / rate_hz_ < verdict_s_ && event.edge_db < before.edge_db;
  });
  pending_.push_back(next);
  if (!alone) return;
  shot::Clip clip = cut(event.onset_sample, event.onset_fraction, kFirstLook_s);
  clip.impact_sample = event.impact_sample;
  if (!clip.impact_sample) {
    if (const auto lag_s = late_impact_s(clip)) clip.impact_sample = event.onset_sample + std::llround(*lag_s * rate_hz_);
  }
  handlers_.first_look(clip);
}

void ShotHearing::tell_complete(Pending& pending) {
  pending.complete = true;
  handlers_.complete(cut(pending.onset, pending.fraction, settings_.post_roll_s));
}

void ShotHearing::look_at_clock(bool at_end) {
  for (auto at = pending_.begin(); at != pending_.end();) {
    const double age_s = static_cast<double>(ring_.end() - at->onset) / rate_hz_;
    if (!at->complete && (at_end || (!at->waits && age_s >= settings_.post_roll_s))) tell_complete(*at);
    if (!at_end && age_s > verdict_s_) {
      const Pending none = *at;
      at = pending_.erase(at);
      handlers_.refuted(none.onset, none.complete);
    } else {
      ++at;
    }
  }
}

void ShotHearing::verdict(shot::FoundEvent&& found) {
  const std::int64_t onset = found.event.onset_sample;
  const auto same = std::llround(kSame_s * rate_hz_);
  const auto impact = found.event.impact_sample;
  last_verdict_ = onset + same;
  std::optional<Pending> its;
  for (auto at = pending_.begin(); at != pending_.end();) {
    const bool is_it = !its && std::abs(at->onset - onset) <= same;
    const bool is_impact = impact && std::abs(at->onset - *impact) <= std::llround(kSameImpact_s * rate_hz_);
    if (!is_it && !is_impact && at->onset > onset) {
      at->waits = false;  // not this one's impact
      ++at;
      continue;
    }
    const Pending now = *at;
    at = pending_.erase(at);
    if (is_it) {
      its = now;
    } else {
      handlers_.refuted(now.onset, now.complete);
    }
  }
  if (!its) its = Pending{onset, found.event.onset_fraction, found.event.edge_db};
  if (!its->complete) tell_complete(*its);
  handlers_.found(its->onset, std::move(found));
}

}  // namespace ringfall::intake
