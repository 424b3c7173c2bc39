// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <atomic>
#include <bit>
#include <cstddef>
#include <span>
#include <vector>

namespace ringfall::audio {

/// A queue between one writing and one reading thread without locks: neither ever waits for the other, and after the
/// constructor nothing is allocated, so an audio callback may be either end. Item: trivially copyable.
/// Tested: audio.SpscRing.*, also under the thread sanitizer.
template <typename Item>
class SpscRing {
 public:
  /// Holds at least `least` items (the next power of two).
  explicit SpscRing(std::size_t least) : items_(std::bit_ceil(std::max<std::size_t>(least, 2))), mask_(items_.size() - 1) {}

  std::size_t capacity() const { return items_.size(); }
  /// Writer only: how many items push() would take now.
  std::size_t space() const {
    return items_.size() - (written_.load(std::memory_order_relaxed) - read_.load(std::memory_order_acquire));
  }
  /// Writer only: appends what fits, returns how much that was.
  std::size_t push(std::span<const Item> items) {
    const std::size_t at = written_.load(std::memory_order_relaxed);
    const std::size_t count = std::min(items.size(), space());
    for (std::size_t k = 0; k < count; ++k) items_[(at + k) & mask_] = items[k];
    written_.store(at + count, std::memory_order_release);
    return count;
  }
  /// Reader only: how many items pop() would give now.
  std::size_t filled() const {
    return written_.load(std::memory_order_acquire) - read_.load(std::memory_order_relaxed);
  }
  /// Reader only: the oldest item, when filled() > 0.
  const Item& front() const { return items_[read_.load(std::memory_order_relaxed) & mask_]; }
  /// Reader only: takes the oldest items, as many as there are and fit.
  std::size_t pop(std::span<Item> items) {
    const std::size_t at = read_.load(std::memory_order_relaxed);
    const std::size_t count = std::min(items.size(), filled());
    for (std::size_t k = 0; k < count; ++k) items[k] = items_[(at + k) & mask_];
    read_.store(at + count, std::memory_order_release);
    return count;
  }

 private:
  static constexpr std::size_t kCacheLine = 64;  // the two ends must not share one
  std::vector<Item> items_;
  std::size_t mask_;
  alignas(kCacheLine) std::atomic<std::size_t> written_ = 0;
  alignas(kCacheLine) std::atomic<std::size_t> read_ = 0;
};

}  // namespace ringfall::audio
