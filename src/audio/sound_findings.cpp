// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/sound_findings.h"

#include <fmt/format.h>

#include "base/text.h"

namespace ringfall::audio {
namespace {

using enum Quantity;
const auto kAllNumbers = {levels, loudness, ring_down, tones, hum, ping, buzz};

}  // namespace

Finding truncated_finding(double read_s, std::optional<double> stated_s) {
  const std::string seconds = fmt::format("{:.2f} s", read_s);
  if (!stated_s) {
    return {"truncated", Severity::caution, {},
            fmt::format("The file was never closed: its header gives no length, as when a recorder loses power. The {} "
                        "found were read; the last moments may be missing.",
                        seconds)};
  }
  return {"truncated", Severity::caution, {},
          fmt::format("The file stops early: its header states {:.2f} s, {} of sound are there. Shots after that are "
                      "missing; copy the file again if the original is longer.",
                      *stated_s, seconds)};
}

Finding lossy_finding(const std::string& codec, bool speech_codec) {
  if (speech_codec) {
    return {"lossy_codec", Severity::caution, kAllNumbers,
            fmt::format("The sound is stored as {}, a codec made for speech: it drops what is not speech, above about 4 "
                        "to 8 kHz everything. No number of a shot is safe; record again as WAV.",
                        codec)};
  }
  return {"lossy_codec", Severity::note, {},
          fmt::format("The sound is stored as {}, a lossy codec: above 12 to 20 kHz it may be cut off, and a little "
                      "energy may sit up to 23 ms before a shot. From 128 kb/s on the effect is small, but small "
                      "differences should be judged from WAV.",
                      codec)};
}

Finding bad_samples_finding(std::int64_t count, double first_s) {
  return {"bad_samples", Severity::caution, kAllNumbers,
          fmt::format("{} sample{} no number (NaN or infinite), the first at {}; read as 0. Shots there are doubtful; "
                      "export the recording again.",
                      count, count == 1 ? " is" : "s are", clock_text(first_s))};
}

Finding decoder_finding(const std::string& first_complaint) {
  return {"decoder_complaint", Severity::caution, kAllNumbers,
          fmt::format("The file is damaged and was read as far as possible (the decoder says: {}). Pieces may be missing, "
                      "and times after the damage may be off; copy the file again.",
                      first_complaint)};
}

}  // namespace ringfall::audio
