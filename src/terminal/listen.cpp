// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>

#include "audio/quiet_libraries.h"
#include "audio/sound_system.h"
#include "base/failure.h"
#include "intake/listening.h"
#include "logbook/logbook.h"
#include "terminal/exit_status.h"
#include "terminal/keys.h"
#include "terminal/listen_text.h"
#include "terminal/listen_verbs.h"
#include "terminal/output.h"
#include "terminal/sound_in.h"
#include "work/sessions.h"
#include "work/setups.h"

namespace ringfall::terminal {
namespace {

using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;
constexpr auto kLook = 50ms;
constexpr int kMeterWidth = 30;
constexpr const char* kKeys = "Keys: space arms or pauses, b next block, s next set-up, c wipes the clip mark, q ends.\n";

/// Sees to it that the set-up is in the logbook.
void need_setup(logbook::Logbook& book, const std::string& bow, const ListenRequest& request) {
  const auto allowed = request.new_setup ? work::NewSetUp::meant : work::NewSetUp::refused;
  if (!work::is_to_be_made(book, bow, request.setup, allowed)) return;
  logbook::SetUp setup;
  setup.name = request.setup;
  setup.bow = bow;
  book.add_setup(setup);
}

/// Made when it is not there: takes that can't be recorded are not worth a shot. FileFailure.
void need_take_folder(const std::string& folder) {
  std::error_code failed;
  std::filesystem::create_directories(folder, failed);
  if (!failed && std::filesystem::is_directory(folder, failed) && access(folder.c_str(), W_OK | X_OK) == 0) return;
  throw FileFailure(fmt::format("{}: takes can't be recorded in this folder{}; give another one with --take, or listen without it", folder,
                                failed ? fmt::format(" ({})", failed.message()) : ""));
}

/// The screen of one listening: lines that stay on standard output, below them a meter when that is a terminal.
class ListenScreen {
 public:
  ListenScreen(intake::Listening& listening, bool blind, bool meter) : listening_(listening), blind_(blind), meter_(meter) {}

  /// Shows what is new. LogbookFailure (or another) when listening could not go on.
  void show() {
    std::string text;
    for (const auto& event : listening_.take_events()) {
      if (const auto* failed = std::get_if<intake::Failed>(&event)) failure_ = failed->sentence;
      if (const auto* ended = std::get_if<intake::BlockEnded>(&event)) shots_ += ended->shots.size();
      text += event_text(event, blind_);
    }
    if (meter_) put_control("\r\x1b[K");
    print_out("{}", text);
    if (meter_) print_out("{}  {}", meter_text(listening_.meter(), kMeterWidth), listening_.armed() ? "armed" : "paused");
    flush_output();
  }
  void wipe() const {
    if (meter_) put_control("\r\x1b[K");
  }
  /// That count, of the blocks that have ended.
  std::size_t shots() const { return shots_; }
  const std::string& failure() const { return failure_; }

 private:
  intake::Listening& listening_;
  bool blind_;
  bool meter_;
  std::size_t shots_ = 0;
  std::string failure_;
};

/// The one after `now`, as the logbook has them, then the first again.
std::string setup_after(const logbook::Logbook& book, const std::string& bow, const std::string& now) {
  const auto names = work::setup_names(book, bow);
  const auto at = std::ranges::find(names, now);
  return at == names.end() || at + 1 == names.end() ? names.front() : *(at + 1);
}

}  // namespace

int listen(const ListenRequest& request) {
  logbook::Logbook book(request.logbook);
  const auto conditions = book.conditions();
  work::need_session_bow(conditions, request.bow);
  if (request.take_folder) need_take_folder(*request.take_folder);
  need_setup(book, conditions.bow, request);
  std::string setup = request.setup;
  const EndRequests ends;
  Keys keys;
  // The sound libraries' own words would tear the meter's line.
  const audio::QuietStandardError quiet;
  audio::SoundSystem system;
  intake::ListeningOptions options;
  options.logbook = request.logbook;
  options.setup = setup;
  options.note = request.note;
  options.armed = !request.paused;
  options.take_folder = request.take_folder;
  intake::Listening listening(options, sound_in(request.sound, system));
  ListenScreen screen(listening, conditions.blind, keys.there());
  if (keys.there()) print_out("{}", kKeys);
  const auto begin = Clock::now();
  bool goes_on = true;
  while (goes_on && !listening.stopped() && !EndRequests::wanted()) {
    screen.show();
    if (request.for_s && Clock::now() - begin > std::chrono::duration<double>(*request.for_s)) break;
    const auto key = keys.next(kLook);
    if (!key) continue;
    switch (*key) {
      case ' ': listening.armed() ? listening.pause() : listening.arm(); break;
      case 'b': listening.next_block(); break;
      case 's': listening.next_setup(setup = setup_after(book, conditions.bow, setup)); break;
      case 'c': listening.wipe_clip_mark(); break;
      case 'q': goes_on = false; break;
      default: break;
    }
  }
  listening.stop();
  screen.show();
  screen.wipe();
  if (!screen.failure().empty()) throw DeviceFailure(screen.failure());
  return screen.shots() > 0 ? kDone : kNotMeasured;
}

}  // namespace ringfall::terminal
