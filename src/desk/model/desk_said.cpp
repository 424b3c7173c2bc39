// SPDX-License-Identifier: GPL-3.0-or-later
// What people say: comments, shots left out, corrections of the finder.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "base/text.h"
#include "desk/model/desk.h"
#include "work/measuring.h"

namespace ringfall::desk {
namespace {

constexpr const char* kReading = "reading the recording";

}  // namespace

void Desk::not_a_shot(std::int64_t shot_id) {
  edit("not a shot: " + std::to_string(shot_id), [=](logbook::Logbook& logbook) { logbook.say_not_a_shot(shot_id); },
       [=](logbook::Logbook& logbook) { work::take_back(logbook, shot_id); });
}

void Desk::move_edge(std::int64_t shot_id, double by_s) {
  const auto index = book ? book->index_of(shot_id) : std::nullopt;
  if (!index) return;
  const double edge_s = book->shot(book->shots[*index]).shot.onset_s + by_s;
  edit("edge of shot " + std::to_string(shot_id),
       [=](logbook::Logbook& logbook) {
         work::move_edge(logbook, shot_id, edge_s);
       },
       [=](logbook::Logbook& logbook) { work::take_back(logbook, shot_id); });
  quick.post("reading the shot", [this](Ticket&) -> Lane::Result { return [this] { read_chosen(); }; });
}

void Desk::comment(std::int64_t shot_id, const logbook::Comment& comment) {
  const auto made = std::make_shared<std::int64_t>(0);
  edit(fmt::format("words on shot {}", shot_id),
       [=](logbook::Logbook& logbook) { *made = logbook.add_comment(shot_id, comment); },
       [=](logbook::Logbook& logbook) { logbook.remove_comment(*made); });
}

void Desk::change_comment(std::int64_t shot_id, const logbook::Comment& was, const logbook::Comment& now) {
  edit(fmt::format("changed words on shot {}", shot_id),
       [=](logbook::Logbook& logbook) { logbook.change_comment(was.id, now); },
       [=](logbook::Logbook& logbook) { logbook.put_comment_back(shot_id, was); });
}

void Desk::remove_comment(std::int64_t shot_id, const logbook::Comment& comment) {
  edit(fmt::format("words taken off shot {}", shot_id),
       [=](logbook::Logbook& logbook) { logbook.remove_comment(comment.id); },
       [=](logbook::Logbook& logbook) { logbook.put_comment_back(shot_id, comment); });
}

void Desk::look_over(const logbook::KeptBlock& block, const std::string& file) { read_recording(block.number, block.channel, file); }

void Desk::look_into(const std::string& file) { read_recording(0, std::nullopt, file); }

void Desk::read_recording(std::int64_t block, std::optional<int> channel, const std::string& file) {
  overview.reset();
  put_off_comparison();
  slow.cancel(kReading);
  slow.post(kReading, [this, number = ++sheets_, block, channel, file](Ticket& ticket) -> Lane::Result {
    auto read = read_overview(block, file, channel, number, ticket);
    return [this, read] {
      if (read) overview = read;
    };
  });
}

void Desk::add_missed_shot(std::int64_t block, double edge_s, const std::string& file) {
  const auto made = std::make_shared<std::int64_t>(0);
  edit(fmt::format("missed shot of block {}", block),
       [=](logbook::Logbook& logbook) { *made = intake::add_missed_shot(logbook, block, edge_s, file); },
       [=](logbook::Logbook& logbook) { work::take_back(logbook, *made); });
  quick.post("reading the shot", [this, made, block, edge_s](Ticket&) -> Lane::Result {
    if (*made == 0) return {};  // it could not be kept, and that is said
    return [this, id = *made, block, edge_s] {
      say(fmt::format("The shot at {} of block {} is kept as shot {}. Ctrl and a click on its wave moves the edge.", clock_text(edge_s), block, id));
      if (book && book->index_of(id)) choose(id);
    };
  });
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

void Desk::move_block(std::int64_t block, const std::string& setup) {
  if (!book) return;
  const auto found = std::ranges::find(book->blocks, block, &logbook::KeptBlock::number);
  if (found == book->blocks.end() || found->setup == setup) return;
  edit(fmt::format("block {} to '{}'", block, setup),
       [block, setup, note = found->note](logbook::Logbook& logbook) { logbook.change_block(block, setup, note); },
       [block, before = found->setup, note = found->note](logbook::Logbook& logbook) { logbook.change_block(block, before, note); });
}

}  // namespace ringfall::desk
