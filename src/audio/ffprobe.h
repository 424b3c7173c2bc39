// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "audio/codec_names.h"

namespace ringfall::audio {

/// The first audio track of a file, as ffprobe describes it.
struct AudioTrack {
  Codec codec;
  double sample_rate_hz = 0.0;
  int channels = 0;
  std::optional<double> duration_s;  ///< of this track; nullopt when the container does not say
};

/// The options before `-i` that both ffmpeg and ffprobe get: quiet, local files only, containers of sound and video only (so that
/// no playlist or script makes them open other files or hosts), and the file itself, whatever its name looks like.
std::vector<std::string> input_arguments(const std::string& path);

/// Asks `ffprobe` (full name). FileFailure: no audio track, damaged, no answer within `limit_s`.
AudioTrack probe_audio(const std::string& ffprobe, const std::string& path, double limit_s);

/// Takes ffprobe's JSON apart; nullopt when it names no usable audio track.
std::optional<AudioTrack> parse_probe(const std::string& json_text);

/// "file: can't be read ..." with the first line of what the tool complained of.
std::string first_complaint(const std::string& complaints, const std::string& path);

}  // namespace ringfall::audio
