// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/test_sounds.h"

#include <sndfile.h>
#include <stdlib.h>

#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <numbers>
#include <stdexcept>

#include "audio/child_process.h"
#include "audio/find_program.h"
#include "base/failure.h"

// libsndfile 1.2.0 loses a block of libvorbis when an Ogg file turns out broken on opening; the leak checker must not blame us.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() { return "leak:vorbis_info_init\n"; }

namespace ringfall::audio {

WholeSound read_whole(const std::string& path, std::size_t block_frames, const OpenOptions& options) {
  const auto reader = open_sound(path, options);
  WholeSound sound;
  sound.format = reader->format();
  const auto channels = static_cast<std::size_t>(sound.format.channels);
  std::vector<float> block(block_frames * channels);
  while (const std::size_t frames = reader->read(block)) {
    sound.samples.insert(sound.samples.end(), block.begin(), block.begin() + static_cast<std::ptrdiff_t>(frames * channels));
  }
  sound.findings = reader->findings();
  return sound;
}

std::vector<float> sine_with_impulse(double rate_hz, std::size_t frames, std::size_t impulse_at, int channels) {
  std::vector<float> samples;
  samples.reserve(frames * static_cast<std::size_t>(channels));
  for (std::size_t k = 0; k < frames; ++k) {
    const double sine = 0.1 * std::sin(2.0 * std::numbers::pi * 1000.0 * static_cast<double>(k) / rate_hz);
    const double value = k == impulse_at ? 0.9 : sine;
    for (int c = 0; c < channels; ++c) samples.push_back(static_cast<float>(value / (c + 1)));
  }
  return samples;
}

void write_by_sndfile(const std::string& path, int format, int rate_hz, int channels, const std::vector<float>& samples) {
  SF_INFO info{};
  info.samplerate = rate_hz;
  info.channels = channels;
  info.format = format;
  SNDFILE* file = sf_open(path.c_str(), SFM_WRITE, &info);
  if (file == nullptr) throw std::runtime_error(path + ": " + sf_strerror(nullptr));
  sf_command(file, SFC_SET_CLIPPING, nullptr, SF_TRUE);
  const auto wanted = static_cast<sf_count_t>(samples.size());
  const bool whole = sf_write_float(file, samples.data(), wanted) == wanted;
  sf_close(file);
  if (!whole) throw std::runtime_error(path + ": not written");
}

std::size_t loudest_frame(const WholeSound& sound) {
  const auto channels = static_cast<std::size_t>(sound.format.channels);
  std::size_t best = 0;
  for (std::size_t k = 0; k < sound.frames(); ++k) {
    if (std::abs(sound.samples[k * channels]) > std::abs(sound.samples[best * channels])) best = k;
  }
  return best;
}

std::string file_bytes(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error("can't read " + path);
  return {std::istreambuf_iterator<char>(in), {}};
}

void write_bytes(const std::string& path, const std::string& bytes) {
  std::ofstream out(path, std::ios::binary);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (!out) throw std::runtime_error("can't write " + path);
}

bool run(const std::string& program, const std::vector<std::string>& words) {
  const auto full = find_program(program, environment_path());
  if (!full) return false;
  ChildProcess child(*full, words);
  std::array<std::byte, 4096> block{};
  while (child.read(block, 60.0).value_or(0) > 0) {
  }
  return child.wait(60.0) == 0;
}

std::string failure_of(const std::function<void()>& act) {
  try {
    act();
  } catch (const FileFailure& failure) {
    return failure.what();
  }
  return {};
}

}  // namespace ringfall::audio
