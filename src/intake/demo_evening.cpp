// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/demo_evening.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace ringfall::intake {
namespace {

constexpr int kShotsPerBlock = 5;
constexpr double kLeadIn_s = 2.0;
constexpr double kTooMuchGain_db = 16.0;
constexpr std::uint64_t kFirstNoise = 7001;

/// What one set-up does to the sound, before the archer's own spread.
struct SetUpSound {
  std::string name;
  std::string note;
  double edge_peak_db;
  double thump_db;
  std::vector<shot::SyntheticTone> tones;
};

const std::vector<SetUpSound>& set_ups() {
  static const std::vector<SetUpSound> all = {
      {"bare", "nothing in the lower bush", 106.0, 98.5,
       {{96.0, 80.0, 0.34}, {171.0, 75.0, 0.24}, {318.0, 67.0, 0.18}, {1460.0, 72.0, 0.17}, {3230.0, 67.0, 0.11}}},
      // The same mass without rubber: a little quieter by inertia, the first mode lower, nothing damped.
      {"steel plug", "180 g steel plug in the lower bush", 105.4, 97.8,
       {{93.5, 79.2, 0.33}, {169.0, 74.4, 0.24}, {317.0, 66.5, 0.18}, {1455.0, 71.7, 0.17}, {3230.0, 67.0, 0.11}}},
      // Rubber-mounted: the two low modes die fast, the ping is not its business.
      {"rubber plug", "180 g rubber-mounted plug in the lower bush", 105.2, 97.5,
       {{92.0, 75.5, 0.15}, {166.0, 70.5, 0.12}, {317.0, 66.0, 0.16}, {1456.0, 71.6, 0.17}, {3230.0, 66.8, 0.11}}},
  };
  return all;
}

/// Normal numbers from a fixed generator, the same on every platform.
class Spread {
 public:
  explicit Spread(std::uint64_t seed) : generator_(seed) {}
  double operator()(double deviation) {
    // Sum of twelve uniform numbers: standard normal to three decimals in the part that matters here.
    double sum = -6.0;
    for (int k = 0; k < 12; ++k) sum += static_cast<double>(generator_() >> 11) * 0x1.0p-53;
    return deviation * sum;
  }

 private:
  std::mt19937_64 generator_;
};

int rating(double value) { return static_cast<int>(std::clamp(std::lround(value), 0L, 10L)); }

std::string words_for(const SetUpSound& setup, int shot) {
  static const std::vector<std::vector<std::string>> words = {
      {"long hum in the grip", "rings on", "clear hum, bit of ping", "hums", "lively, ringing"},
      {"still hums, a bit heavier", "same hum", "hum, maybe softer", "rings like before", "hum and ping"},
      {"dead in the hand, ping stays", "less hum", "short thud, slight ping", "dead", "much less hum"}};
  const auto which = static_cast<std::size_t>(&setup - set_ups().data());
  return words[which][static_cast<std::size_t>(shot) % words[which].size()];
}

DemoShot one_shot(const SetUpSound& setup, int shot, Spread& spread) {
  DemoShot made;
  const double strength_db = spread(0.6);  // draw length, release
  auto& sound = made.sound;
  sound.edge_peak_db = setup.edge_peak_db + strength_db + spread(0.4);
  sound.thump_db = setup.thump_db + strength_db + spread(0.5);
  sound.tones = setup.tones;
  for (auto& tone : sound.tones) {
    tone.level_db += strength_db + spread(0.7);
    tone.ring_time_s *= std::exp(spread(0.05));
    tone.frequency_hz *= 1.0 + spread(0.001);
  }
  sound.slap_lag_s = {0.0062 + std::abs(spread(0.0015))};
  sound.slap_below_db = 9.0 + std::abs(spread(2.0));
  sound.release_lag_s = -0.014 + spread(0.002);
  sound.impact_lag_s = 0.3620 + spread(0.0015);  // 18 m at 57 m/s
  sound.impact_below_db = 13.0 + spread(1.5);

  const auto which = static_cast<std::size_t>(&setup - set_ups().data());
  const double hum_said[] = {6.5, 6.0, 2.5};
  const double feel_said[] = {4.0, 5.0, 7.5};
  made.said.loud = rating(5.5 + strength_db + spread(0.8) - (which == 2 ? 0.8 : 0.0));
  made.said.hum = rating(hum_said[which] + spread(0.9));
  made.said.ping = rating(3.5 + spread(0.8));
  made.said.feel = rating(feel_said[which] + spread(0.9));
  made.said.words = words_for(setup, shot);
  return made;
}

}  // namespace

