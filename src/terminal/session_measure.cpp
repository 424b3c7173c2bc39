// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/session_measure.h"

#include <algorithm>

#include "compare/comment_count.h"
#include "terminal/hear.h"

namespace ringfall::terminal {

MeasuredSession measure_session(const std::string& source, const HearRequest& request) {
  const auto plan = compare::read_session_plan(source);
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
  return measured;
}

}  // namespace ringfall::terminal
