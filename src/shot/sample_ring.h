// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace ringfall::shot {

/// The last `capacity` samples of a stream, addressed by their position in it.
class SampleRing {
 public:
  explicit SampleRing(std::size_t capacity) : samples_(capacity) {}

  void push(std::span<const float> block) {
    if (block.size() > samples_.size()) {
      end_ += static_cast<std::int64_t>(block.size() - samples_.size());
      block = block.last(samples_.size());
    }
    const std::size_t at = place(end_);
    const std::size_t first = std::min(block.size(), samples_.size() - at);
    std::copy_n(block.begin(), first, samples_.begin() + static_cast<std::ptrdiff_t>(at));
    std::copy(block.begin() + static_cast<std::ptrdiff_t>(first), block.end(), samples_.begin());
    end_ += static_cast<std::int64_t>(block.size());
  }

  std::int64_t begin() const { return std::max<std::int64_t>(0, end_ - static_cast<std::int64_t>(samples_.size())); }
  std::int64_t end() const { return end_; }

  /// The samples begin .. end - 1 of the stream, cut to what the ring still holds.
  std::vector<float> copy(std::int64_t from, std::int64_t to) const {
    from = std::clamp(from, begin(), end_);
    to = std::clamp(to, from, end_);
    const auto count = static_cast<std::size_t>(to - from);
    const std::size_t at = place(from);
    const std::size_t first = std::min(count, samples_.size() - at);
    std::vector<float> out(count);
    std::copy_n(samples_.begin() + static_cast<std::ptrdiff_t>(at), first, out.begin());
    std::copy_n(samples_.begin(), count - first, out.begin() + static_cast<std::ptrdiff_t>(first));
    return out;
  }

 private:
  std::size_t place(std::int64_t position) const {
    return static_cast<std::size_t>(position) % samples_.size();
  }
  std::vector<float> samples_;
  std::int64_t end_ = 0;
};

}  // namespace ringfall::shot
