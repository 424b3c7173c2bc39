// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "audio/sound_file.h"
#include "shot/find.h"

/// The finder on real recordings that packages carry, fetched by tests/reference/fetch_recordings.sh into the folder that the
/// environment variable RINGFALL_RECORDINGS names. Counts were read from envelopes by hand; nobody listened.
namespace ringfall {
namespace {

struct Sound {
  std::vector<float> samples;
  double rate_hz = 0.0;
};

/// Every .wav below `folder`, in order of names; empty when it was not fetched.
std::vector<std::string> recordings(const std::string& folder) {
  std::vector<std::string> paths;
  const char* root = std::getenv("RINGFALL_RECORDINGS");
  if (root == nullptr || !std::filesystem::exists(std::filesystem::path(root) / folder)) return paths;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(std::filesystem::path(root) / folder)) {
    if (entry.is_regular_file() && entry.path().extension() == ".wav") paths.push_back(entry.path().string());
  }
  std::ranges::sort(paths);
  return paths;
}

Sound first_channel(const std::string& path) {
  const auto reader = audio::open_sound(path);
  const auto channels = static_cast<std::size_t>(reader->format().channels);
  Sound sound;
  sound.rate_hz = reader->format().sample_rate_hz;
  std::vector<float> block(4096 * channels);
  while (const std::size_t frames = reader->read(block)) {
    for (std::size_t k = 0; k < frames; ++k) sound.samples.push_back(block[k * channels]);
  }
  return sound;
}

std::vector<double> shots_at_s(const Sound& sound, const shot::FindSettings& settings) {
  std::vector<shot::Event> events;
  shot::ShotFinder finder(sound.rate_hz, settings, [&](shot::FoundEvent&& found) { events.push_back(found.event); });
  finder.push(sound.samples);
  finder.finish();
  std::vector<double> times;
  for (const std::size_t k : shot::select_shots(events, sound.rate_hz, settings).shots) {
    times.push_back(static_cast<double>(events[k].onset_sample) / sound.rate_hz);
  }
  return times;
}

constexpr const char* kFetch = "no recordings: run tests/reference/fetch_recordings.sh and set RINGFALL_RECORDINGS";

// Eight spoken channel names ("front left", ...; each ends in a plosive or holds one) and a file of noise: no shot.
TEST(RealRecordings, SpeechHoldsNoShot) {
  const auto paths = recordings("speech");
  if (paths.empty()) GTEST_SKIP() << kFetch;
  EXPECT_GE(paths.size(), 9U);
  Sound together;
  for (const auto& path : paths) {
    const Sound sound = first_channel(path);
    EXPECT_TRUE(shots_at_s(sound, {}).empty()) << path;
    together.rate_hz = sound.rate_hz;
    together.samples.insert(together.samples.end(), sound.samples.begin(), sound.samples.end());
  }
  EXPECT_TRUE(shots_at_s(together, {}).empty());
}

// Five knocks on wood, 0.18 to 0.21 s apart, each into the last one's decay; starts by hand from the envelope, 5 ms.
TEST(RealRecordings, FiveKnocksWhenFiveAreExpected) {
  std::string path;
  for (const auto& one : recordings("knocks")) {
    if (one.ends_with("Knock.wav")) path = one;
  }
  if (path.empty()) GTEST_SKIP() << kFetch;
  shot::FindSettings settings;
  settings.expect = 5;
  const auto times = shots_at_s(first_channel(path), settings);
  ASSERT_EQ(times.size(), 5U);
  for (std::size_t k = 1; k < times.size(); ++k) {
    EXPECT_GT(times[k] - times[k - 1], 0.17);
    EXPECT_LT(times[k] - times[k - 1], 0.22);
  }
}

// One stroke at five gains, 0 / -1.000 / -3.001 / -6.001 / -9.002 dB by the files' names and samples, one after another with 3 s
// of nothing between: five shots, starting where they were put.
TEST(RealRecordings, GainLadderIsFiveShots) {
  Sound row;
  std::vector<double> put_s;
  for (const char* strength : {"Hardest", "Hard", "Med", "Soft", "Softest"}) {
    for (const auto& path : recordings("hydrogen")) {
      if (!path.ends_with(std::string("GMRockKit/Cowbell-") + strength + ".wav")) continue;
      const Sound sound = first_channel(path);
      row.rate_hz = sound.rate_hz;
      row.samples.resize(row.samples.size() + static_cast<std::size_t>(3.0 * sound.rate_hz), 0.0F);
      put_s.push_back(static_cast<double>(row.samples.size()) / sound.rate_hz);
      row.samples.insert(row.samples.end(), sound.samples.begin(), sound.samples.end());
    }
  }
  if (put_s.empty()) GTEST_SKIP() << kFetch;
  const auto times = shots_at_s(row, {});
  ASSERT_EQ(put_s.size(), 5U);
  ASSERT_EQ(times.size(), 5U);
  for (std::size_t k = 0; k < 5; ++k) EXPECT_NEAR(times[k], put_s[k], 0.0003);
}

// A ringing bar is no shot by itself; asked for one, the finder has its start.
TEST(RealRecordings, StruckBarsWhenOneIsExpected) {
  const auto paths = recordings("xylophone");
  if (paths.empty()) GTEST_SKIP() << kFetch;
  shot::FindSettings settings;
  settings.expect = 1;
  for (const auto& path : paths) {
    const auto times = shots_at_s(first_channel(path), settings);
    ASSERT_EQ(times.size(), 1U) << path;
    EXPECT_LT(times[0], 0.05) << path;
  }
}

// One key stroke a file, most starting on the first sample: never two events, eight in ten heard as one.
TEST(RealRecordings, KeyStrokesAreSingle) {
  const auto paths = recordings("keys");
  if (paths.empty()) GTEST_SKIP() << kFetch;
  std::size_t one = 0;
  for (const auto& path : paths) {
    const auto times = shots_at_s(first_channel(path), {});
    EXPECT_LE(times.size(), 1U) << path;
    one += times.size();
  }
  EXPECT_GE(one * 10, paths.size() * 8);
}

}  // namespace
}  // namespace ringfall
