// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/sound_system.h"

#include <fmt/format.h>
#include <portaudio.h>

#include <algorithm>
#include <atomic>
#include <functional>
#include <utility>

#include "audio/capture.h"
#include "audio/port_audio.h"
#include "audio/source_watch.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

using namespace std::chrono_literals;

constexpr auto kLookLimit = 8s;   // a machine full of devices takes some seconds
constexpr auto kOpenLimit = 4s;
constexpr auto kCloseLimit = 1s;
constexpr double kLate_s = 10.0;     // what the reader may be late
constexpr double kBuffered_s = 0.03; // asked of the system at the least
constexpr double kUsualRate_hz = 48000.0;

Capture::Clock::duration now() { return Capture::Clock::now().time_since_epoch(); }

/// Opens through PortAudio in limited time. An opening that comes too late is closed again at once.
void open_in_time(PortAudio& port_audio, std::function<PaStream*()> open) {
  const auto in_time = std::make_shared<std::atomic<bool>>(true);
  try {
    port_audio.ask([&port_audio, open = std::move(open), in_time] {
      PaStream* stream = open();
      if (!*in_time) port_audio.close(stream);
    }, kOpenLimit);
  } catch (const std::exception&) {
    *in_time = false;
    throw;
  }
}

/// What the input callback sees.
struct Input {
  Input(double rate_hz, int all_channels, int chosen) : capture(rate_hz, kLate_s), channels(all_channels), channel(chosen) {}
  Capture capture;
  int channels;
  int channel;  ///< from 0
  PaStream* stream = nullptr;
};

int on_input(const void* input, void*, unsigned long frames, const PaStreamCallbackTimeInfo*, PaStreamCallbackFlags flags,
             void* shared) {
  auto& to = *static_cast<Input*>(shared);
  to.capture.take(static_cast<const float*>(input), frames, to.channels, to.channel, (flags & paInputOverflow) != 0,
                  Capture::Clock::now());
  return paContinue;
}

void on_input_end(void* shared) { static_cast<Input*>(shared)->capture.finish(); }

class Microphone : public SoundSource {
 public:
  Microphone(std::shared_ptr<PortAudio> port_audio, SourceInfo info, std::shared_ptr<Input> input)
      : port_audio_(std::move(port_audio)), info_(std::move(info)), input_(std::move(input)), watch_(info_.sample_rate_hz, now()) {}
  ~Microphone() override {
    port_audio_->ask_in_vain_if_need_be(
        [port_audio = port_audio_.get(), input = input_] { port_audio->close(input->stream); }, kCloseLimit);
  }

  const SourceInfo& info() const override { return info_; }
  std::size_t read(std::span<float> mono) override {
    const std::size_t got = input_->capture.read(mono);
    empty_ = got == 0;
    return got;
  }
  SourceHealth health() override {
    const Capture& capture = input_->capture;
    SourceHealth health;
    health.pulse = watch_.look(now(), capture.last_heard(), capture.frames(), capture.finished());
    // What came before the loss is still to be read.
    if (health.pulse == SourcePulse::lost && !empty_) health.pulse = SourcePulse::stalled;
    health.overruns = capture.overruns();
    health.lost_frames = capture.zeros_given();
    health.glitches = capture.glitches();
    health.missing_s = watch_.missing_s();
    health.clock_rate_hz = watch_.clock_rate_hz();
    return health;
  }

 private:
  std::shared_ptr<PortAudio> port_audio_;
  SourceInfo info_;
  std::shared_ptr<Input> input_;
  SourceWatch watch_;
  bool empty_ = true;
};

/// What the output callback sees.
struct Output {
  std::vector<float> samples;
  int channels = 0;
  std::size_t next = 0;  ///< callback only
  std::atomic<std::size_t> played = 0;
  std::atomic<bool> done = false;
  PaStream* stream = nullptr;
};

int on_output(const void*, void* output, unsigned long frames, const PaStreamCallbackTimeInfo*, PaStreamCallbackFlags,
              void* shared) {
  auto& from = *static_cast<Output*>(shared);
  auto* to = static_cast<float*>(output);
  for (unsigned long k = 0; k < frames; ++k) {
    const float sample = from.next < from.samples.size() ? from.samples[from.next++] : 0.0F;
    to = std::fill_n(to, from.channels, sample);
  }
  from.played.store(from.next, std::memory_order_relaxed);
  return from.next < from.samples.size() ? paContinue : paComplete;
}

void on_output_end(void* shared) { static_cast<Output*>(shared)->done.store(true, std::memory_order_release); }

