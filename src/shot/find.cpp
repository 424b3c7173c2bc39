// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/find.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <deque>

#include "base/check.h"
#include "base/units.h"
#include "shot/energy_hops.h"
#include "shot/impact_search.h"
#include "shot/impact_window.h"
#include "shot/onset_candidate.h"
#include "shot/sample_ring.h"

namespace ringfall::shot {
namespace {

constexpr std::int64_t kHopsLooked = 95;   // kOnsetLook_s and a little, in hops of 1 ms
constexpr std::size_t kHopsKept = 512;
constexpr double kFaintestEdge = 3e-9;         // mean square difference: edges under about -75 dBFS are no shots
constexpr double kSudden = 4.0;            // power of a hop over the mean of the 16 hops before
constexpr double kHit_s = 0.030;           // what follows closer belongs to the same attack (hits.h)
constexpr double kPrecursor_s = 0.300;     // clicker and release come this long before the edge at most
constexpr double kPrecursorBelow = 6.3;    // 8 dB in power
constexpr double kLikely = 0.12;
constexpr double kLikelyIfCounted = 0.0001; // with a number of shots given hardly anything is ruled out
constexpr double kShotLike = 0.50;
constexpr double kRepeatRatio = 2.0;       // 3 dB in power
constexpr double kRepeatBrightness = 1.35;
constexpr double kRapidRatio = 4.0;        // 6 dB
constexpr double kImpactLook_s = 0.030;    // needed after an impact to see its rise
constexpr double kSameSound_s = 0.008;
constexpr std::size_t kChunk = 8192;
constexpr float kAbsurd = 1e6F;            // full scale = 1: no sound is this large

bool within(double a, double b, double ratio) { return a <= b * ratio && b <= a * ratio; }

/// No NaN, infinity or nonsense. Lanes of running sums, which become NaN or huge and stay so.
bool all_finite(std::span<const float> samples) {
  std::array<float, 16> sums{};
  std::size_t n = 0;
  for (; n + sums.size() <= samples.size(); n += sums.size()) {
    for (std::size_t lane = 0; lane < sums.size(); ++lane) sums[lane] += std::abs(samples[n + lane]);
  }
  for (; n < samples.size(); ++n) sums[0] += std::abs(samples[n]);
  return std::ranges::all_of(sums, [](float sum) { return sum < kAbsurd; });
}

/// Two events of the same kind and strength, not a shot and its impact.
bool repeats(const Onset& first, const Onset& second) {
  return within(first.edge_power, second.edge_power, kRepeatRatio) &&
         within(first.brightness_hz, second.brightness_hz, kRepeatBrightness);
}

/// May `sound` be the impact of `shot`? Not when it is as loud, nor the same once more.
bool may_be_impact(const Onset& shot, const Onset& sound) {
  return sound.edge_power < 1.6 * shot.edge_power && sound.peak < 1.25 * shot.peak && !repeats(shot, sound);
}

}  // namespace

struct ShotFinder::Part {
  Part(double rate_hz, const FindSettings& wanted, OnEvent handler)
      : rate(rate_hz),
        settings(wanted),
        on_event(std::move(handler)),
        window(impact_window(wanted)),
        wait_s(std::max(wanted.post_roll_s, window.latest_s + kImpactLook_s)),
        ring(static_cast<std::size_t>((wanted.pre_roll_s + wait_s + 0.7) * rate_hz) + kChunk),
        hops(rate_hz, kHopsKept + kChunk / static_cast<std::size_t>(rate_hz / 1000.0)) {}

  void take(std::span<const float> chunk) {
    ring.push(chunk);
    hops.push(chunk);
    scan(hops.count() - kHopsLooked);
  }

  void scan(std::int64_t end_hop) {
    for (; next_hop < end_hop; ++next_hop) {
      if (is_hint(next_hop)) {
        if (const auto onset = look_at_onset(ring, hops, next_hop, rate)) hear(*onset);
      }
      hand_out(static_cast<double>(next_hop) * static_cast<double>(hops.hop_samples()));
    }
  }

  /// A hop far above the recent past; and, close behind an onset, only if far above that one too.
  bool is_hint(std::int64_t hop) const {
    const double power = hops.at(hop);
    if (power < kFaintestEdge) return false;
    if (hop >= 3 && power < kSudden * hops.at(hop - 3)) return false;
    if (hop > 0 && power < kSudden * hops.mean(hop - 18, hop - 2)) return false;
    const double here = static_cast<double>(hop) * static_cast<double>(hops.hop_samples());
    return here - last_onset > kHit_s * rate || power > kPrecursorBelow * last_power;
  }

  void hear(const Onset& onset) {
    // A hint just before the same edge as the last one's.
    if (std::abs(onset.position - last_onset) < 0.002 * rate) return;
    const double lag_s = (onset.position - last_onset) / rate;
    if (lag_s < kHit_s && onset.edge_power < kPrecursorBelow * last_power) return;
    while (!pending.empty()) {
      const Onset& last = pending.back();
      const bool precursor = onset.position - last.position < kPrecursor_s * rate &&
                             onset.edge_power > kPrecursorBelow * last.edge_power;
      if (!precursor) break;
      pending.pop_back();
    }
    last_onset = onset.position;
    last_power = onset.edge_power;
    if (onset.likeness >= (settings.expect ? kLikelyIfCounted : kLikely)) pending.push_back(onset);
  }

