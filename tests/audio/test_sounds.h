// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "audio/sound_file.h"
#include "support/test_folder.h"

namespace ringfall::audio {

/// Everything a reader gives, in blocks of `block_frames`.
struct WholeSound {
  SoundFormat format;
  std::vector<float> samples;  ///< interleaved
  std::vector<Finding> findings;
  std::size_t frames() const { return samples.size() / static_cast<std::size_t>(format.channels); }
};
WholeSound read_whole(const std::string& path, std::size_t block_frames = 4096, const OpenOptions& options = {});

/// A quiet 1 kHz sine (amplitude 0.1) with one sample of 0.9 at `impulse_at`; channel c is 1 / (c + 1) of it.
std::vector<float> sine_with_impulse(double rate_hz, std::size_t frames, std::size_t impulse_at, int channels = 1);

/// Writes through libsndfile itself, with any of its format numbers; doubles, clipped at full scale.
void write_by_sndfile(const std::string& path, int format, int rate_hz, int channels, const std::vector<float>& samples);

/// Index of the frame with the largest |sample| of channel 0.
std::size_t loudest_frame(const WholeSound& sound);

std::string file_bytes(const std::string& path);
void write_bytes(const std::string& path, const std::string& bytes);

/// Runs a program of the PATH with these words; true when it ended with 0. False when there is none.
bool run(const std::string& program, const std::vector<std::string>& words);

/// The message of the FileFailure that `act` throws; "" when none does.
std::string failure_of(const std::function<void()>& act);

}  // namespace ringfall::audio
