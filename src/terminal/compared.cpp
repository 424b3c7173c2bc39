// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/compared.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <utility>

#include "base/failure.h"
#include "compare/number_table.h"
#include "compare/recordings_plan.h"
#include "intake/kept_clip.h"
#include "terminal/session_tones.h"
#include "work/bow_choice.h"

namespace ringfall::terminal {
namespace {

std::vector<std::string> planned_setups(const compare::SessionPlan& plan) {
  compare::Session session;
  session.blocks = plan.blocks;
  return session.setups();
}

Compared compare_recordings(const CompareRequest& request) {
  const auto plan = request.recordings.empty() ? compare::session_plan_of(request.source) : compare::plan_of_recordings(request.recordings);
  compare::check_question(planned_setups(plan), request.baseline, compare::measures_of({}), request.main_number);
  Compared result;
  auto facts = request.recordings.empty() ? compare::setup_facts_of(request.source) : std::vector<compare::SetUpFacts>();
  result.measured = measure_session(plan, request.hear);
  result.measured.session.setup_facts = std::move(facts);
  if (!result.measured.complaints.empty() && result.measured.session.setups().size() < 2) {
    result.usable = false;
    return result;
  }
  result.tones = pooled_tones(result.measured);
  result.comparison =
      compare::compare_setups(result.measured.session, request.baseline, request.main_number, result.tones);
  return result;
}

/// Nothing is measured of numbers that are there already.
void refuse_measuring_options(const CompareRequest& request, const std::string& source, const char* why) {
  if (request.hear.given.empty()) return;
  throw RequestFailure(fmt::format("{}: {} {} how recordings are measured, and {}", source, fmt::join(request.hear.given, ", "),
                                   request.hear.given.size() == 1 ? "says" : "say", why));
}

/// A shot whose sound is damaged counts for nothing, and the others for what they are.
void leave_out_damaged(compare::Session& session, const logbook::Logbook& book) {
  for (auto& block : session.blocks) {
    std::erase_if(block.shots, [&](compare::SessionShot& shot) {
      try {
        intake::kept_clip(book, shot.id);
        return false;
      } catch (const logbook::Damage&) {
        shot.dropped = "its kept sound is damaged";
        block.left_out.push_back(fmt::format("Shot {} of {} ('{}') is left out: {}.", shot.id, block.file, block.setup, shot.dropped));
        block.dropped_shots.push_back(shot);
        return true;
      }
    });
  }
}

Compared compare_logbook(const CompareRequest& request) {
  refuse_measuring_options(request, request.source,
                           "a logbook holds its shots measured; what was wrong when they were is changed with `ringfall session "
                           "--change` and `ringfall remeasure`");
  const logbook::Logbook book(request.source);
  Compared result;
  result.measured.logbook = request.source;
  auto& session = result.measured.session;
  auto [comparable, baseline] = work::comparable(book, request.bow, request.baseline);
  session = std::move(comparable);
  leave_out_damaged(session, book);
  compare::check_question(session.setups(), baseline, compare::measures_of(session), request.main_number);
  result.tones = pooled_tones(session, book);
  result.comparison = compare::compare_setups(session, baseline, request.main_number, result.tones);
  return result;
}

Compared compare_table(const CompareRequest& request) {
  refuse_measuring_options(request, request.table, "this table holds numbers already; leave them out");
  Compared result;
  auto& session = result.measured.session;
  session = compare::read_number_table(request.table);
  const bool has_exposure = std::ranges::find(session.columns, "exposure_db", &compare::Column::name) != session.columns.end();
  const std::string first = has_exposure ? "exposure_db" : session.columns.front().name;
  const std::string main = request.main_number.empty() ? first : request.main_number;
  result.comparison = compare::compare_setups(session, request.baseline, main);
  return result;
}

}  // namespace

Compared compare_source(const CompareRequest& request) {
  if (request.bow && (!request.table.empty() || !logbook::is_sqlite_file(request.source))) {
    throw RequestFailure("--bow is for a logbook; recordings and tables of numbers name no bow");
  }
  Compared compared = !request.table.empty()                    ? compare_table(request)
                      : request.recordings.empty() && logbook::is_sqlite_file(request.source) ? compare_logbook(request)
                                                                 : compare_recordings(request);
  compared.comparison.wanted_difference = request.wanted_difference;
  return compared;
}

}  // namespace ringfall::terminal
