// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/ffmpeg_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstring>

#include "audio/child_process.h"
#include "audio/ffprobe.h"
#include "audio/find_program.h"
#include "audio/finite_samples.h"
#include "audio/sndfile_reader.h"
#include "audio/sound_findings.h"
#include "base/check.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

static_assert(std::endian::native == std::endian::little, "ffmpeg is asked for little-endian floats");

// Codecs fill their last frame up with silence (AAC: 1024 or 2048 samples); more sound than this beyond the stated length
// means that the statement is wrong.
constexpr std::size_t kMostPaddingFrames = 4096;
// Less sound than stated by more than this: the file was cut.
constexpr double kLengthSlack_s = 0.1;
constexpr double kWaitForEnd_s = 10.0;

std::vector<std::string> decode_arguments(const std::string& path, const AudioTrack& track) {
  std::vector<std::string> arguments{"-nostdin"};
  const auto input = input_arguments(path);
  arguments.insert(arguments.end(), input.begin(), input.end());
  for (const std::string& word : {std::string("-map"), std::string("0:a:0"), std::string("-ac"), std::to_string(track.channels),
                                  std::string("-ar"), fmt::format("{:.0f}", track.sample_rate_hz), std::string("-f"),
                                  std::string("f32le"), std::string("pipe:1")}) {
    arguments.push_back(word);
  }
  return arguments;
}

class FfmpegReader final : public SoundReader {
 public:
  FfmpegReader(const std::string& ffmpeg, std::string path, const std::string& container, const AudioTrack& track,
               double stall_limit_s)
      : path_(std::move(path)), track_(track), stall_limit_s_(stall_limit_s), child_(ffmpeg, decode_arguments(path_, track)) {
    format_.description = container + ", " + track.codec.name;
    format_.sample_rate_hz = track.sample_rate_hz;
    format_.channels = track.channels;
    if (track.duration_s) format_.frames = std::llround(*track.duration_s * track.sample_rate_hz);
    format_.lossy = track.codec.lossy;
    format_.integer_samples = track.codec.integer;
    format_.bits = track.codec.bits;
    // The first block now, so that a file without sound fails when it is opened.
    if (fill(1) == 0) throw FileFailure(path_ + ": holds no sound" + said() + "; copy it again or export it as WAV.");
  }

  const SoundFormat& format() const override { return format_; }

  std::size_t read(std::span<float> interleaved) override {
    const auto channels = static_cast<std::size_t>(format_.channels);
    check(interleaved.size() % channels == 0 && !interleaved.empty(), "a block holds whole frames, at least one");
    const std::size_t frames = std::min(deliverable(interleaved.size() / channels), interleaved.size() / channels);
    const auto block = interleaved.first(frames * channels);
    if (!block.empty()) std::memcpy(block.data(), pending_.data(), block.size_bytes());
    pending_.erase(pending_.begin(), pending_.begin() + static_cast<std::ptrdiff_t>(block.size_bytes()));
    frames_read_ += static_cast<std::int64_t>(frames);
    finite_.mend(block, format_.channels);
    return frames;
  }

  std::vector<Finding> findings() const override {
    std::vector<Finding> found;
    const double rate = format_.sample_rate_hz;
    if (track_.codec.lossy) found.push_back(lossy_finding(track_.codec.name, track_.codec.speech));
    const double read_s = static_cast<double>(frames_read_) / rate;
    if (ended_ && track_.duration_s && read_s < *track_.duration_s - kLengthSlack_s && pending_.empty()) {
      found.push_back(truncated_finding(read_s, track_.duration_s));
    }
    if (!child_.complaints().empty()) {
      found.push_back(decoder_finding(first_complaint(child_.complaints(), path_)));
    } else if (ended_ && exit_status_ != 0) {
      found.push_back(decoder_finding("it ended early"));
    }
    if (const auto finding = finite_.finding(rate)) found.push_back(*finding);
    return found;
  }

 private:
  // Makes sure that `frames` are pending if the decoder still has as many; returns how many are.
  std::size_t fill(std::size_t frames) {
    const std::size_t frame_bytes = sizeof(float) * static_cast<std::size_t>(format_.channels);
    while (!ended_ && pending_.size() < frames * frame_bytes) {
      const std::size_t before = pending_.size();
      pending_.resize(std::max(frames * frame_bytes, before + kChunkBytes));
      const auto got = child_.read(std::span(pending_).subspan(before), stall_limit_s_);
      pending_.resize(before + got.value_or(0));
      if (!got) throw FileFailure(fmt::format("{}: ffmpeg gave no sound for {:.0f} s and was stopped{}; export it as WAV.", path_,
                                              stall_limit_s_, said()));
      if (*got == 0) {
        ended_ = true;
        exit_status_ = child_.wait(kWaitForEnd_s);
      }
    }
    return pending_.size() / frame_bytes;
  }

  // How many of the pending frames are sound, not padding after the stated end.
  std::size_t deliverable(std::size_t wanted) {
    if (!format_.frames || padding_judged_ || frames_read_ + static_cast<std::int64_t>(wanted) <= *format_.frames) {
      return fill(wanted);
    }
    const auto left = static_cast<std::size_t>(std::max<std::int64_t>(0, *format_.frames - frames_read_));
    const std::size_t pending = fill(left + kMostPaddingFrames + 1);
    if (pending <= left) return pending;
    padding_judged_ = true;
    if (pending - left > kMostPaddingFrames) return pending;
    pending_.resize(left * sizeof(float) * static_cast<std::size_t>(format_.channels));
    return left;
  }

  std::string said() const {
    const std::string complaint = first_complaint(child_.complaints(), path_);
    return complaint.empty() ? std::string() : " (ffmpeg says: " + complaint + ")";
  }

  static constexpr std::size_t kChunkBytes = 1U << 16U;

  std::string path_;
  AudioTrack track_;
  double stall_limit_s_;
  SoundFormat format_;
  std::vector<std::byte> pending_;
  FiniteSamples finite_;
  std::int64_t frames_read_ = 0;
  bool padding_judged_ = false;
  bool ended_ = false;
  std::optional<int> exit_status_;
  ChildProcess child_;
};

std::string program_folders(const OpenOptions& options) {
  return options.program_path ? *options.program_path : environment_path();
}

std::string needed_program(const char* name, const std::string& folders, const std::string& path, const std::string& container) {
  if (const auto found = find_program(name, folders)) return *found;
  throw FileFailure(fmt::format("{}: {} files need the command {}, which is not installed. Install the package ffmpeg, or save the "
                                "recording as WAV and use that.",
                                path, container, name));
}

}  // namespace

bool ffmpeg_installed(const OpenOptions& options) {
  const std::string folders = program_folders(options);
  return find_program("ffprobe", folders) && find_program("ffmpeg", folders);
}

std::unique_ptr<SoundReader> open_by_ffmpeg(const std::string& path, const std::string& container, const OpenOptions& options) {
  check(options.stall_limit_s > 0.0, "the stall limit is positive");
  const std::string folders = program_folders(options);
  const std::string ffprobe = needed_program("ffprobe", folders, path, container);
  const std::string ffmpeg = needed_program("ffmpeg", folders, path, container);
  const AudioTrack track = probe_audio(ffprobe, path, options.stall_limit_s);
  check_sample_rate(track.sample_rate_hz, path);
  return std::make_unique<FfmpegReader>(ffmpeg, path, container, track, options.stall_limit_s);
}

}  // namespace ringfall::audio
