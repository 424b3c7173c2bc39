// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <span>
#include <string>

namespace ringfall::audio {

/// How a written file stores its samples. Integers are clipped at full scale, floats keep what is above.
enum class SampleCoding { wav_16_bit, wav_24_bit, wav_float, flac_24_bit };

/// Writes a sound file in blocks. The file appears under its name, whole, when close() returns; until then, and for good after a
/// failure, there is only a file of another name beside it, which is removed.
class SoundWriter {
 public:
  /// Replaces an existing file. sample_rate_hz: whole. FileFailure: no such folder, not allowed, a rate or channels the format
  /// does not have.
  SoundWriter(const std::string& path, double sample_rate_hz, int channels, SampleCoding coding);
  ~SoundWriter();
  SoundWriter(const SoundWriter&) = delete;
  SoundWriter& operator=(const SoundWriter&) = delete;

  /// Interleaved frames. FileFailure: the disk is full, or the file would exceed the 4 GB a WAV can hold.
  void write(std::span<const float> interleaved);
  /// Finishes the file and gives it its name. FileFailure as write.
  void close();

 private:
  struct File;
  std::unique_ptr<File> file_;
};

/// A mono WAV in one go. `coding`: one of the WAV kinds. Fails as SoundWriter. Tested: audio.SoundWriter.*
void write_wav(const std::string& path, std::span<const float> samples, double sample_rate_hz,
               SampleCoding coding = SampleCoding::wav_float);

}  // namespace ringfall::audio
