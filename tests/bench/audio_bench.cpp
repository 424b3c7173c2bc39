// SPDX-License-Identifier: GPL-3.0-or-later
// Cost of decoding ten minutes of 48 kHz mono 24-bit noise from a warm cache: through SoundReader with blocks of
// several sizes, and libsndfile alone beside it.
#include <benchmark/benchmark.h>
#include <sndfile.h>


#include "audio/sound_file.h"
#include "audio/sound_writer.h"
#include "support/test_folder.h"

namespace ringfall::audio {
namespace {

constexpr std::size_t kSeconds = 600;

/// The file all cases read: made once, removed at the end.
class NoiseFile {
 public:
  NoiseFile() : path_(folder_.path("noise.wav")) {
    SoundWriter writer(path_, 48000.0, 1, SampleCoding::wav_24_bit);
    std::vector<float> second(48000);
    unsigned state = 1;
    for (std::size_t k = 0; k < kSeconds; ++k) {
      for (float& x : second) x = static_cast<float>((state = state * 1664525U + 1013904223U) >> 8U) / 16777216.0F - 0.5F;
      writer.write(second);
    }
    writer.close();
  }
  const std::string& path() const { return path_; }

 private:
  const TestFolder folder_;
  std::string path_;
};

const std::string& noise_file() {
  static const NoiseFile file;
  return file.path();
}

void through_sound_reader(benchmark::State& state) {
  std::vector<float> block(static_cast<std::size_t>(state.range(0)));
  const std::string& path = noise_file();
  for (auto _ : state) {
    const auto reader = open_sound(path);
    while (reader->read(block) > 0) benchmark::DoNotOptimize(block.data());
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(kSeconds) * 48000);
}
BENCHMARK(through_sound_reader)->RangeMultiplier(4)->Range(1024, 262144)->Unit(benchmark::kMillisecond);

void libsndfile_alone(benchmark::State& state) {
  std::vector<float> block(static_cast<std::size_t>(state.range(0)));
  const std::string& path = noise_file();
  for (auto _ : state) {
    SF_INFO info{};
    SNDFILE* file = sf_open(path.c_str(), SFM_READ, &info);
    while (sf_readf_float(file, block.data(), static_cast<sf_count_t>(block.size())) > 0) benchmark::DoNotOptimize(block.data());
    sf_close(file);
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(kSeconds) * 48000);
}
BENCHMARK(libsndfile_alone)->RangeMultiplier(4)->Range(1024, 262144)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace ringfall::audio
