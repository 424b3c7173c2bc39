// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cstdio>

#include "base/text.h"
#include "logbook/logbook.h"
#include "terminal/exit_status.h"
#include "terminal/ink.h"
#include "terminal/list_json.h"
#include "terminal/text_table.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {
namespace {

std::string said_text(const std::vector<logbook::Comment>& comments) {
  std::string text;
  const auto append = [&text](const std::string& part) { text += (text.empty() ? "" : ", ") + part; };
  for (const auto& said : comments) {
    if (said.loud) append(fmt::format("loud {:g}", *said.loud));
    if (said.hum) append(fmt::format("hum {:g}", *said.hum));
    if (said.ping) append(fmt::format("ping {:g}", *said.ping));
    if (said.feel) append(fmt::format("feel {:g}", *said.feel));
    if (!said.words.empty()) append("\"" + said.words + "\"");
  }
  return text;
}

std::string state_text(const logbook::KeptShot& kept) {
  if (!kept.dropped.empty()) return "left out: " + kept.dropped;
  return kept.analyser.empty() ? "not measured yet (remeasure)" : "";
}

std::string block_text(const logbook::KeptBlock& block, const Ink& ink) {
  std::string head = fmt::format("Block {}: {}", block.number, block.setup);
  std::string rest = "  " + block.file + (block.note.empty() ? "" : "; " + block.note);
  std::string out = "\n" + ink.strong(head) + ink.quiet(rest) + "\n";
  if (!block.dropped.empty()) out += "  " + ink.caution("left out: " + block.dropped) + "\n";
  TextTable table;
  table.add_column("shot", "");
  table.add_column("at", "m:s");
  table.add_column("hum", "0-10");
  table.add_column("ping", "0-10");
  table.add_column("exposure", "dB(A)");
  table.add_column("said", "", TextTable::Side::left);
  table.add_column("", "", TextTable::Side::left);
  for (const auto& kept : block.shots) {
    table.add_row({std::to_string(kept.id), clock_text(kept.shot.onset_s), plain_number(kept.shot.hum, 1),
                   plain_number(kept.shot.ping, 1), plain_number(kept.shot.levels.exposure_db, 1), said_text(kept.comments),
                   state_text(kept)});
  }
  const auto lines = table.lines(2);
  for (std::size_t k = 0; k < lines.size(); ++k) out += k < 2 ? ink.quiet(lines[k]) : lines[k];
  return out;
}

std::string list_text(const logbook::Logbook& book, const Ink& ink) {
  const auto conditions = book.conditions();
  std::string out = ink.strong(conditions.bow) + fmt::format(", {}", conditions.started_at);
  if (!conditions.place.empty()) out += ", " + conditions.place;
  if (conditions.distance_m) out += fmt::format(", {:g} m", *conditions.distance_m);
  out += fmt::format(", {:g} C, levels {}", conditions.temperature_c,
                     conditions.full_scale_db_spl ? "re 20 uPa" : "re full scale (not calibrated)");
  if (!conditions.chain.empty()) out += "; " + conditions.chain;
  out += "\n\n" + ink.strong("Set-ups") + "\n";
  for (const auto& setup : book.setups()) {
    out += "  " + setup.name + (setup.baseline ? " (baseline)" : "");
    if (!setup.changed.empty()) out += ": " + setup.changed;
    if (setup.added_mass_kg) out += fmt::format(", adds {:g} g", *setup.added_mass_kg * 1000.0);
    out += "\n";
  }
  for (const auto& block : book.blocks()) out += block_text(block, ink);
  return out;
}

}  // namespace

int list(const ListRequest& request) {
  const logbook::Logbook book(request.logbook);
  if (request.check) book.check_whole();
  const std::string text = request.json ? list_json(book) : list_text(book, Ink::for_standard_output());
  std::fwrite(text.data(), 1, text.size(), stdout);
  return kDone;
}

}  // namespace ringfall::terminal
