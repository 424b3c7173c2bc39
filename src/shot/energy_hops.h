// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace ringfall::shot {

/// The finder listens to x(t) - x(t - 1/24000 s): rumble and offset hardly show in it, the loud edge does, and above
/// 32 kHz sound it hears the same band at every sample rate. This many samples, >= 1.
std::size_t difference_lag(double sample_rate_hz);

/// The difference of samples[n] and the one `lag` before, same length; the first `lag` values are 0.
std::vector<float> lagged_difference(std::span<const float> samples, std::size_t lag);

/// Short-time energy of a stream's lagged difference in hops of about 1 ms. The cheap first stage of the finder: one pass, no
/// branch a sample, 0.3 ns a sample (docs/measures/shots.md).
class EnergyHops {
 public:
  /// Keeps at least the last `hops_kept` hops.
  EnergyHops(double sample_rate_hz, std::size_t hops_kept);

  /// Takes any number of samples, all finite. The hops do not depend on the blocks.
  void push(std::span<const float> samples);

  std::size_t hop_samples() const { return hop_; }
  std::int64_t count() const { return count_; }  ///< hops completed so far
  std::int64_t oldest() const;                   ///< of those still kept
  /// Mean square of the difference in hop k, oldest() <= k < count().
  double at(std::int64_t k) const { return static_cast<double>(kept_[place(k)]); }
  /// Mean over hops begin .. end - 1, cut to what is kept; 0 when nothing is.
  double mean(std::int64_t begin, std::int64_t end) const;
  /// The lowest mean of `length` successive hops within begin .. end - 1, cut to what is kept; 0 when nothing is.
  double lowest_mean(std::int64_t begin, std::int64_t end, std::int64_t length) const;

 private:
  void add(const float* hop);  ///< the next hop_ samples; the lag_ samples before them are there
  std::size_t place(std::int64_t k) const { return static_cast<std::size_t>(k) & mask_; }
  std::size_t lag_;
  std::size_t hop_;
  std::vector<float> work_;  // `lag_` samples of history, then what no hop has taken yet
  std::size_t mask_;
  std::vector<float> kept_;
  std::int64_t count_ = 0;
};

}  // namespace ringfall::shot
