// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/sheets/compare_sheet.h"

#include <algorithm>
#include <map>
#include <utility>

#include "audio/sound_bytes.h"
#include "base/units.h"
#include "compare/tone_pool.h"
#include "intake/kept_clip.h"
#include "report/excerpt.h"
#include "report/session_document.h"
#include "report/setup_figures.h"
#include "report/typical_shot.h"
#include "work/bow_choice.h"

namespace ringfall::desk {
namespace {

constexpr std::size_t kExcerptsASetUp = 4;

void add_figure(CompareSheet& sheet, std::string name, std::optional<plot::Figure> figure) {
  if (!figure) return;
  figure->title.clear();
  sheet.figures.push_back({std::move(name), std::move(*figure)});
}

void add_figures(CompareSheet& sheet) {
  const report::SessionReport& said = sheet.report;
  add_figure(sheet, "every shot", report::dots_figure(said, *said.main_number));
  add_figure(sheet, "differences", report::differences_figure(said));
  add_figure(sheet, "decay, A", report::decays_figure(said, true));
  add_figure(sheet, "decay, unweighted", report::decays_figure(said, false));
  add_figure(sheet, "tails", report::tails_figure(said));
  for (std::size_t k = 0; k < said.source.sounds.size(); ++k) {
    add_figure(sheet, said.source.sounds[k].setup, report::typical_figure(said, k));
  }
  for (const auto& agreement : said.agreements) add_figure(sheet, agreement.rating + " in words", report::said_figure(said, agreement));
}

/// Takes what listening and the pictures need of each shot while its sound is at hand.
class Ears {
 public:
  Ears(const compare::Session& session, const shot::Number& main_number) {
    for (const auto& setup : session.setups()) {
      ears_.try_emplace(setup, setup, shot::MeasureSettings{});
      if (const auto at = report::typical_shot(session, setup, main_number)) {
        typical_[setup] = session.blocks[at->block].shots[at->shot].id;
      }
    }
  }
  void add(const compare::SessionBlock& block, const compare::SessionShot& shot, const shot::Clip& clip, const shot::Scale& scale) {
    auto& ear = ears_.at(block.setup);
    ear.add(clip, shot.shot, scale);
    const auto typical = typical_.find(block.setup);
    const bool is_typical = typical != typical_.end() && typical->second == shot.id;
    if (is_typical) ear.add_typical(clip, shot.shot, scale, block.file);
    if (is_typical || taken_[block.setup] + 1 < kExcerptsASetUp) {
      ++taken_[block.setup];
      excerpts_.push_back({block.setup, shot.id, report::excerpt_of(clip), clip.sample_rate_hz});
    }
  }
  void finish(const compare::Session& session, report::ReportSource& source, std::vector<Excerpt>& excerpts) {
    std::vector<std::vector<float>> sounds;
    for (const Excerpt& excerpt : excerpts_) sounds.push_back(excerpt.samples);
    source.clip_gain_db = report::common_gain_db(sounds);
    const auto gain = static_cast<float>(db_to_amplitude(source.clip_gain_db));
    for (Excerpt& excerpt : excerpts_) {
      for (float& sample : excerpt.samples) sample *= gain;
      const auto typical = typical_.find(excerpt.setup);
      if (typical == typical_.end() || typical->second != excerpt.shot) continue;
      source.clips.push_back({excerpt.setup, "shot " + std::to_string(excerpt.shot), static_cast<int>(excerpt.shot),
                              audio::sound_bytes(excerpt.samples, excerpt.sample_rate_hz, audio::SampleCoding::flac_24_bit)});
    }
    for (const auto& setup : session.setups()) source.sounds.push_back(ears_.at(setup).sound());
    excerpts = std::move(excerpts_);
  }

 private:
  std::map<std::string, report::SetUpEar> ears_;
  std::map<std::string, std::int64_t> typical_;
  std::map<std::string, std::size_t> taken_;
  std::vector<Excerpt> excerpts_;
};

}  // namespace

std::shared_ptr<const CompareSheet> compare_numbers(const logbook::Logbook& logbook, const std::string& main_number,
                                                    std::uint64_t number) {
  auto sheet = std::make_shared<CompareSheet>();
  sheet->number = number;
  report::ReportSource source;
  auto [session, baseline] = work::comparable(logbook, work::newest_bow(logbook), std::nullopt);
  source.session = std::move(session);
  source.comparison = compare::compare_setups(source.session, baseline, main_number);
  source.recordings = report::kept_recordings(source.session);
  sheet->report = report::session_report(std::move(source));
  add_figures(*sheet);
  sheet->document = report::session_document(sheet->report);
  return sheet;
}

std::shared_ptr<const CompareSheet> compare_sounds(const logbook::Logbook& logbook, const std::string& main_number,
                                                   std::uint64_t number, Ticket& ticket) {
  auto sheet = std::make_shared<CompareSheet>();
  sheet->number = number;
  sheet->with_sound = true;
  report::ReportSource source;
  auto [comparable, baseline] = work::comparable(logbook, work::newest_bow(logbook), std::nullopt);
  source.session = std::move(comparable);
  compare::Session& session = source.session;
  compare::check_question(session.setups(), baseline, compare::measures_of(session), main_number);
  std::size_t all = 0;
  for (const auto& block : session.blocks) all += block.dropped.empty() ? block.shots.size() : 0;
  compare::TonePool pool{shot::MeasureSettings{}};
  Ears ears(session, *shot::find_number(main_number));
  std::size_t done = 0;
  for (std::size_t block = 0; block < session.blocks.size(); ++block) {
    const auto& own = session.blocks[block];
    if (!own.dropped.empty()) continue;
    const shot::Scale scale{logbook.conditions(own.session).full_scale_db_spl};
    for (std::size_t shot = 0; shot < own.shots.size(); ++shot) {
      if (ticket.cancelled()) return nullptr;
      const shot::Clip clip = intake::kept_clip(logbook, own.shots[shot].id);
      pool.add(session, block, shot, clip, scale);
      ears.add(own, own.shots[shot], clip, scale);
      ticket.report(0.85 * static_cast<double>(++done) / static_cast<double>(all));
    }
  }
  // Each of these takes as long as several shots: 0.4 to 1 s with 280 shots.
  const auto stopped = [&ticket](double share) {
    ticket.report(share);
    return ticket.cancelled();
  };
  ears.finish(session, source, sheet->excerpts);
  if (stopped(0.87)) return nullptr;
  source.tones = pool.read(session);
  if (stopped(0.91)) return nullptr;
  source.comparison = compare::compare_setups(session, baseline, main_number, source.tones, [&ticket] { return !ticket.cancelled(); });
  source.recordings = report::kept_recordings(session);
  if (stopped(0.93)) return nullptr;
  sheet->report = report::session_report(std::move(source));
  if (stopped(0.94)) return nullptr;
  add_figures(*sheet);
  sheet->document = report::session_document(sheet->report);
  if (stopped(0.95)) return nullptr;
  return sheet;
}

}  // namespace ringfall::desk
