// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace ringfall::shot {

/// Short-time energy of a stream in hops of about 1 ms, of the samples' first difference: rumble and offset hardly
/// show in it, the loud edge does. The cheap first stage of the finder: one pass, no branch a sample.
class EnergyHops {
 public:
  EnergyHops(double sample_rate_hz, std::size_t hops_kept);

  /// Takes any number of samples.
  void push(std::span<const float> samples);

  std::size_t hop_samples() const { return hop_; }
  std::int64_t count() const { return count_; }  ///< hops completed so far
  std::int64_t oldest() const;                   ///< of those still kept
  /// Mean square of the first difference in hop k, oldest() <= k < count().
  double at(std::int64_t k) const { return static_cast<double>(kept_[place(k)]); }
  /// Mean over hops begin .. end - 1, cut to what is kept; 0 when nothing is.
  double mean(std::int64_t begin, std::int64_t end) const;

 private:
  std::size_t place(std::int64_t k) const { return static_cast<std::size_t>(k) % kept_.size(); }
  void finish_hop(std::span<const float> hop);
  std::size_t hop_;
  std::vector<float> partial_;  // the hop under way
  std::vector<float> kept_;
  std::int64_t count_ = 0;
  float previous_ = 0.0F;
  bool started_ = false;
  std::size_t filled_ = 0;
};

}  // namespace ringfall::shot
