// SPDX-License-Identifier: GPL-3.0-or-later
// A few thousand damaged files, the same ones every time: none may crash, hang, or take memory by the header's word.
#include <gtest/gtest.h>
#include <sndfile.h>
#include <sys/resource.h>

#include <random>

#include "audio/test_sounds.h"

namespace ringfall::audio {
namespace {

constexpr std::size_t kFrames = 6000;
constexpr int kMutationsEach = 300;
// No damage to some kB of file makes this many samples out of it.
constexpr std::size_t kMostSamples = std::size_t{1} << 24;
constexpr long kMostGrowth_kB = 300000;

const int kFormats[] = {SF_FORMAT_WAV | SF_FORMAT_PCM_24,     SF_FORMAT_WAVEX | SF_FORMAT_FLOAT, SF_FORMAT_WAV | SF_FORMAT_MS_ADPCM,
                        SF_FORMAT_RF64 | SF_FORMAT_PCM_24,    SF_FORMAT_W64 | SF_FORMAT_PCM_16,  SF_FORMAT_AIFF | SF_FORMAT_PCM_24,
                        SF_FORMAT_CAF | SF_FORMAT_ALAC_16,    SF_FORMAT_AU | SF_FORMAT_PCM_16,   SF_FORMAT_FLAC | SF_FORMAT_PCM_24,
                        SF_FORMAT_OGG | SF_FORMAT_VORBIS,     SF_FORMAT_OGG | SF_FORMAT_OPUS,
                        SF_FORMAT_MPEG | SF_FORMAT_MPEG_LAYER_III};

/// One to eight bytes changed, most of them in the header; sometimes cut or with a piece twice.
std::string mutated(std::string bytes, std::mt19937& random) {
  const auto below = [&random](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  const std::size_t header = std::min<std::size_t>(bytes.size(), 128);
  for (std::size_t k = 0, count = 1 + below(8); k < count; ++k) {
    const std::size_t at = below(4) == 0 ? below(bytes.size()) : below(header);
    constexpr char kNasty[] = {'\0', '\x01', '\x7F', '\x80', '\xFF'};
    bytes[at] = below(2) == 0 ? kNasty[below(5)] : static_cast<char>(random());
  }
  if (below(8) == 0) bytes.resize(1 + below(bytes.size()));
  if (below(8) == 0) bytes.insert(below(bytes.size()), bytes.substr(0, below(bytes.size())));
  return bytes;
}

long peak_memory_kb() {
  rusage usage{};
  ::getrusage(RUSAGE_SELF, &usage);
  return usage.ru_maxrss;
}

TEST(MutatedFiles, AreReadOrRefused) {
  const TestFolder folder;
  const std::string path = folder.path("mutated");
  std::mt19937 random(20261125);
  [[maybe_unused]] const long before_kb = peak_memory_kb();
  int read = 0;
  int refused = 0;
  for (const int format : kFormats) {
    write_by_sndfile(path, format, 48000, 1, sine_with_impulse(48000.0, kFrames, 3000));
    const std::string good = file_bytes(path);
    for (int k = 0; k < kMutationsEach; ++k) {
      write_bytes(path, mutated(good, random));
      const std::string message = failure_of([&] {
        const auto reader = open_sound(path, {"/nowhere", 1.0});
        std::vector<float> block(static_cast<std::size_t>(reader->format().channels) * 500);
        std::size_t samples = 0;
        while (const std::size_t frames = reader->read(block)) {
          samples += frames * static_cast<std::size_t>(reader->format().channels);
          ASSERT_LT(samples, kMostSamples) << std::hex << format << " mutation " << std::dec << k;
        }
        reader->findings();
      });
      ++(message.empty() ? read : refused);
    }
  }
  // Both happen often, or the mutations are not worth their name.
  EXPECT_GT(read, 500);
  EXPECT_GT(refused, 500);
#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
  EXPECT_LT(peak_memory_kb() - before_kb, kMostGrowth_kB);
#endif
}

}  // namespace
}  // namespace ringfall::audio
