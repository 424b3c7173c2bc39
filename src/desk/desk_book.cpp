// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "base/failure.h"
#include "base/version.h"
#include "desk/desk.h"
#include "intake/demo_logbook.h"
#include "logbook/database.h"

namespace ringfall::desk {
namespace {

namespace fs = std::filesystem;

std::string name_of(const std::string& path) { return fs::path(path).filename().string(); }

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
    auto sheet = read_book(logbook, path);
    return [this, sheet] { show(sheet, true); };
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
  book.reset();
  shot.reset();
  chosen.reset();
  undo_.clear();
  ++revision;
  place = Place::book;
}

void Desk::add_setup(const logbook::SetUp& setup) {
  edit("new set-up " + setup.name, [setup](logbook::Logbook& logbook) { logbook.add_setup(setup); });
}

void Desk::add_recording(const std::string& file, const intake::BlockPlace& where, const std::string& changed) {
  if (!book) return;
  dropped_sound.reset();
  slow.post("measuring " + name_of(file), [this, file, where, changed, path = book->path](Ticket& ticket) -> Lane::Result {
    logbook::Logbook logbook(path);
    const auto conditions = logbook.conditions();
    intake::RecordingOptions options;
    options.scale.full_scale_db_spl = conditions.full_scale_db_spl;
    options.settings.find.distance_m = conditions.distance_m;
    options.settings.find.temperature_c = conditions.temperature_c;
    const auto recording = intake::measure_recording(file, options, [&](std::optional<double> share) {
      ticket.report(share ? std::optional(0.9 * *share) : std::nullopt);
      return !ticket.cancelled();
    });
    if (recording.stopped) return [this] { say("Stopped; nothing was kept of the recording."); };
    if (recording.shots.empty()) throw FileFailure(file + ": no shot was found, nothing is kept of it");
    const auto setups = logbook.setups();
    if (std::ranges::find(setups, where.setup, &logbook::SetUp::name) == setups.end()) {
      logbook::SetUp setup;
      setup.name = where.setup;
      setup.changed = changed;
      logbook.add_setup(setup);
    }
    const auto added = intake::add_recording(logbook, recording, options.settings.find, where);
    auto sheet = read_book(logbook, path);
    return [this, sheet, added, setup = where.setup] {
      show(sheet, false);
      say(fmt::format("Block {} of '{}': {} shots kept.", added.number, setup, added.shots.size()));
      choose(added.shots.front());
    };
  });
}

void Desk::not_a_shot(std::int64_t shot_id) {
  edit("not a shot: " + std::to_string(shot_id), [=](logbook::Logbook& logbook) { logbook.say_not_a_shot(shot_id); },
       [=](logbook::Logbook& logbook) { logbook.undo_correction(shot_id); });
}

void Desk::move_edge(std::int64_t shot_id, double by_s) {
  const auto index = book ? book->index_of(shot_id) : std::nullopt;
  if (!index) return;
  const double edge_s = book->shot(book->shots[*index]).shot.onset_s + by_s;
  const auto measure_again = [shot_id](logbook::Logbook& logbook) {
    for (const auto& block : logbook.blocks()) {
      for (const auto& kept : block.shots) {
        if (kept.id == shot_id) logbook.set_numbers(shot_id, intake::remeasured(logbook, block, kept), kVersion);
      }
    }
  };
  edit("edge of shot " + std::to_string(shot_id),
       [=](logbook::Logbook& logbook) {
         logbook.move_edge(shot_id, edge_s);
         measure_again(logbook);
       },
       [=](logbook::Logbook& logbook) {
         logbook.undo_correction(shot_id);
         measure_again(logbook);
       });
  quick.post("reading the shot", [this](Ticket&) -> Lane::Result { return [this] { read_chosen(); }; });
}

void Desk::comment(std::int64_t shot_id, const logbook::Comment& comment) {
  const auto made = std::make_shared<std::int64_t>(0);
  edit(fmt::format("words on shot {}", shot_id),
       [=](logbook::Logbook& logbook) { *made = logbook.add_comment(shot_id, comment); },
       [=](logbook::Logbook& logbook) { logbook.remove_comment(*made); });
}

void Desk::drop_shot(std::int64_t shot_id, const std::string& reason) {
  const auto index = book ? book->index_of(shot_id) : std::nullopt;
  if (!index) return;
  const std::string before = book->shot(book->shots[*index]).dropped;
  edit((reason.empty() ? "taking in again shot " : "leaving out shot ") + std::to_string(shot_id),
       [=](logbook::Logbook& logbook) { logbook.drop_shot(shot_id, reason); },
       [=](logbook::Logbook& logbook) { logbook.drop_shot(shot_id, before); });
}

void Desk::drop_block(std::int64_t block, const std::string& reason) {
  if (!book) return;
  const auto found = std::ranges::find(book->blocks, block, &logbook::KeptBlock::number);
  if (found == book->blocks.end()) return;
  edit((reason.empty() ? "taking in again block " : "leaving out block ") + std::to_string(block),
       [=](logbook::Logbook& logbook) { logbook.drop_block(block, reason); },
       [block, before = found->dropped](logbook::Logbook& logbook) { logbook.drop_block(block, before); });
}

}  // namespace ringfall::desk
