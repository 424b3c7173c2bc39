// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>

namespace ringfall::audio {

/// What a running source of sound says of itself.
struct SourceInfo {
  std::string name;             ///< for people: the device's or the file's name
  double sample_rate_hz = 0.0;  ///< 8000 .. 192000
};

enum class SourcePulse {
  alive,
  stalled,  ///< nothing has come for more than 0.5 s, but it may come back
  lost,     ///< the device is gone, or nothing has come for more than 1.2 s: close it and open it again
  ended     ///< a file-fed source has given all it has
};

/// What has gone wrong with a source since it was opened, and whether it still lives.
struct SourceHealth {
  SourcePulse pulse = SourcePulse::alive;
  std::int64_t overruns = 0;     ///< times the program was too slow to take the sound away
  std::int64_t lost_frames = 0;  ///< frames lost by that; read() gives zeros in their place
  std::int64_t glitches = 0;     ///< times the sound system said that it lost sound, of unknown length
  double missing_s = 0.0;        ///< sound that never came, by the clock, though nobody said so
  std::optional<double> clock_rate_hz;  ///< frames a second by the computer's clock, after ten seconds, to some 0.5 %
};

/// A running source of mono sound: a microphone, or a file played as if it were one. One thread reads it.
class SoundSource {
 public:
  virtual ~SoundSource() = default;
  virtual const SourceInfo& info() const = 0;
  /// Takes what has come, without waiting; returns how many samples that was.
  virtual std::size_t read(std::span<float> mono) = 0;
  virtual SourceHealth health() = 0;
};

/// Opens the source, and opens it again after a loss. DeviceFailure: it is not there (now), or can't be used.
/// RequestFailure: there can be no such source.
using OpenSource = std::function<std::unique_ptr<SoundSource>()>;

}  // namespace ringfall::audio
