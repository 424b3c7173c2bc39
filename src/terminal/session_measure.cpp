// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/session_measure.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/failure.h"
#include "compare/comment_count.h"
#include "terminal/hear.h"

namespace ringfall::terminal {

namespace {

/// The same samples give the same numbers to the last digit, wherever they stand in a recording; two shots never do.
bool same_sound(const shot::Shot& one, const shot::Shot& other) {
  const auto& a = one.levels;
  const auto& b = other.levels;
  return a.peak_db && a.exposure_z_db && a.peak_db == b.peak_db && a.exposure_db == b.exposure_db && a.exposure_z_db == b.exposure_z_db &&
         a.exposure_high_db == b.exposure_high_db && a.fast_max_db == b.fast_max_db;
}

/// FileFailure: two recordings that count hold one shot, whatever their names ("a1.wav" and "a1 (1).wav").
void refuse_doubles(const compare::Session& session) {
  const auto blocks = session.kept();
  for (std::size_t k = 1; k < blocks.size(); ++k) {
    for (std::size_t other = 0; other < k; ++other) {
      for (const auto& shot : blocks[k]->shots) {
        const auto twin = std::ranges::find_if(blocks[other]->shots, [&](const auto& before) { return same_sound(shot.shot, before.shot); });
        if (twin == blocks[other]->shots.end()) continue;
        throw FileFailure(fmt::format("{}: shot {} of it is the very sound of shot {} of {}, and the same shot must not count twice; leave one "
                                      "of them out", blocks[k]->file, shot.shot.number, twin->shot.number, blocks[other]->file));
      }
    }
  }
}

}  // namespace

MeasuredSession measure_session(const compare::SessionPlan& plan, const HearRequest& request) {
  const auto options = recording_options(request);
  std::vector<std::string> files;
  for (const auto& block : plan.blocks) files.push_back(plan.path_of(block));
  Heard heard = hear(files, options, request.jobs);

  MeasuredSession measured;
  measured.settings = options.settings;
  measured.complaints = std::move(heard.complaints);
  for (const auto& planned : plan.blocks) {
    const auto recording = std::ranges::find(heard.recordings, plan.path_of(planned), &intake::Recording::file);
    if (recording == heard.recordings.end()) continue;
    compare::SessionBlock block = planned;
    block.findings = recording->findings;
    if (std::ranges::find(request.given, "--temperature") != request.given.end()) {
      block.facts.temperature_c = options.settings.find.temperature_c;
    }
    if (auto doubt = compare::comment_count_finding(plan, planned.file, recording->shots.size())) {
      block.findings.push_back(std::move(*doubt));
    }
    block.sample_rate_hz = recording->format.sample_rate_hz;
    for (const auto& shot : recording->shots) {
      const auto said = plan.said.find({planned.file, shot.number});
      block.shots.push_back({shot, said == plan.said.end() ? compare::Said{} : said->second});
    }
    measured.session.blocks.push_back(std::move(block));
    measured.recordings.push_back(*recording);
  }
  refuse_doubles(measured.session);
  return measured;
}

}  // namespace ringfall::terminal
