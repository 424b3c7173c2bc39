// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace ringfall::audio {

/// A way of storing samples, in words.
struct Codec {
  std::string name;        ///< "24-bit PCM", "AAC"
  bool lossy = false;
  bool speech = false;     ///< made for speech at a low rate: telephony, radio, headsets
  bool integer = false;    ///< integers of `bits`
  int bits = 0;            ///< of stored integers or floats, 0 when lossy
};

/// Of libsndfile's format number: its codec and its container ("WAV", "AIFF").
Codec sndfile_codec(int format);
std::string sndfile_container(int format);

/// Of ffprobe's codec_name, with the bits it gives (0: not known).
Codec ffprobe_codec(const std::string& codec_name, int bits);

}  // namespace ringfall::audio
