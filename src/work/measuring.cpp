// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/measuring.h"

#include <utility>

#include "base/failure.h"
#include "base/version.h"

namespace ringfall::work {

MeasuredAgain measure_again(logbook::Logbook& book, Again which, const std::function<bool(double)>& go_on) {
  MeasuredAgain result;
  std::vector<shot::Shot> now;
  const auto blocks = book.blocks();
  std::size_t all = 0;
  for (const auto& block : blocks) all += block.shots.size();
  std::size_t seen = 0;
  for (const auto& block : blocks) {
    for (const auto& kept : block.shots) {
      const double share = static_cast<double>(seen++) / static_cast<double>(all);
      if (which == Again::of_other_versions && (kept.analyser.empty() || kept.analyser == kVersion)) continue;
      if (go_on && !go_on(share)) return {{}, {}, true};
      try {
        now.push_back(intake::remeasured(book, block, kept));
        result.before.push_back(kept);
      } catch (const LogbookFailure& failure) {
        result.failed.push_back({kept.id, block.number, failure.what()});
      }
    }
  }
  if (go_on && !go_on(1.0)) return {{}, {}, true};
  logbook::Transaction together(book.database());
  for (std::size_t k = 0; k < now.size(); ++k) book.set_numbers(result.before[k].id, now[k], kVersion);
  together.commit();
  return result;
}

void put_back(logbook::Logbook& book, const std::vector<logbook::KeptShot>& before) {
  logbook::Transaction together(book.database());
  for (const auto& kept : before) book.set_numbers(kept.id, kept.shot, kept.analyser);
  together.commit();
}

void move_edge(logbook::Logbook& book, std::int64_t shot_id, double edge_s) {
  logbook::Transaction together(book.database());
  book.move_edge(shot_id, edge_s);
  intake::measure_again(book, shot_id);
  together.commit();
}

logbook::Correction::Kind take_back(logbook::Logbook& book, std::int64_t shot_id) {
  logbook::Transaction together(book.database());
  const auto kind = intake::take_back_correction(book, shot_id);
  together.commit();
  return kind;
}

}  // namespace ringfall::work
