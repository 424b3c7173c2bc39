// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/adding.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/failure.h"

namespace ringfall::work {
namespace {

std::string bow_of(const logbook::Logbook& book, const Addition& addition) {
  return (addition.place.session > 0 ? book.conditions(addition.place.session) : book.conditions()).bow;
}

}  // namespace

void check_addition(const logbook::Logbook& book, const Addition& addition) {
  if (is_to_be_made(book, bow_of(book, addition), addition.place.setup, addition.new_setup)) return;
  if (addition.new_setup != NewSetUp::meant && addition.changed.empty() && !addition.added_mass_kg) return;
  throw RequestFailure(fmt::format("the set-up '{}' is there already: --new, --changed and --added-mass are for a new one", addition.place.setup));
}

std::vector<Kept> keep_recordings(logbook::Logbook& book, const std::vector<intake::Recording>& recordings, const shot::FindSettings& find,
                                  const Addition& addition, const std::function<void(const Kept&)>& told) {
  check_addition(book, addition);
  for (const auto& recording : recordings) intake::refuse_kept_sound(book, recording, find);
  // All or none, the set-up too: what is stopped half-way can be said again as it was.
  logbook::Transaction whole(book.database());
  const std::string bow = bow_of(book, addition);
  bool to_make = is_to_be_made(book, bow, addition.place.setup, addition.new_setup);
  std::vector<Kept> all;
  for (std::size_t k = 0; k < recordings.size(); ++k) {
    Kept kept;
    kept.recording = k;
    if (!recordings[k].shots.empty()) {
      if (to_make) {
        kept.made_setup = true;
        kept.made_baseline = setup_names(book, bow).empty();
        book.add_setup({addition.place.setup, addition.changed, false, addition.added_mass_kg, bow});
        to_make = false;
      }
      kept.block = intake::add_recording(book, recordings[k], find, addition.place);
    }
    all.push_back(std::move(kept));
  }
  whole.commit();
  // Said only now: it is true now.
  if (told) std::ranges::for_each(all, told);
  return all;
}

std::string no_shot_sentence(const intake::Recording& recording) {
  const auto finding = std::ranges::find(recording.findings, std::string("no_shot"), &Finding::code);
  return fmt::format("{}: no shot was found, nothing is kept of it. {}", recording.file,
                     finding == recording.findings.end() ? "" : finding->sentence);
}

}  // namespace ringfall::work