  void hand_out(double now) {
    while (!pending.empty() && now >= pending.front().position + wait_s * rate) hand_out_first();
  }

  /// Looks for the impact among the sounds that follow `shot`, and takes it out of the events.
  std::optional<std::int64_t> take_impact(const Onset& shot) {
    const auto begin = static_cast<std::int64_t>(std::ceil(shot.position));
    const auto heard = ring.copy(begin, begin + std::llround((window.latest_s + kImpactLook_s) * rate));
    auto candidates = impact_candidates(heard, rate, window);
    const auto is_at = [&](const Onset& onset, double lag_s) {
      return std::abs(onset.position - shot.position - lag_s * rate) < kSameSound_s * rate;
    };
    std::erase_if(candidates, [&](const ImpactCandidate& candidate) {
      return std::ranges::any_of(pending, [&](const Onset& onset) {
        return is_at(onset, candidate.lag_s) && !may_be_impact(shot, onset);
      });
    });
    for (auto& candidate : candidates) {
      candidate.shot_like = std::ranges::any_of(pending, [&](const Onset& onset) {
        return is_at(onset, candidate.lag_s) && onset.likeness >= kShotLike && onset.brightness_hz > 0.75 * shot.brightness_hz;
      });
    }
    const auto chosen = impacts.choose(candidates, power_to_db(shot.edge_power));
    if (!chosen) return std::nullopt;
    const double lag_s = candidates[*chosen].lag_s;
    std::erase_if(pending, [&](const Onset& onset) {
      // With a number of shots given a strong second sound may be one of them.
      const bool maybe_counted = settings.expect && within(onset.edge_power, shot.edge_power, kRapidRatio);
      return is_at(onset, lag_s) && !maybe_counted;
    });
    return begin + std::llround(lag_s * rate);
  }

  void hand_out_first() {
    const Onset onset = pending.front();
    pending.pop_front();
    FoundEvent found;
    Event& event = found.event;
    const double whole = std::floor(onset.position);
    event.onset_sample = static_cast<std::int64_t>(whole);
    event.onset_fraction = onset.position - whole;
    event.impact_sample = take_impact(onset);
    event.peak = onset.peak;
    event.edge_db = power_to_db(onset.edge_power);
    event.body_db = power_to_db(onset.body_power);
    event.brightness_hz = onset.brightness_hz;
    event.likeness = onset.likeness;
    event.has_quiet_before = onset.has_quiet_before;
    Clip& clip = found.clip;
    clip.sample_rate_hz = rate;
    clip.onset_sample = event.onset_sample;
    clip.onset_fraction = event.onset_fraction;
    clip.impact_sample = event.impact_sample;
    clip.first_sample = std::max<std::int64_t>(ring.begin(), event.onset_sample - std::llround(settings.pre_roll_s * rate));
    clip.samples = ring.copy(clip.first_sample, event.onset_sample + std::llround(settings.post_roll_s * rate));
    if (!pending.empty()) {
      const auto next = static_cast<std::int64_t>(pending.front().position);
      if (static_cast<double>(next - event.onset_sample) < settings.post_roll_s * rate) {
        clip.next_shot_sample = next;
        event.next_shot_sample = next;
      }
    }
    on_event(std::move(found));
  }

  double rate;
  FindSettings settings;
  OnEvent on_event;
  ImpactWindow window;
  double wait_s;
  SampleRing ring;
  EnergyHops hops;
  std::int64_t next_hop = 0;
  double last_onset = -1e18;
  double last_power = 0.0;
  std::deque<Onset> pending;
  ImpactHistory impacts;
  std::vector<float> cleaned;
};

ShotFinder::ShotFinder(double sample_rate_hz, const FindSettings& settings, OnEvent on_event) {
  check(sample_rate_hz >= 8000.0 && sample_rate_hz <= 192000.0, "the finder takes 8 to 192 kHz");
  part_ = std::make_unique<Part>(sample_rate_hz, settings, std::move(on_event));
}

ShotFinder::~ShotFinder() = default;
ShotFinder::ShotFinder(ShotFinder&&) noexcept = default;
ShotFinder& ShotFinder::operator=(ShotFinder&&) noexcept = default;

void ShotFinder::push(std::span<const float> samples) {
  while (!samples.empty()) {
    auto chunk = samples.first(std::min(samples.size(), kChunk));
    samples = samples.subspan(chunk.size());
    if (!all_finite(chunk)) {
      part_->cleaned.assign(chunk.begin(), chunk.end());
      for (float& sample : part_->cleaned) sample = std::abs(sample) < kAbsurd ? sample : 0.0F;
      chunk = part_->cleaned;
    }
    part_->take(chunk);
  }
}

void ShotFinder::finish() {
  // What the last shot's look-ahead still lacks is taken as silence, which is not part of any clip.
  part_->scan(part_->hops.count());
  while (!part_->pending.empty()) part_->hand_out_first();
}

}  // namespace ringfall::shot