class PortAudioPlayback : public Playback {
 public:
  PortAudioPlayback(std::shared_ptr<PortAudio> port_audio, std::shared_ptr<Output> output, double rate_hz)
      : port_audio_(std::move(port_audio)), output_(std::move(output)), rate_hz_(rate_hz) {}
  ~PortAudioPlayback() override {
    port_audio_->ask_in_vain_if_need_be(
        [port_audio = port_audio_.get(), output = output_] { port_audio->close(output->stream); }, kCloseLimit);
  }
  double played_s() const override { return static_cast<double>(output_->played.load(std::memory_order_relaxed)) / rate_hz_; }
  bool done() const override { return output_->done.load(std::memory_order_acquire); }

 private:
  std::shared_ptr<PortAudio> port_audio_;
  std::shared_ptr<Output> output_;
  double rate_hz_;
};

double rate_for(const InputWish& wish, const Device& device) {
  if (wish.sample_rate_hz) return *wish.sample_rate_hz;
  const bool says_so = device.rates_hz.empty() || std::ranges::find(device.rates_hz, kUsualRate_hz) != device.rates_hz.end();
  return says_so ? kUsualRate_hz : device.usual_rate_hz;
}

const Device& input_for(const InputWish& wish, const std::vector<Device>& devices) {
  if (!wish.device.empty()) return choose_device(devices, wish.device);
  const auto last = std::ranges::find(devices, last_device(), &Device::name);
  return last != devices.end() && last->inputs > 0 ? *last : usual_input(devices);
}

const Device& output_for(const std::string& wish, const std::vector<Device>& devices) {
  if (!wish.empty()) return choose_device(devices, wish);
  auto found = std::ranges::find_if(devices, [](const Device& device) { return device.usual_output && device.outputs > 0; });
  if (found == devices.end()) throw DeviceFailure("no sound output was found: plug one in, and see that the sound system is running");
  return *found;
}

}  // namespace

struct SoundSystem::Part {
  std::shared_ptr<PortAudio> port_audio = std::make_shared<PortAudio>();
};

SoundSystem::SoundSystem() : part_(std::make_shared<Part>()) {}

SoundSystem::~SoundSystem() {
  part_->port_audio->ask_in_vain_if_need_be([port_audio = part_->port_audio.get()] { port_audio->terminate(); }, kCloseLimit);
}

std::vector<Device> SoundSystem::devices() {
  auto found = std::make_shared<std::vector<Device>>();
  part_->port_audio->ask([port_audio = part_->port_audio.get(), found] { *found = port_audio->look(); }, kLookLimit);
  return *found;
}

std::unique_ptr<SoundSource> SoundSystem::open_input(const InputWish& wish) {
  struct Opened {
    SourceInfo info;
    std::shared_ptr<Input> input;
  };
  auto opened = std::make_shared<Opened>();
  open_in_time(*part_->port_audio, [port_audio = part_->port_audio.get(), opened, wish] {
    const auto devices = port_audio->look();
    const Device& device = input_for(wish, devices);
    if (wish.channel > device.inputs) {
      throw RequestFailure(fmt::format("{} has {} input channel{}, there is no channel {}", device.name, device.inputs,
                                       device.inputs == 1 ? "" : "s", wish.channel));
    }
    const double rate_hz = rate_for(wish, device);
    opened->info = {device.name, rate_hz};
    opened->input = std::make_shared<Input>(rate_hz, wish.channel, wish.channel - 1);
    const double latency_s = std::max(kBuffered_s, Pa_GetDeviceInfo(device.number - 1)->defaultLowInputLatency);
    const PaStreamParameters how{device.number - 1, wish.channel, paFloat32, latency_s, nullptr};
    port_audio->open(opened->input->stream, &how, nullptr, rate_hz, on_input, on_input_end, opened->input.get(), device.name);
    return opened->input->stream;
  });
  return std::make_unique<Microphone>(part_->port_audio, opened->info, opened->input);
}

std::unique_ptr<Playback> SoundSystem::play(std::vector<float> samples, double sample_rate_hz, const std::string& device) {
  auto output = std::make_shared<Output>();
  output->samples = std::move(samples);
  open_in_time(*part_->port_audio, [port_audio = part_->port_audio.get(), output, sample_rate_hz, device] {
    const auto devices = port_audio->look();
    const Device& chosen = output_for(device, devices);
    if (chosen.outputs < 1) throw DeviceFailure(fmt::format("{} has no outputs", chosen.name));
    output->channels = std::min(2, chosen.outputs);
    const double latency_s = Pa_GetDeviceInfo(chosen.number - 1)->defaultHighOutputLatency;
    const PaStreamParameters how{chosen.number - 1, output->channels, paFloat32, latency_s, nullptr};
    port_audio->open(output->stream, nullptr, &how, sample_rate_hz, on_output, on_output_end, output.get(), chosen.name);
    return output->stream;
  });
  return std::make_unique<PortAudioPlayback>(part_->port_audio, output, sample_rate_hz);
}

}  // namespace ringfall::audio
