// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cstdio>

#include "base/failure.h"
#include "base/text.h"
#include "intake/kept_clip.h"
#include "logbook/logbook.h"
#include "report/entry_text.h"
#include "terminal/exit_status.h"
#include "terminal/ink.h"
#include "terminal/list_json.h"
#include "terminal/logbook_verbs.h"
#include "terminal/output.h"
#include "terminal/setup_text.h"
#include "terminal/text_table.h"

namespace ringfall::terminal {
namespace {

std::string state_text(const logbook::KeptShot& kept, bool hidden) {
  if (!kept.dropped.empty()) return "left out: " + kept.dropped;
  if (kept.analyser.empty()) return "not measured yet (remeasure)";
  return hidden ? "hidden until you comment" : "";
}

/// Each comment behind its number, which `comment --edit` and `--remove` take.
std::string numbered_text(const std::vector<logbook::Comment>& comments) {
  std::string text;
  for (const auto& said : comments) text += fmt::format("{}({}) {}", text.empty() ? "" : "; ", said.id, report::said_text({said}));
  return text;
}

std::string block_text(const logbook::KeptBlock& block, const Ink& ink) {
  std::string head = fmt::format("Block {}: {}", block.number, block.setup);
  std::string rest = "  " + block.file + (block.note.empty() ? "" : "; " + block.note);
  std::string out = "\n" + ink.strong(head) + ink.quiet(rest) + "\n";
  if (!block.dropped.empty()) out += "  " + ink.caution("left out: " + block.dropped) + "\n";
  if (!block.comments.empty()) out += "  said of the block: " + numbered_text(block.comments) + "\n";
  TextTable table;
  table.add_column("shot", "");
  table.add_column("at", "m:s");
  table.add_column("hum", "0-10");
  table.add_column("ping", "0-10");
  table.add_column("exposure", "dB(A)");
  table.add_column("said", "", TextTable::Side::left);
  table.add_column("", "", TextTable::Side::left);
  for (const auto& kept : block.shots) {
    const bool hidden = numbers_hidden(block, kept);
    const auto cell = [hidden](std::optional<double> value) { return hidden ? std::string("?") : plain_number(value, 1); };
    table.add_row({std::to_string(kept.id), clock_text(kept.shot.onset_s), cell(kept.shot.hum), cell(kept.shot.ping),
                   cell(kept.shot.levels.exposure_db), numbered_text(kept.comments), state_text(kept, hidden)});
  }
  const auto lines = table.lines(2);
  for (std::size_t k = 0; k < lines.size(); ++k) out += k < 2 ? ink.quiet(lines[k]) : lines[k];
  return out;
}

std::string list_text(const logbook::Logbook& book, Units units, const Ink& ink) {
  std::string out;
  const auto bows = book.bows();
  out += ink.strong(bows.size() == 1 ? "Bow" : "Bows") + "\n";
  for (const auto& bow : bows) out += bow_line(bow, units);
  out += "\n" + ink.strong("Set-ups") + "\n";
  const auto setups = book.setups();
  for (const auto& setup : setups) out += setup_line(setup, bows.size() > 1, units);
  if (setups.empty()) out += "  none yet; the first recording added makes one\n";
  const auto blocks = book.blocks();
  for (const auto& session : book.sessions()) {
    out += "\n" + ink.strong(fmt::format("Session {}: ", session.session)) + report::session_text(session, units) + "\n";
    for (const auto& block : blocks) {
      if (block.session == session.session) out += block_text(block, ink);
    }
  }
  return out;
}

}  // namespace

int list(const ListRequest& request) {
  const logbook::Logbook book(request.logbook);
  if (request.check) {
    book.check_whole();
    const auto damaged = intake::damaged_clips(book);
    if (!damaged.empty()) throw LogbookFailure(damaged.front().sentence);
  }
  const std::string text = request.json ? list_json(book) : list_text(book, request.units, Ink::for_standard_output());
  put(text);
  std::string damaged;
  for (const auto& block : book.blocks()) {
    for (const auto& kept : block.shots) {
      if (kept.unreadable) damaged += (damaged.empty() ? "" : ", ") + std::to_string(kept.id);
    }
  }
  if (damaged.empty()) return kDone;
  print_error("ringfall: {}: the file is damaged under the sound of shot {}; keep it as it is and go on with your last copy of it, or "
                     "with what `ringfall export` can still read\n", request.logbook, damaged);
  return kUnusable;
}

}  // namespace ringfall::terminal