std::vector<DemoBlock> demo_blocks() {
  std::vector<DemoBlock> blocks;
  Spread spread(20261);
  const std::size_t order[] = {0, 1, 2, 2, 1, 0};
  int number = 0;
  for (const std::size_t which : order) {
    const SetUpSound& setup = set_ups()[which];
    DemoBlock block;
    block.block = ++number;
    block.setup = setup.name;
    block.note = setup.note;
    std::string name = setup.name;
    std::ranges::replace(name, ' ', '-');
    block.file = fmt::format("block{}-{}.wav", number, name);
    for (int shot = 0; shot < kShotsPerBlock; ++shot) block.shots.push_back(one_shot(setup, shot, spread));
    blocks.push_back(std::move(block));
  }
  DemoBlock fault;
  fault.block = ++number;
  fault.setup = "rubber plug";
  fault.note = "after the break";
  fault.dropped = "the gain was left too high";
  fault.file = fmt::format("block{}-gain-too-high.wav", number);
  fault.clipped = true;
  for (int shot = 0; shot < 3; ++shot) fault.shots.push_back(one_shot(set_ups()[2], shot, spread));
  blocks.push_back(std::move(fault));
  return blocks;
}

std::vector<float> demo_samples(const std::vector<DemoBlock>& blocks, std::size_t index) {
  const DemoBlock& block = blocks.at(index);
  const std::uint64_t noise = kFirstNoise + index;
  const double length_s = kLeadIn_s + kDemoSpacing_s * static_cast<double>(block.shots.size());
  std::vector<double> pressure_pa(static_cast<std::size_t>(length_s * kDemoRate_hz), 0.0);
  shot::add_white_noise(pressure_pa, kDemoFloor_db, noise);
  for (std::size_t k = 0; k < block.shots.size(); ++k) {
    const double onset_s = kLeadIn_s + kDemoSpacing_s * static_cast<double>(k) + 0.137 * static_cast<double>(k % 3);
    shot::add_synthetic_shot(pressure_pa, kDemoRate_hz, onset_s, block.shots[k].sound, noise * 100 + k);
  }
  const double full_scale_db = kDemoFullScale_db_spl - (block.clipped ? kTooMuchGain_db : 0.0);
  auto samples = shot::to_full_scale(pressure_pa, full_scale_db);
  // An integer file ends at full scale: here is where a gain left too high does its damage.
  for (float& sample : samples) sample = std::clamp(sample, -1.0F, 1.0F);
  return samples;
}

std::string demo_story() {
  return "An invented evening, for trying Ringfall\n"
         "========================================\n\n"
         "Everything here is made up and every sound is synthetic. No bow was recorded; nobody named here exists.\n\n"
         "Tilde shoots a grey take-down bow at the Fernbank net-loft, 18 m, arrows at about 57 m/s. Her question: does the\n"
         "rubber-mounted plug make the bow deader than the same mass of plain steel, and than nothing at all? Her main\n"
         "number, named beforehand: hum. Worth it: one point less.\n\n"
         "Six blocks of five shots in the order bare, steel, rubber, rubber, steel, bare. Microphone 1 m behind the\n"
         "shooting line on the bow-hand side, on its own stand, gain never touched - but for the last recording, where it\n"
         "was, so that you see what a fault looks like.\n\n"
         "setups.csv   which recording is which set-up and block\n"
         "comments.csv what she said of each shot before seeing a number (0-10, words)\n\n"
         "Before you shoot your own: never loose the string without an arrow; nobody and no microphone forward of the\n"
         "shooting line; inspect the bow after every change; arrow mass never under the bow maker's minimum; your range's\n"
         "rules and your country's law come first.\n";
}

}  // namespace ringfall::intake
