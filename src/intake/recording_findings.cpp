// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/recording_findings.h"

#include <fmt/format.h>

#include "base/units.h"
#include "shot/buzz.h"
#include "shot/chain_findings.h"
#include "shot/measure.h"

namespace ringfall::intake {
namespace {

/// A buzz is the recording's to claim; a single shot's modulation proves nothing.
void judge_buzz(Recording& recording) {
  std::vector<shot::BuzzEvidence> shots;
  for (const shot::Shot& shot : recording.shots) shots.push_back({shot.buzz, shot.tones});
  const auto claim = shot::buzz_claimed(shots);
  if (!claim) {
    for (shot::Shot& shot : recording.shots) shot.buzz.reset();
    return;
  }
  recording.findings.push_back(
      {"buzz", Severity::note, {},
       fmt::format("Something buzzes at {:.0f} Hz in {:.0f} % of the shots: look for a loose part (quiver, sight pin, sling, "
                   "rest, serving). Stop and inspect limbs and bolts before shooting on.",
                   claim->rate_hz, 100.0 * claim->same_rate)});
}

}  // namespace

void judge_recording(Recording& recording, const std::vector<shot::ChainEvidence>& evidence) {
  const auto chain =
      shot::chain_findings(evidence, {recording.format.sample_rate_hz, recording.format.lossy});
  recording.findings.insert(recording.findings.end(), chain.recording.begin(), chain.recording.end());
  for (std::size_t k = 0; k < recording.shots.size(); ++k) {
    auto& findings = recording.shots[k].findings;
    findings.insert(findings.end(), chain.per_shot[k].begin(), chain.per_shot[k].end());
  }
  judge_buzz(recording);
  if (recording.shots.empty()) {
    recording.findings.push_back(
        {"no_shot", Severity::caution, {},
         "No loud edge that looks like a shot was found. Was the microphone on and near the bow (behind the line)? With "
         "--expect N the N most shot-like events are taken."});
  }
  if (!recording.scale.full_scale_db_spl) {
    recording.findings.push_back(
        {"not_calibrated", Severity::note, {},
         fmt::format("Levels are re full scale. Hum, ping, loudness and sharpness are computed as if a full-scale peak were "
                     "{:.0f} dB SPL: compare them within one chain and gain only.",
                     kNominalFullScale_db_spl)});
  }
  for (shot::Shot& shot : recording.shots) {
    shot::void_numbers(shot, shot.findings);
    shot::void_numbers(shot, recording.findings);
  }
}

}  // namespace ringfall::intake
