// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <filesystem>

#include "base/failure.h"
#include "base/text.h"
#include "desk/model/desk.h"
#include "intake/demo_logbook.h"
#include "intake/kept_clip.h"
#include "intake/session_options.h"
#include "logbook/database.h"
#include "logbook/export.h"
#include "work/adding.h"
#include "work/measuring.h"

namespace ringfall::desk {
namespace {

namespace fs = std::filesystem;

std::string name_of(const std::string& path) { return fs::path(path).filename().string(); }

/// `stem`, or with a number behind it, so that neither the folder nor the logbook of that name is there yet.
std::string free_name(const std::string& stem) {
  std::error_code failed;
  const auto taken = [&](const std::string& name) { return fs::exists(name, failed) || fs::exists(name + ".ringfall", failed); };
  std::string name = stem;
  for (int k = 2; taken(name); ++k) name = fmt::format("{}-{}", stem, k);
  return name;
}

}  // namespace

void Desk::open(const std::string& path) {
  std::error_code failed;
  if (fs::exists(path, failed) && !logbook::is_sqlite_file(path)) {
    // No logbook, then: a recording, to be put into the one that is open or about to be.
    dropped_sound = path;
    place = Place::book;
    if (!book) say("Open or start a logbook first; the recording goes into it then.");
    return;
  }
  quick.post("opening " + name_of(path), [this, path](Ticket&) -> Lane::Result {
    const logbook::Logbook logbook(path);
    try {
      return [this, sheet = read_book(logbook, path)] { show(sheet, true); };
    } catch (const LogbookFailure& failure) {
      // A logbook it is, but not all of it can be read.
      return [this, path, words = std::string(failure.what())] {
        damaged = path;
        say(words, true);
      };
    }
  });
}

void Desk::rescue(const std::string& path) {
  slow.post("saving what can be read", [this, path](Ticket& ticket) -> Lane::Result {
    const std::string stem = free_name(fs::path(path).replace_extension().string() + "-rescued");
    const auto exported = logbook::export_folder(logbook::Logbook(path), stem, [&ticket](double share) {
      ticket.report(0.7 * share);
      return !ticket.cancelled();
    });
    if (exported.stopped) return [this] { say("Stopped; nothing was saved."); };
    const std::string saved = stem + ".ringfall";
    logbook::import_folder(stem, saved, intake::need_whole_sounds);
    return [this, path, saved, stem, exported] {
      say(fmt::format("{} could be read and {} in {}, and in the folder {}; {} could not. Keep {} as it is: a copy of it made earlier may "
                      "hold the rest.",
                      counted(exported.shots, "shot"), exported.shots == 1 ? "is" : "are", saved, stem, exported.lost.size(), path),
          true, saved);
      open(saved);
    };
  });
}

void Desk::start(const std::string& path, const logbook::Conditions& conditions) {
  quick.post("starting " + name_of(path), [this, path, conditions](Ticket&) -> Lane::Result {
    const auto logbook = logbook::Logbook::start(path, conditions);
    auto sheet = read_book(logbook, path);
    return [this, sheet] { show(sheet, true); };
  });
}

void Desk::make_demo(const std::string& path) {
  std::error_code failed;
  if (fs::exists(path, failed)) {
    open(path);
    return;
  }
  slow.post("making the invented evening", [this, path](Ticket& ticket) -> Lane::Result {
    const bool whole = intake::make_demo_logbook(path, [&](double share) {
      ticket.report(share);
      return !ticket.cancelled();
    });
    if (!whole) return {};
    const logbook::Logbook logbook(path);
    auto sheet = read_book(logbook, path);
    return [this, sheet] { show(sheet, true); };
  });
}

void Desk::close() {
  if (!may_leave_book()) return;
  // Between frames: who pressed it still reads the sheet that is being drawn.
  quick.post("closing", [this](Ticket&) -> Lane::Result {
    return [this] {
      if (!may_leave_book()) return;
      book.reset();
      shot.reset();
      chosen.reset();
      undo_.clear();
      ++revision;
      place = Place::book;
    };
  });
}

bool Desk::may_leave_book() {
  if (!hearing.ears) return true;
  say("Stop listening first: what is heard now goes into the logbook that is open.", true);
  return false;
}

void Desk::add_setup(const logbook::SetUp& setup) {
  edit("new set-up " + setup.name, [setup](logbook::Logbook& logbook) { logbook.add_setup(setup); });
}

void Desk::start_session(const logbook::Conditions& conditions) {
  edit("starting a session", [conditions](logbook::Logbook& logbook) { logbook.start_session(conditions); }, {},
       "A new session has begun: what is added or heard from now on belongs to it.");
}

void Desk::add_recording(const std::string& file, const intake::BlockPlace& where, const std::string& changed) {
  if (!book) return;
  dropped_sound.reset();
  put_off_comparison();
  slow.post("measuring " + name_of(file), [this, file, where, changed, path = book->path](Ticket& ticket) -> Lane::Result {
    logbook::Logbook logbook(path);
    const work::Addition addition{where, work::NewSetUp::when_unlike, changed};
    work::check_addition(logbook, addition);  // before the long work
    const auto options = intake::options_of(logbook.conditions());
    const auto recording = intake::measure_recording(file, options, [&](std::optional<double> share) {
      ticket.report(share ? std::optional(0.9 * *share) : std::nullopt);
      return !ticket.cancelled();
    });
    if (recording.stopped) return [this] { say("Stopped; nothing was kept of the recording."); };
    if (recording.shots.empty()) throw FileFailure(work::no_shot_sentence(recording));
    const auto added = *work::keep_recordings(logbook, {recording}, options.settings.find, addition).front().block;
    return [this, added, setup = where.setup] {
      read_again();
      say(fmt::format("Block {} of '{}': {} kept.", added.number, setup, counted(added.shots.size(), "shot")));
      look_at(added.shots.front());
    };
  });
}

void Desk::remeasure_older() {
  if (!book || book->older == 0) return;
  put_off_comparison();
  slow.post("measuring again", [this, path = book->path](Ticket& ticket) -> Lane::Result {
    logbook::Logbook logbook(path);
    const auto done = work::measure_again(logbook, work::Again::of_other_versions, [&ticket](double share) {
      ticket.report(share);
      return !ticket.cancelled();
    });
    if (done.stopped) return [this] { say("Stopped; every shot has the numbers it had."); };
    return [this, done, path] {
      can_undo(path, "measuring again", [before = done.before](logbook::Logbook& changed) { work::put_back(changed, before); });
      read_again();
      std::string words = counted(done.before.size(), "shot") + " measured again.";
      if (!done.failed.empty()) words += " " + done.failed.front().sentence;
      say(words, !done.failed.empty());
    };
  });
}

}  // namespace ringfall::desk
