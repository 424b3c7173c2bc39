// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <optional>

#include "base/failure.h"
#include "intake/kept_clip.h"
#include "logbook/logbook.h"
#include "shot/settings.h"
#include "report/entry_text.h"
#include "terminal/exit_status.h"
#include "terminal/ink.h"
#include "terminal/list_json.h"
#include "terminal/logbook_verbs.h"
#include "terminal/measure_text.h"
#include "terminal/output.h"
#include "terminal/pictures.h"
#include "terminal/shot_trace.h"

namespace ringfall::terminal {
namespace {

struct Found {
  logbook::KeptBlock block;  ///< with the one shot
  logbook::Conditions session;
};

Found find_shot(const logbook::Logbook& book, std::int64_t shot_id) {
  for (auto& block : book.blocks()) {
    const auto shot = std::ranges::find(block.shots, shot_id, &logbook::KeptShot::id);
    if (shot == block.shots.end()) continue;
    Found found{block, book.conditions(block.session)};
    found.block.shots = {*shot};
    return found;
  }
  throw RequestFailure(fmt::format("there is no shot {}; `ringfall list {}` shows those there are", shot_id, book.path()));
}

/// The shot as a recording of its own, so that it reads as `measure` prints it.
intake::Recording alone(const Found& found, const std::optional<shot::Clip>& clip) {
  const auto& kept = found.block.shots.front();
  intake::Recording recording;
  recording.file = fmt::format("Shot {}: {}, block {}", kept.id, found.block.setup, found.block.number);
  recording.format.description = fmt::format("kept from {}", found.block.file);
  recording.format.sample_rate_hz = found.block.sample_rate_hz;
  recording.format.channels = 1;
  if (clip) recording.duration_s = static_cast<double>(clip->samples.size()) / clip->sample_rate_hz;
  recording.scale.full_scale_db_spl = found.session.full_scale_db_spl;
  recording.findings = found.block.findings;
  recording.shots = {kept.shot};
  // In the logbook a shot goes by its number there, not by that in its recording.
  recording.shots.front().number = static_cast<int>(kept.id);
  return recording;
}

std::string show_text(const Found& found, const std::optional<shot::Clip>& clip, Units units, const Ink& ink) {
  const auto& kept = found.block.shots.front();
  std::string out;
  if (numbers_hidden(found.block, kept)) {
    out += fmt::format("Shot {}: {}, block {}\n\n  Its numbers are hidden until you comment on it: ringfall comment LOGBOOK {} "
                       "WORDS\n", kept.id, found.block.setup, found.block.number, kept.id);
  } else {
    out += measure_text(alone(found, clip), ink);
    if (units == Units::archers && kept.shot.arrow_speed_m_s) {
      out += "\n  arrow speed " + arrow_speed_text(*kept.shot.arrow_speed_m_s, units) + "\n";
    }
    if (clip) {
      out += "\n" + ink.strong("  Level over time") + ink.quiet(" (unweighted, re full scale)") + "\n" + shot_trace(*clip, kept.shot);
    }
  }
  out += "\n  session " + fmt::format("{}: ", found.block.session) + report::session_text(found.session, units) + "\n";
  if (!kept.dropped.empty()) out += "  " + ink.caution("left out: " + kept.dropped) + "\n";
  if (kept.analyser.empty() && !kept.unreadable) out += "  " + ink.caution("not measured yet: ringfall remeasure") + "\n";
  for (const auto& said : kept.comments) out += fmt::format("  said ({}): {}\n", said.id, report::said_text({said}));
  for (const auto& said : found.block.comments) out += fmt::format("  said of the block ({}): {}\n", said.id, report::said_text({said}));
  return out;
}

}  // namespace

int show(const ShowRequest& request) {
  const logbook::Logbook book(request.logbook);
  const Found found = find_shot(book, request.shot);
  const auto& kept = found.block.shots.front();
  std::optional<shot::Clip> clip;
  std::string damage;
  try {
    clip = intake::kept_clip(book, kept.id);
  } catch (const LogbookFailure& failure) {
    damage = failure.what();
  }
  const std::string text = request.json ? show_json(found.block, kept)
                                        : show_text(found, clip, request.units, Ink::for_standard_output());
  put(text);
  if (!clip) {
    print_error("ringfall: {}\n", damage);
    return kUnusable;
  }
  if (!request.picture_folder) return kDone;
  if (numbers_hidden(found.block, kept)) throw RequestFailure("the pictures show the numbers; comment on the shot first");
  const auto base = std::filesystem::path(*request.picture_folder) / fmt::format("shot{:02}", kept.id);
  const auto count = write_shot_pictures(*clip, kept.shot, {found.session.full_scale_db_spl}, shot::MeasureSettings{}, base.string(),
                                         fmt::format("{}, shot {}", found.block.setup, kept.id));
  const std::string said = fmt::format("{} pictures are in {}\n", count, *request.picture_folder);
  request.json ? complain(said) : put(said);
  return kDone;
}

}  // namespace ringfall::terminal
