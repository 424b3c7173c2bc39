// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <vector>

#include "audio/sound_file.h"

namespace ringfall::audio {
namespace {

constexpr std::size_t kBlockFrames = 16384;

/// Sums the squared first differences of every channel, block by block.
class DifferenceEnergy {
 public:
  explicit DifferenceEnergy(std::size_t channels) : last_(channels), energy_(channels) {}

  void add(std::span<const float> interleaved) {
    const std::size_t channels = energy_.size();
    for (std::size_t c = 0; c < channels; ++c) {
      float last = started_ ? last_[c] : interleaved[c];
      double sum = 0.0;
      for (std::size_t k = c; k < interleaved.size(); k += channels) {
        const double step = static_cast<double>(interleaved[k]) - static_cast<double>(last);
        sum += step * step;
        last = interleaved[k];
      }
      energy_[c] += sum;
      last_[c] = last;
    }
    started_ = true;
  }

  int loudest() const { return static_cast<int>(std::ranges::max_element(energy_) - energy_.begin()); }

 private:
  bool started_ = false;
  std::vector<float> last_;
  std::vector<double> energy_;
};

}  // namespace

int loudest_channel(const std::string& path, const OpenOptions& options) {
  const auto reader = open_sound(path, options);
  const auto channels = static_cast<std::size_t>(reader->format().channels);
  if (channels == 1) return 0;
  DifferenceEnergy energy(channels);
  std::vector<float> block(kBlockFrames * channels);
  while (const std::size_t frames = reader->read(block)) energy.add(std::span(block).first(frames * channels));
  return energy.loudest();
}

}  // namespace ringfall::audio
