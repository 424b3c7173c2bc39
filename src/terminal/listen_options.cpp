// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/listen_options.h"

#include <CLI/CLI.hpp>

#include "terminal/option_words.h"

namespace ringfall::terminal {
namespace {

void add_sound_in(CLI::App& verb, SoundInRequest& sound) {
  verb.add_option("--device", sound.device, "Microphone: name, part of it, or number (see devices); else the one used last")
      ->type_name("DEVICE");
  verb.add_option("--channel", sound.channel, "Its channel, from 1 (else the first)")->check(whole_number(1, 1024))->type_name("N");
  verb.add_option("--rate", sound.sample_rate_hz, "Samples a second (else 48000 where the device takes it)")
      ->check(number_between(8000, 192000))->type_name("HZ");
  auto* file = verb.add_option("--from", sound.file, "Play this sound file in, as if it were a microphone")->type_name("FILE");
  verb.add_option("--speed", sound.speed, "Of that file: 1 as in life, 0 as fast as can be")
      ->check(number_between(0, 1000))->capture_default_str()->needs(file)->type_name("TIMES");
}

void add_listen(CLI::App& app, ListenRequest& asked) {
  auto* verb = app.add_subcommand("listen", "Hear shots from a microphone: each one's sound is kept, then measured, then shown");
  verb->footer("Example: ringfall listen evening.ringfall --setup bare\n\n"
               "Keys: space arms or pauses, b next block, s next set-up, c wipes the clip mark, q ends.\n"
               "Nobody and no microphone forward of the shooting line.");
  verb->add_option("logbook", asked.logbook, "The logbook's file")->required()->type_name("LOGBOOK");
  verb->add_option("--setup", asked.setup, "The set-up that is shot")->required()->type_name("NAME");
  verb->add_option("--bow", asked.bow, "The bow, to be sure that the session is about it")->type_name("NAME");
  verb->add_flag("--new", asked.new_setup, "This set-up is new");
  verb->add_option("--note", asked.note, "A remark on the block")->type_name("WORDS");
  add_sound_in(*verb, asked.sound);
  verb->add_flag("--paused", asked.paused, "Begin without keeping shots");
  verb->add_option("--for", asked.for_s, "End after so many seconds")->check(number_between(0.01, 1e6))->type_name("SECONDS");
  verb->add_option("--take", asked.take_folder, "Record everything, too, into this folder, made when it is not there")->type_name("FOLDER");
}

void add_play(CLI::App& app, PlayRequest& asked) {
  auto* verb = app.add_subcommand("play", "Play a shot of a logbook, or two in turn at equal gain");
  verb->footer("Example: ringfall play evening.ringfall 3 12 --times 5");
  verb->add_option("logbook", asked.logbook, "The logbook's file")->required()->type_name("LOGBOOK");
  verb->add_option("shot", asked.shots, "One or two numbers of shots (see list)")->required()->expected(1, 2)->type_name("SHOT");
  verb->add_option("--device", asked.device, "Sound output: name, part of it, or number (see devices)")->type_name("DEVICE");
  verb->add_option("--times", asked.times, "How often")->check(whole_number(1, 1000))->capture_default_str()->type_name("N");
}

void add_chain(CLI::App& app, ChainRequest& asked) {
  auto* verb = app.add_subcommand("chain", "Check microphone, gain and room before shooting: keep quiet, then clap once");
  verb->footer("Example: ringfall chain --device microphone");
  add_sound_in(*verb, asked.sound);
  verb->add_flag("--tone", asked.tone, "Play the check tone and say how loud it comes in, to compare days");
  verb->add_option("--output", asked.output, "Sound output for the tone")->type_name("DEVICE");
  verb->add_flag("--json", asked.json, "One JSON object on standard output; what to do is said on standard error");
}

}  // namespace

void add_sound_verbs(CLI::App& app, SoundReading& reading) {
  add_listen(app, reading.listen);
  auto* devices = app.add_subcommand("devices", "List microphones and loudspeakers with what matters of them");
  devices->footer("Example: ringfall devices");
  devices->add_flag("--json", reading.devices.json, "One JSON object on standard output");
  add_play(app, reading.play);
  add_chain(app, reading.chain);
}

std::optional<SoundRequest> sound_request(const CLI::App& app, const SoundReading& reading) {
  if (app.got_subcommand("listen")) return reading.listen;
  if (app.got_subcommand("devices")) return reading.devices;
  if (app.got_subcommand("play")) return reading.play;
  if (app.got_subcommand("chain")) return reading.chain;
  return std::nullopt;
}

}  // namespace ringfall::terminal
