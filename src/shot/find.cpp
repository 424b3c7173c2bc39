// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/find.h"

#include <algorithm>
#include <cmath>
#include <deque>

#include "base/check.h"
#include "shot/energy_hops.h"
#include "shot/impact_window.h"
#include "shot/onset_candidate.h"
#include "shot/sample_ring.h"

namespace ringfall::shot {
namespace {

constexpr std::int64_t kHopsLooked = 95;   // kOnsetLook_s and a little, in hops of 1 ms
constexpr std::int64_t kHopsKept = 256;
constexpr double kFaintest = 1e-8;         // mean square difference: edges under about -75 dBFS are no shots
constexpr double kSudden = 7.0;            // power of a hop over the mean of the 15 hops before
constexpr double kHit_s = 0.030;           // what follows closer belongs to the same attack (hits.h)
constexpr double kPrecursor_s = 0.300;     // clicker and release come this long before the edge at most
constexpr double kPrecursorBelow = 6.3;    // 8 dB in power
constexpr double kLikely = 0.12;
constexpr double kRepeatLikely = 0.30;
constexpr double kRepeatRatio = 2.0;       // 3 dB in power
constexpr double kRepeatBrightness = 1.35;
constexpr double kImpactBelow = 3000.0;    // 35 dB: fainter things are not looked at
constexpr double kLagSpread = 0.08;        // one bow, one distance: lags repeat within this
constexpr std::size_t kChunk = 8192;

struct ImpactCandidate {
  double position = 0.0;
  double body_power = 0.0;
};

struct Pending {
  Onset onset;
  std::vector<ImpactCandidate> impacts;
};

bool within(double a, double b, double ratio) { return a <= b * ratio && b <= a * ratio; }

/// Two events of the same kind and strength, not a shot and its impact.
bool repeats(const Onset& first, const Onset& second) {
  return second.likeness >= kRepeatLikely && within(first.edge_power, second.edge_power, kRepeatRatio) &&
         within(first.brightness_hz, second.brightness_hz, kRepeatBrightness);
}

}  // namespace

struct ShotFinder::Part {
  Part(double rate_hz, const FindSettings& wanted, OnEvent handler)
      : rate(rate_hz),
        settings(wanted),
        on_event(std::move(handler)),
        window(impact_window(wanted)),
        wait_s(std::max(wanted.post_roll_s, window.latest_s + kOnsetLook_s)),
        ring(static_cast<std::size_t>((wanted.pre_roll_s + wait_s + 0.7) * rate_hz) + kChunk),
        hops(rate_hz, static_cast<std::size_t>(kHopsKept) + kChunk) {}

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
    if (power < kFaintest) return false;
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
      const Onset& last = pending.back().onset;
      const bool precursor = onset.position - last.position < kPrecursor_s * rate &&
                             onset.edge_power > kPrecursorBelow * last.edge_power;
      if (!precursor) break;
      pending.pop_back();
    }
    last_onset = onset.position;
    last_power = onset.edge_power;
    if (!pending.empty() && is_impact(onset)) return;
    if (onset.likeness >= kLikely) pending.push_back({onset, {}});
  }

  /// Takes a weaker sound after a shot as a possible impact of it.
  bool is_impact(const Onset& onset) {
    for (auto shot = pending.rbegin(); shot != pending.rend(); ++shot) {
      const double lag_s = (onset.position - shot->onset.position) / rate;
      if (lag_s > window.latest_s) return false;
      const bool weaker = onset.edge_power < 1.6 * shot->onset.edge_power && onset.peak < 1.25 * shot->onset.peak;
      if (!weaker || repeats(shot->onset, onset)) continue;
      if (lag_s >= window.earliest_s && onset.body_power * kImpactBelow > shot->onset.body_power) {
        shot->impacts.push_back({onset.position, onset.body_power});
      }
      return true;
    }
    return false;
  }

  /// The lag that earlier shots agree on comes first, then the strongest candidate.
  std::optional<std::int64_t> impact_of(const Pending& shot) {
    if (shot.impacts.empty()) return std::nullopt;
    const auto lag_of = [&](const ImpactCandidate& impact) { return impact.position - shot.onset.position; };
    const ImpactCandidate* best = nullptr;
    if (lags.size() >= 2) {
      std::vector<double> sorted(lags.begin(), lags.end());
      std::ranges::sort(sorted);
      const double usual = sorted[sorted.size() / 2];
      for (const auto& impact : shot.impacts) {
        if (std::abs(lag_of(impact) / usual - 1.0) > kLagSpread) continue;
        if (best == nullptr || impact.body_power > best->body_power) best = &impact;
      }
    }
    if (best == nullptr) best = &*std::ranges::max_element(shot.impacts, {}, &ImpactCandidate::body_power);
    lags.push_back(lag_of(*best));
    if (lags.size() > 15) lags.pop_front();
    return std::llround(best->position);
  }

  void hand_out(double now) {
    while (!pending.empty() && now >= pending.front().onset.position + wait_s * rate) hand_out_first();
  }

  void hand_out_first() {
    const Pending shot = std::move(pending.front());
    pending.pop_front();
    FoundEvent found;
    Event& event = found.event;
    const double whole = std::floor(shot.onset.position);
    event.onset_sample = static_cast<std::int64_t>(whole);
    event.onset_fraction = shot.onset.position - whole;
    event.impact_sample = impact_of(shot);
    event.peak = shot.onset.peak;
    event.edge_db = 10.0 * std::log10(shot.onset.edge_power);
    event.brightness_hz = shot.onset.brightness_hz;
    event.likeness = shot.onset.likeness;
    event.has_quiet_before = shot.onset.has_quiet_before;
    Clip& clip = found.clip;
    clip.sample_rate_hz = rate;
    clip.onset_sample = event.onset_sample;
    clip.onset_fraction = event.onset_fraction;
    clip.impact_sample = event.impact_sample;
    clip.first_sample = std::max<std::int64_t>(ring.begin(), event.onset_sample - std::llround(settings.pre_roll_s * rate));
    clip.samples = ring.copy(clip.first_sample, event.onset_sample + std::llround(settings.post_roll_s * rate));
    if (!pending.empty()) {
      const auto next = static_cast<std::int64_t>(pending.front().onset.position);
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
  std::deque<Pending> pending;
  std::deque<double> lags;  ///< of earlier shots, in samples
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
    float zero = 0.0F;  // stays zero unless a sample is not finite
    for (const float sample : chunk) zero += sample * 0.0F;
    if (zero != 0.0F) {
      part_->cleaned.assign(chunk.begin(), chunk.end());
      for (float& sample : part_->cleaned) sample = std::isfinite(sample) ? sample : 0.0F;
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
