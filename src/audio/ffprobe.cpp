// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/ffprobe.h"

#include <array>
#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>
#include <span>
#include <string_view>

#include "audio/child_process.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

using nlohmann::json;
constexpr std::size_t kMostAnswerBytes = 1U << 20U;
constexpr double kWaitForProbe_s = 5.0;

// Names of ffmpeg's own readers.
constexpr const char* kContainers =
    "mov,mp4,m4a,3gp,3g2,mj2,matroska,webm,amr,amrnb,amrwb,aac,avi,asf,flv,mpeg,wav,w64,caf,ogg,aiff,mp3,flac,au";

// ffprobe writes some numbers as text, and "N/A" for none.
std::optional<double> number_of(const json& object, const char* key) {
  const auto found = object.find(key);
  if (found == object.end()) return std::nullopt;
  double value = 0.0;
  if (found->is_number()) {
    value = found->get<double>();
  } else if (found->is_string()) {
    const auto& text = found->get_ref<const std::string&>();
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  } else {
    return std::nullopt;
  }
  return std::isfinite(value) ? std::optional(value) : std::nullopt;
}

// "00:01:02.345000000", as Matroska keeps a track's length.
std::optional<double> clock_seconds(std::string_view text) {
  double total = 0.0;
  while (true) {
    const std::string_view part = text.substr(0, text.find(':'));
    double value = 0.0;
    const auto [end, error] = std::from_chars(part.data(), part.data() + part.size(), value);
    if (error != std::errc() || end != part.data() + part.size()) return std::nullopt;
    total = total * 60.0 + value;
    if (part.size() == text.size()) return std::isfinite(total) ? std::optional(total) : std::nullopt;
    text.remove_prefix(part.size() + 1);
  }
}

std::optional<double> track_duration(const json& stream) {
  if (const auto seconds = number_of(stream, "duration"); seconds && *seconds > 0.0) return seconds;
  const auto tags = stream.find("tags");
  if (tags == stream.end() || !tags->is_object()) return std::nullopt;
  const auto tag = tags->find("DURATION");
  if (tag == tags->end() || !tag->is_string()) return std::nullopt;
  const auto seconds = clock_seconds(tag->get_ref<const std::string&>());
  return seconds && *seconds > 0.0 ? seconds : std::nullopt;
}

}  // namespace

std::vector<std::string> input_arguments(const std::string& path) {
  return {"-v", "error", "-protocol_whitelist", "file", "-format_whitelist", kContainers, "-i", "file:" + path};
}

std::optional<AudioTrack> parse_probe(const std::string& json_text) {
  const json answer = json::parse(json_text, nullptr, false);
  if (!answer.is_object()) return std::nullopt;
  const auto streams = answer.find("streams");
  if (streams == answer.end() || !streams->is_array() || streams->empty() || !streams->front().is_object()) return std::nullopt;
  const json& stream = streams->front();
  const auto rate_hz = number_of(stream, "sample_rate");
  const auto channels = number_of(stream, "channels");
  const auto name = stream.find("codec_name");
  if (!rate_hz || *rate_hz <= 0.0 || !channels || *channels < 1.0 || *channels > 1024.0) return std::nullopt;
  if (name == stream.end() || !name->is_string()) return std::nullopt;
  const double raw_bits = number_of(stream, "bits_per_raw_sample").value_or(0.0);
  const double bits = raw_bits > 0.0 ? raw_bits : number_of(stream, "bits_per_sample").value_or(0.0);
  AudioTrack track;
  track.codec = ffprobe_codec(name->get<std::string>(), bits > 0.0 && bits <= 64.0 ? static_cast<int>(bits) : 0);
  track.sample_rate_hz = *rate_hz;
  track.channels = static_cast<int>(*channels);
  track.duration_s = track_duration(stream);
  return track;
}

std::string first_complaint(const std::string& complaints, const std::string& path) {
  std::string line = complaints.substr(0, complaints.find('\n'));
  // "[mov,mp4 @ 0x55...] text" and "file:NAME: text": what is before the text differs from run to run or is said already.
  if (line.starts_with('[')) {
    if (const auto end = line.find("] "); end != std::string::npos) line.erase(0, end + 2);
  }
  const std::string name = "file:" + path + ": ";
  if (line.starts_with(name)) line.erase(0, name.size());
  return line;
}

AudioTrack probe_audio(const std::string& ffprobe, const std::string& path, double limit_s) {
  std::vector<std::string> arguments = input_arguments(path);
  for (const char* word : {"-select_streams", "a:0", "-show_entries",
                           "stream=codec_name,sample_rate,channels,duration,bits_per_sample,bits_per_raw_sample:"
                           "stream_tags=DURATION",
                           "-of", "json"}) {
    arguments.emplace_back(word);
  }
  ChildProcess child(ffprobe, arguments);
  std::string answer;
  std::array<std::byte, 4096> block{};
  while (answer.size() < kMostAnswerBytes) {
    const auto got = child.read(block, limit_s);
    if (!got) throw FileFailure(path + ": ffprobe gave no answer in time; copy the file to a local disk or save it as WAV.");
    if (*got == 0) break;
    for (const std::byte byte : std::span(block).first(*got)) answer.push_back(static_cast<char>(byte));
  }
  const auto status = child.wait(kWaitForProbe_s);
  if (status != 0) {
    const std::string complaint = first_complaint(child.complaints(), path);
    if (complaint.find("moov atom not found") != std::string::npos) {
      throw FileFailure(path + ": was never finished: its index, written last, is missing. Copy it again; if the original is the "
                               "same, the recording is lost to ordinary tools.");
    }
    throw FileFailure(path + ": can't be read (ffprobe says: " + complaint + "); copy it again or export it as WAV.");
  }
  const auto track = parse_probe(answer);
  if (!track) throw FileFailure(path + ": has no audio track; choose the recording that has the sound.");
  return *track;
}

}  // namespace ringfall::audio
