// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/sndfile_reader.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sndfile.h>

#include <algorithm>
#include <mutex>
#include <utility>

#include "audio/codec_names.h"
#include "audio/data_chunk.h"
#include "audio/finite_samples.h"
#include "audio/mended_file.h"
#include "audio/packed_24_bit.h"
#include "audio/sound_findings.h"
#include "base/check.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

constexpr double kLowestRate_hz = 8e3;
constexpr double kHighestRate_hz = 192e3;
// A lossy codec's padding makes its stated length differ from the decoded one by up to two frames of the codec.
constexpr double kLossySlack_s = 0.1;
// Header frame counts above this (6000 years at 48 kHz) are "not known".
constexpr sf_count_t kMostFrames = sf_count_t{1} << 53;

struct CloseSndfile {
  void operator()(SNDFILE* file) const { sf_close(file); }
};
using Sndfile = std::unique_ptr<SNDFILE, CloseSndfile>;

struct Opened {
  UniqueFd fd;
  std::optional<DataChunk> chunk;
  std::unique_ptr<MendedFile> mended;
  Sndfile file;
};

// By descriptor, because sf_open would leave it open to child processes; by a second one, because sf_open_fd closes it when it
// fails, whatever it was told.
bool open_descriptor(Opened& opened, std::uint64_t file_bytes, SF_INFO& info, std::string& complaint) {
  // libsndfile keeps the reason of a failed open in one variable for all threads.
  static std::mutex one_at_a_time;
  const std::scoped_lock lock(one_at_a_time);
  UniqueFd second(::fcntl(opened.fd.get(), F_DUPFD_CLOEXEC, 0));
  opened.file.reset(sf_open_fd(second.release(), SFM_READ, &info, SF_TRUE));
  if (opened.file && info.frames > 0) return true;
  if (!opened.file) complaint = sf_strerror(nullptr);
  while (!complaint.empty() && (complaint.back() == '.' || complaint.back() == '\n')) complaint.pop_back();
  const bool wrong_size = opened.chunk && opened.chunk->bytes_there > 0 && opened.chunk->stated_bytes != opened.chunk->bytes_there;
  if (!wrong_size) return opened.file != nullptr;
  opened.mended = std::make_unique<MendedFile>(opened.fd.get(), file_bytes, *opened.chunk);
  SF_INFO mended_info{};
  if (Sndfile mended(opened.mended->open(mended_info)); mended) {
    opened.file = std::move(mended);
    info = mended_info;
  }
  return opened.file != nullptr;
}

bool is_packed_24_bit(const SF_INFO& info) {
  const int container = info.format & SF_FORMAT_TYPEMASK;
  const bool riff = container == SF_FORMAT_WAV || container == SF_FORMAT_WAVEX || container == SF_FORMAT_RF64 ||
                    container == SF_FORMAT_W64;
  return riff && (info.format & SF_FORMAT_SUBMASK) == SF_FORMAT_PCM_24 &&
         (info.format & SF_FORMAT_ENDMASK) != SF_ENDIAN_BIG;
}

class SndfileReader final : public SoundReader {
 public:
  SndfileReader(Opened opened, const SF_INFO& info)
      : opened_(std::move(opened)), codec_(sndfile_codec(info.format)) {
    format_.description = sndfile_container(info.format) + ", " + codec_.name;
    format_.sample_rate_hz = info.samplerate;
    format_.channels = info.channels;
    if (info.frames > 0 && info.frames < kMostFrames) format_.frames = info.frames;
    format_.lossy = codec_.lossy;
    format_.integer_samples = codec_.integer;
    format_.bits = codec_.bits;
    if (is_packed_24_bit(info)) packed_.emplace(info.channels);
  }

  const SoundFormat& format() const override { return format_; }

