// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/session_report.h"

#include <algorithm>

#include "base/check.h"
#include "report/answer_words.h"
#include "report/sentences.h"
#include "report/session_summary.h"

namespace ringfall::report {
namespace {

/// One entry a set-up, the baseline first; a set-up without sound has an empty one.
std::vector<SetUpSound> in_order(std::vector<SetUpSound> sounds, const std::vector<std::string>& setups) {
  std::vector<SetUpSound> ordered;
  for (const auto& setup : setups) {
    const auto found = std::ranges::find(sounds, setup, &SetUpSound::setup);
    if (found != sounds.end()) {
      ordered.push_back(std::move(*found));
    } else {
      ordered.emplace_back();
      ordered.back().setup = setup;
    }
  }
  return ordered;
}

bool has_assumed_air(const compare::Session& session) {
  const auto has_speed = [](const compare::SessionShot& entry) { return entry.shot.arrow_speed_m_s.has_value(); };
  return std::ranges::any_of(session.kept(), [&](const compare::SessionBlock* block) {
    return !block->facts.temperature_c && std::ranges::any_of(block->shots, has_speed);
  });
}

}  // namespace

std::vector<RecordingFacts> kept_recordings(const compare::Session& session) {
  std::vector<RecordingFacts> facts;
  for (const auto& block : session.blocks) {
    facts.push_back({block.file, "shots kept in a logbook", block.sample_rate_hz, block.channel, std::nullopt, std::nullopt,
                     block.facts.calibrated.value_or(false)});
  }
  return facts;
}

SessionReport session_report(ReportSource source) {
  SessionReport report;
  const auto& comparison = source.comparison;
  report.main_number = shot::find_number(comparison.main_number);
  check(report.main_number != nullptr, "a comparison's main number is one of the list");
  report.title = asked(comparison);
  // Where some sessions were calibrated and others not, a set-up's mean level is of no scale; differences are taken within a session.
  const bool any = std::ranges::any_of(source.recordings, &RecordingFacts::calibrated);
  report.calibrated = any && std::ranges::all_of(source.recordings, &RecordingFacts::calibrated);
  report.level_reference = report.calibrated ? "re 20 uPa" : any ? "re 20 uPa or full scale, by session" : "re full scale";
  source.sounds = in_order(std::move(source.sounds), comparison.setups);
  for (SetUpSound& sound : source.sounds) {
    const auto pooled = std::ranges::find(source.tones, sound.setup, &compare::SetUpTones::setup);
    if (pooled != source.tones.end()) sound.pooled = *pooled;
  }
  for (const auto& setup : comparison.setups) {
    report.setups.push_back(setup_summary(source.session, setup, *report.main_number));
  }
  for (std::size_t k = 0; k < comparison.against.size(); ++k) {
    const auto& against = comparison.against[k];
    report.verdicts.push_back(main_sentence(against, comparison.baseline));
    for (auto& sentence : ring_down_sentences(against, comparison.baseline)) {
      report.sound_sentences.push_back(std::move(sentence));
    }
    report.tone_changes.push_back(against.tones);
    auto tones = tone_sentence(report.tone_changes.back(), against.setup, comparison.baseline);
    if (!tones.empty()) report.sound_sentences.push_back(std::move(tones));
  }
  report.air_assumed = has_assumed_air(source.session);
  report.agreements = agreements(source.session);
  report.doubts = doubts_of(source);
  report.source = std::move(source);
  return report;
}

}  // namespace ringfall::report
