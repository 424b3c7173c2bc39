// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/device.h"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <future>
#include <stdexcept>
#include <thread>

#include "audio/serial_thread.h"
#include "audio/sound_file.h"
#include "audio/paced_file.h"
#include "audio/sound_writer.h"
#include "audio/take_writer.h"
#include "base/failure.h"
#include "support/test_folder.h"

namespace ringfall::audio {
namespace {

using namespace std::chrono_literals;

std::vector<Device> invented_devices() {
  std::vector<Device> devices(3);
  const char* names[] = {"Desk microphone: mono (hw:1,0)", "Desk loudspeaker (hw:0,0)", "server"};
  for (int k = 0; k < 3; ++k) {
    devices[static_cast<std::size_t>(k)].number = k + 1;
    devices[static_cast<std::size_t>(k)].name = names[k];
  }
  devices[0].inputs = 1;
  devices[2].inputs = 32;
  devices[2].usual_input = true;
  return devices;
}

TEST(Device, IsChosenByNumberNameOrPartOfIt) {
  const auto devices = invented_devices();
  EXPECT_EQ(choose_device(devices, "2").number, 2);
  EXPECT_EQ(choose_device(devices, "server").number, 3);
  EXPECT_EQ(choose_device(devices, "MICROPHONE").number, 1);
  EXPECT_THROW(choose_device(devices, "4"), DeviceFailure);
  EXPECT_THROW(choose_device(devices, "desk"), RequestFailure);  // two have it
  EXPECT_THROW(choose_device(devices, "cellar"), DeviceFailure);
  EXPECT_EQ(usual_input(devices).number, 3);
  EXPECT_THROW(usual_input({}), DeviceFailure);
}

TEST(Device, HeadsetsAndEnhancedInputsAreWarnedOf) {
  EXPECT_EQ(device_cautions("bluez_input.handsfree", 16000.0).size(), 1U);
  EXPECT_EQ(device_cautions("Line", 8000.0).size(), 1U);
  EXPECT_EQ(device_cautions("Echo-cancelled microphone", 48000.0).size(), 1U);
  EXPECT_TRUE(device_cautions("USB audio: (hw:1,0)", 48000.0).empty());
}

TEST(Device, TheLastOneIsRemembered) {
  const TestFolder folder;
  setenv("XDG_CONFIG_HOME", folder.str().c_str(), 1);
  EXPECT_EQ(last_device(), "");
  keep_last_device("Desk microphone (hw:1,0)");
  EXPECT_EQ(last_device(), "Desk microphone (hw:1,0)");
}

TEST(SerialThreads, JobsAreDoneInOrderAndTheirFailuresCome) {
  SerialThread thread;
  int done = 0;
  EXPECT_TRUE(thread.run([&] { done = 1; }, 60s));
  EXPECT_EQ(done, 1);
  EXPECT_THROW(thread.run([] { throw std::runtime_error("x"); }, 60s), std::runtime_error);
}

TEST(SerialThreads, AJobThatHangsIsLeftBehind) {
  auto release = std::make_shared<std::promise<void>>();
  auto gone = std::make_shared<std::promise<void>>();
  {
    SerialThread thread;
    EXPECT_FALSE(thread.run([release, gone, waiting = release->get_future().share()] { waiting.wait(); gone->set_value(); }, 20ms));
    EXPECT_FALSE(thread.run([] {}, 20ms)) << "it waits its turn";
  }
  release->set_value();
  EXPECT_EQ(gone->get_future().wait_for(60s), std::future_status::ready);
}

std::vector<float> read_all(const std::string& path) {
  const auto reader = open_sound(path);
  std::vector<float> all(1U << 20U);
  std::size_t got = 0;
  while (const std::size_t more = reader->read(std::span(all).subspan(got))) got += more;
  all.resize(got);
  return all;
}

std::vector<float> whole_steps(std::size_t count) {
  std::vector<float> samples(count);
  for (std::size_t k = 0; k < count; ++k) samples[k] = static_cast<float>(static_cast<int>(k % 9999) - 5000) / 8388608.0F;
  return samples;
}

TEST(TakeWriter, AnUnfinishedTakeCanBeReadAndAFinishedOnePacked) {
  const TestFolder folder;
  const auto samples = whole_steps(100000);
  TakeWriter writer(folder.path("take.w64"), 48000.0);
  writer.write(std::span(samples).first(60000));
  // As after a crash: nothing was closed.
  EXPECT_EQ(read_all(folder.path("take.w64")), std::vector<float>(samples.begin(), samples.begin() + 60000));
  writer.write(std::span(samples).subspan(60000));
  EXPECT_THROW(TakeWriter(folder.path("take.w64"), 48000.0), FileFailure);
  EXPECT_EQ(pack_take(folder.path("take.w64")), folder.path("take.flac"));
  EXPECT_EQ(read_all(folder.path("take.flac")), samples);
  EXPECT_FALSE(std::filesystem::exists(folder.path("take.w64")));
}

TEST(TakeWriter, ATakeThat24BitsWouldChangeStaysAsItIs) {
  const TestFolder folder;
  const std::vector<float> samples(5000, 0.1234567F);
  TakeWriter(folder.path("take.w64"), 48000.0).write(samples);
  EXPECT_EQ(pack_take(folder.path("take.w64")), folder.path("take.w64"));
  EXPECT_EQ(read_all(folder.path("take.w64")), samples);
}

TEST(PacedFileThreads, GivesTheWholeFileAndThenEnds) {
  const TestFolder folder;
  const auto samples = whole_steps(200000);
  write_wav(folder.path("a.wav"), samples, 48000.0);
  const auto source = play_file_in(folder.path("a.wav"), {0.0, std::nullopt});
  std::vector<float> heard;
  std::vector<float> block(1000);
  while (source->health().pulse != SourcePulse::ended) {
    const std::size_t got = source->read(block);
    heard.insert(heard.end(), block.begin(), block.begin() + static_cast<std::ptrdiff_t>(got));
    if (got == 0) std::this_thread::sleep_for(1ms);
  }
  EXPECT_EQ(heard, samples);
  EXPECT_EQ(source->health().overruns, 0);
}

}  // namespace
}  // namespace ringfall::audio
