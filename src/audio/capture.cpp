// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/capture.h"

#include <algorithm>
#include <array>

namespace ringfall::audio {
namespace {

constexpr std::size_t kGapsKept = 256;  // at once; beyond that losses run together into one

}  // namespace

Capture::Capture(double sample_rate_hz, double seconds)
    : samples_(static_cast<std::size_t>(sample_rate_hz * seconds)), gaps_(kGapsKept) {}

bool Capture::take(const float* interleaved, std::size_t frames, int channels, int channel, bool glitch,
                   Clock::time_point now) noexcept {
  last_heard_.store(now.time_since_epoch().count(), std::memory_order_relaxed);
  const auto count = static_cast<std::int64_t>(frames);
  frames_.fetch_add(count, std::memory_order_relaxed);
  if (glitch) glitches_.fetch_add(1, std::memory_order_relaxed);
  if (!has_room(frames)) {
    losing_ += count;
    return false;
  }
  if (losing_ > 0) {
    // Before the samples that follow it: who sees those sees the gap.
    const Gap gap{pushed_, losing_};
    gaps_.push({&gap, 1});
    losing_ = 0;
  }
  std::array<float, 256> chunk{};
  for (std::size_t done = 0; done < frames;) {
    const std::size_t part = std::min(chunk.size(), frames - done);
    for (std::size_t k = 0; k < part && interleaved != nullptr; ++k) {
      chunk[k] = interleaved[(done + k) * static_cast<std::size_t>(channels) + static_cast<std::size_t>(channel)];
    }
    samples_.push(std::span(chunk).first(part));
    done += part;
  }
  pushed_ += count;
  return true;
}

std::size_t Capture::read(std::span<float> mono) {
  std::size_t done = 0;
  while (done < mono.size()) {
    if (zeros_due_ > 0) {
      const auto part = static_cast<std::size_t>(std::min<std::int64_t>(zeros_due_, static_cast<std::int64_t>(mono.size() - done)));
      std::fill_n(mono.begin() + static_cast<std::ptrdiff_t>(done), part, 0.0F);
      zeros_due_ -= static_cast<std::int64_t>(part);
      zeros_given_ += static_cast<std::int64_t>(part);
      done += part;
      continue;
    }
    std::size_t ready = std::min(samples_.filled(), mono.size() - done);
    if (ready == 0) break;
    if (gaps_.filled() > 0) {
      const Gap next = gaps_.front();
      if (next.at == popped_) {
        zeros_due_ = next.frames;
        ++overruns_;
        Gap taken;
        gaps_.pop({&taken, 1});
        continue;
      }
      ready = std::min(ready, static_cast<std::size_t>(next.at - popped_));
    }
    const std::size_t got = samples_.pop(mono.subspan(done, ready));
    popped_ += static_cast<std::int64_t>(got);
    done += got;
  }
  return done;
}

}  // namespace ringfall::audio