  std::size_t read(std::span<float> interleaved) override {
    const auto channels = static_cast<std::size_t>(format_.channels);
    check(interleaved.size() % channels == 0 && !interleaved.empty(), "a block holds whole frames, at least one");
    if (ended_) return 0;
    const std::size_t frames = packed_ ? packed_->read(opened_.file.get(), interleaved)
                                       : static_cast<std::size_t>(std::max<sf_count_t>(
                                             0, sf_readf_float(opened_.file.get(), interleaved.data(),
                                                               static_cast<sf_count_t>(interleaved.size() / channels))));
    ended_ = frames == 0;
    frames_read_ += static_cast<std::int64_t>(frames);
    if (!codec_.integer) finite_.mend(interleaved.first(frames * channels), format_.channels);
    return frames;
  }

  std::vector<Finding> findings() const override {
    std::vector<Finding> found;
    if (codec_.lossy) found.push_back(lossy_finding(codec_.name, codec_.speech));
    if (const auto finding = truncation()) found.push_back(*finding);
    if (const auto finding = finite_.finding(format_.sample_rate_hz)) found.push_back(*finding);
    return found;
  }

 private:
  // What is missing at the end. Before the last read only what the header's sizes tell.
  std::optional<Finding> truncation() const {
    const double rate = format_.sample_rate_hz;
    const double read_s = static_cast<double>(ended_ ? frames_read_ : format_.frames.value_or(frames_read_)) / rate;
    if (opened_.chunk) {
      if (!opened_.chunk->stated_bytes) return truncated_finding(read_s, std::nullopt);
      const auto frame_bytes = static_cast<std::uint64_t>(std::max(1, codec_.bits * format_.channels / 8));
      if (*opened_.chunk->stated_bytes >= opened_.chunk->bytes_there + frame_bytes && opened_.chunk->bytes_there > 0) {
        const double share = static_cast<double>(*opened_.chunk->stated_bytes) / static_cast<double>(opened_.chunk->bytes_there);
        return truncated_finding(read_s, read_s * share);
      }
    }
    if (!ended_) return std::nullopt;
    if (!format_.frames) return truncated_finding(read_s, std::nullopt);
    const double stated_s = static_cast<double>(*format_.frames) / rate;
    const double slack_s = codec_.lossy ? kLossySlack_s : 0.5 / rate;
    if (read_s < stated_s - slack_s) return truncated_finding(read_s, stated_s);
    return std::nullopt;
  }

  Opened opened_;
  Codec codec_;
  SoundFormat format_;
  std::optional<Packed24BitReader> packed_;
  FiniteSamples finite_;
  std::int64_t frames_read_ = 0;
  bool ended_ = false;
};

// Headers that libsndfile opens but no sound can come from.
void check_usable(const SF_INFO& info, const std::string& path) {
  check_sample_rate(info.samplerate, path);
  if (info.channels < 1) throw FileFailure(path + ": its header gives no channels; copy or export it again.");
  if (info.frames == 0) {
    throw FileFailure(path + ": holds no sound (its header states 0 samples); nothing was recorded, or the recorder "
                             "lost power before it could close the file.");
  }
}

}  // namespace

void check_sample_rate(double sample_rate_hz, const std::string& path) {
  if (sample_rate_hz >= kLowestRate_hz && sample_rate_hz <= kHighestRate_hz) return;
  throw FileFailure(fmt::format("{}: has {:.0f} samples a second; Ringfall measures 8000 to 192000. Record or export at 48000.",
                                path, sample_rate_hz));
}

std::unique_ptr<SoundReader> open_by_sndfile(InputFile& file, const std::string& path, std::string& complaint) {
  SF_INFO info{};
  Opened opened;
  opened.chunk = find_data_chunk(file.fd.get(), file.bytes);
  opened.fd = std::move(file.fd);
  if (!open_descriptor(opened, file.bytes, info, complaint)) return nullptr;
  check_usable(info, path);
  return std::make_unique<SndfileReader>(std::move(opened), info);
}

}  // namespace ringfall::audio
