// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/model/desk.h"

#include <algorithm>

#include "base/check.h"

namespace ringfall::desk {
namespace {

constexpr std::size_t kMostNotices = 4;
constexpr std::size_t kMostUndo = 100;

}  // namespace

const char* place_name(Place place) {
  static constexpr const char* kNames[] = {"Book", "Range", "Shot", "Compare", "Ears", "Season", "Plan", "Page"};
  const auto index = static_cast<std::size_t>(place);
  check(index < std::size(kNames), "a place of the window");
  return kNames[index];
}

Desk::Desk(Preferences kept, std::function<void()> wake, std::shared_ptr<SoundPort> sound)
    : preferences(std::move(kept)),
      sound_(std::move(sound)),
      quick(wake, [this](const std::string& words) { say(words, true); }),
      slow(wake, [this](const std::string& words) { say(words, true); }) {}

void Desk::say(std::string words, bool trouble, std::string link) {
  notices.push_back({std::move(words), trouble, std::move(link), -1.0});
  while (notices.size() > kMostNotices) notices.pop_front();
}

bool Desk::tick() {
  const bool one = quick.apply();
  const bool other = slow.apply();
  const bool heard = hear();
  return one || other || heard;
}

// Stops listening well: what was heard is kept and measured before the program ends.
Desk::~Desk() {
  if (hearing.ears) hearing.ears->stop();
}

bool Desk::restless() const { return quick.busy() || slow.busy() || hearing.ears || playing(); }

void Desk::settle() {
  do {
    quick.wait_idle();
    slow.wait_idle();
  } while (tick());
}

void Desk::show(std::shared_ptr<const BookSheet> sheet, bool newly_opened) {
  if (!newly_opened && (!book || book->path != sheet->path)) return;  // another one was opened meanwhile
  if (newly_opened && book && book->path != sheet->path && !may_leave_book()) return;
  book = std::move(sheet);
  ++revision;
  if (!book->hidden.empty()) {  // they are made from numbers that must not be seen yet
    comparison.reset();
    season.reset();
  }
  if (newly_opened) {
    damaged.clear();
    undo_.clear();
    comparison.reset();
    season.reset();
    adding = false;
    looked_into.reset();
    overview.reset();
    running.reset();
    chosen.reset();
    shot.reset();
    remember_book(preferences, book->path);
    if (!book->shots.empty()) choose(book->shot(book->shots.front()).id);
    return;
  }
  if (chosen && !book->index_of(*chosen)) chosen.reset();
  if (!chosen && !book->shots.empty()) choose(book->shot(book->shots.back()).id);
}

void Desk::choose(std::optional<std::int64_t> shot_id) {
  if (chosen == shot_id) return;
  chosen = shot_id;
  read_chosen();
}

void Desk::look_at(std::int64_t shot_id) {
  quick.post("reading the shot", [this, shot_id](Ticket&) -> Lane::Result { return [this, shot_id] {
    if (book && book->index_of(shot_id)) choose(shot_id);
  }; });
}

void Desk::read_again() { edit("reading the logbook", [](logbook::Logbook&) {}); }

void Desk::read_chosen() {
  const auto at = chosen_at();
  if (!at) {
    shot.reset();
    return;
  }
  const std::int64_t id = *chosen;
  quick.post("reading the shot", [this, id, at = *at, sheet = book, number = ++sheets_](Ticket&) -> Lane::Result {
    const logbook::Logbook logbook(sheet->path);
    auto read = read_shot(logbook, *sheet, at, number);
    return [this, id, read] {
      if (chosen == id) shot = read;
    };
  });
}

void Desk::step(int by) {
  if (!book || book->shots.empty()) return;
  const auto now = chosen ? book->index_of(*chosen) : std::nullopt;
  const auto last = static_cast<std::ptrdiff_t>(book->shots.size()) - 1;
  const auto next = std::clamp<std::ptrdiff_t>(now ? static_cast<std::ptrdiff_t>(*now) + by : 0, 0, last);
  choose(book->shot(book->shots[static_cast<std::size_t>(next)]).id);
}

std::optional<ShotAt> Desk::chosen_at() const {
  if (!book || !chosen) return std::nullopt;
  const auto index = book->index_of(*chosen);
  return index ? std::optional(book->shots[*index]) : std::nullopt;
}

void Desk::edit(std::string what, Change change, Change back, std::string done) {
  if (!book) return;
  quick.post(what, [this, what, change = std::move(change), back = std::move(back), done = std::move(done), path = book->path](Ticket&) -> Lane::Result {
    logbook::Logbook logbook(path);
    change(logbook);
    auto sheet = read_book(logbook, path);
    return [this, what, back, done, sheet, path] {
      if (back) can_undo(path, what, back);
      show(sheet, false);
      if (!done.empty()) say(done);
    };
  });
}

void Desk::can_undo(const std::string& path, std::string what, Change back) {
  if (!book || book->path != path) return;  // another one was opened meanwhile
  undo_.push_back({std::move(what), std::move(back)});
  if (undo_.size() > kMostUndo) undo_.erase(undo_.begin());
}

std::string Desk::undo_words() const { return undo_.empty() ? std::string{} : undo_.back().what; }

void Desk::undo() {
  if (undo_.empty()) return;
  const Undo last = undo_.back();
  undo_.pop_back();
  edit("taking back: " + last.what, last.back, {}, "Taken back: " + last.what + ".");
}

}  // namespace ringfall::desk
