// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/sound_in.h"

#include "audio/paced_file.h"

namespace ringfall::terminal {

audio::OpenSource sound_in(const SoundInRequest& request, audio::SoundSystem& system) {
  if (request.file) {
    return [file = *request.file, pace = audio::FilePace{request.speed, request.channel}] {
      return audio::play_file_in(file, pace);
    };
  }
  audio::InputWish wish;
  wish.device = request.device;
  wish.sample_rate_hz = request.sample_rate_hz;
  wish.channel = request.channel.value_or(1);
  return [wish, &system]() mutable {
    auto source = system.open_input(wish);
    // After a loss it must be the same one.
    wish.device = source->info().name;
    audio::keep_last_device(wish.device);
    return source;
  };
}

}  // namespace ringfall::terminal
