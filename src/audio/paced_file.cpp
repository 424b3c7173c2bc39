// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/paced_file.h"

#include <chrono>
#include <thread>
#include <utility>
#include <vector>

#include "audio/capture.h"
#include "audio/channel_reader.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

using namespace std::chrono_literals;
using Seconds = std::chrono::duration<double>;

constexpr double kBlock_s = 0.010;
constexpr double kLateFile_s = 2.0;

class PacedFile : public SoundSource {
 public:
  PacedFile(const std::string& path, ChannelReader reader, double speed)
      : info_{path, reader.format().sample_rate_hz},
        capture_(info_.sample_rate_hz, kLateFile_s),
        player_([this, reader = std::move(reader), speed](const std::stop_token& stop) mutable { play(reader, speed, stop); }) {}

  const SourceInfo& info() const override { return info_; }
  std::size_t read(std::span<float> mono) override {
    // Looked at first: what came before the end is all there then.
    const bool finished = capture_.finished();
    const std::size_t got = capture_.read(mono);
    drained_ = finished && got == 0;
    return got;
  }
  SourceHealth health() override {
    SourceHealth health;
    if (drained_) health.pulse = SourcePulse::ended;
    return health;
  }

 private:
  void play(ChannelReader& reader, double speed, const std::stop_token& stop) {
    std::vector<float> block(static_cast<std::size_t>(kBlock_s * info_.sample_rate_hz));
    const auto begin = Capture::Clock::now();
    double played_s = 0.0;
    try {
      while (const std::size_t got = reader.read(block)) {
        while (!stop.stop_requested() && !capture_.has_room(got)) std::this_thread::sleep_for(1ms);
        played_s += static_cast<double>(got) / info_.sample_rate_hz;
        // A block comes when it is over, as from a microphone.
        while (!stop.stop_requested() && speed > 0.0 && Capture::Clock::now() - begin < Seconds(played_s / speed)) {
          std::this_thread::sleep_for(1ms);
        }
        if (stop.stop_requested()) return;
        capture_.take(block.data(), got, 1, 0, false, Capture::Clock::now());
      }
    } catch (const Failure&) {
      // Ends here, as a microphone would that is pulled out; opening the file again tells why.
    }
    capture_.finish();
  }

  SourceInfo info_;
  Capture capture_;
  bool drained_ = false;
  std::jthread player_;  // last: it uses the others
};

}  // namespace

std::unique_ptr<SoundSource> play_file_in(const std::string& path, const FilePace& pace) {
  const int channel = pace.channel ? *pace.channel - 1 : loudest_channel(path);
  return std::make_unique<PacedFile>(path, ChannelReader(open_sound(path), channel), pace.speed);
}

}  // namespace ringfall::audio
