// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/window/shoot.h"

#include <algorithm>
#include <cctype>
#include <chrono>
#include <filesystem>
#include <thread>

#include "audio/paced_file.h"
#include "audio/sound_writer.h"
#include "intake/demo_evening.h"

namespace ringfall::desk {

void shoot_places(Desk& desk, const std::function<void()>& frame, const std::string& folder,
                  const std::function<void(const std::string& path)>& take) {
  const auto one = [&](std::string name) {
    for (const plot::Theme theme : {plot::Theme::dark, plot::Theme::light}) {
      desk.preferences.theme = theme;
      for (int k = 0; k < 4; ++k) {
        frame();
        desk.settle();
      }
      frame();
      take((std::filesystem::path(folder) / (name + (theme == plot::Theme::dark ? "-dark.png" : "-light.png"))).string());
    }
  };
  desk.settle();
  if (!desk.book) {
    one("welcome");
    return;
  }
  for (int k = 0; k < kPlaces; ++k) {
    desk.place = static_cast<Place>(k);
    std::string name = place_name(desk.place);
    std::ranges::transform(name, name.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    one(name);
  }
  // A block of the invented evening, quieter, plays the part of a recording to be added and looked into.
  auto quieter = intake::demo_samples(intake::demo_blocks(), 1);
  for (float& sample : quieter) sample *= 0.8F;
  const std::string recording = (std::filesystem::path(folder) / "another-block.wav").string();
  audio::write_wav(recording, quieter, intake::kDemoRate_hz, audio::SampleCoding::wav_24_bit);
  desk.place = Place::book;
  desk.dropped_sound = recording;
  one("adding");
  desk.adding = false;
  desk.add_recording(recording, {desk.book->setups[1].name, "quieter: the gain was turned down", {}});
  desk.settle();
  desk.looked_into = desk.book->blocks.back().number;
  one("block");
  desk.looked_into.reset();
  std::filesystem::remove(recording);
  // At the range with the microphone open: a block of the invented evening plays the part of the archer.
  const std::string sound = (std::filesystem::path(folder) / "heard.wav").string();
  audio::write_wav(sound, intake::demo_samples(intake::demo_blocks(), 2), intake::kDemoRate_hz, audio::SampleCoding::wav_24_bit);
  desk.place = Place::range;
  desk.listen(desk.book->setups.back().name, "", [sound] { return audio::play_file_in(sound, {}); });
  while (desk.hearing.ears && (desk.hearing.shots < 2 || desk.hearing.last->first_look)) {
    frame();
    desk.tick();
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
  one("listening");
  desk.stop_listening();
  desk.settle();
  std::filesystem::remove(sound);
}

}  // namespace ringfall::desk
