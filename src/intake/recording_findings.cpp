// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/recording_findings.h"

#include <fmt/format.h>

#include <utility>

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

constexpr double kFaintPeak = 0.003;       // -50 dB re full scale
constexpr double kSpeechRate_hz = 8000.0;  // a telephone's

/// What is known of why there is none, or what to look at.
std::string why_no_shot(const Recording& recording) {
  if (recording.peak && *recording.peak == 0.0) {
    return "Every sample is 0: this is digital silence. The microphone was off, muted or not allowed, or it is the wrong channel "
           "(--channel).";
  }
  if (recording.format.sample_rate_hz <= kSpeechRate_hz) {
    return fmt::format("At {:g} Hz nothing above {:g} kHz is in it, where most of a loud edge lies: this is how calls and voice notes "
                       "are kept. Record at 48 kHz with a sound recorder.",
                       recording.format.sample_rate_hz, recording.format.sample_rate_hz / 2000.0);
  }
  if (recording.peak && *recording.peak < kFaintPeak) {
    return fmt::format("Nothing in it is louder than {:.0f} dB re full scale: turn the gain up, or put the microphone nearer to the bow "
                       "(behind the line).", power_to_db(*recording.peak * *recording.peak));
  }
  return "Was the microphone on and near the bow (behind the line)? With --expect N the N most shot-like events are taken.";
}

}  // namespace

void judge_recording(Recording& recording, const std::vector<shot::ChainEvidence>& evidence) {
  const auto chain =
      shot::chain_findings(evidence, {recording.format.sample_rate_hz, recording.format.lossy});
  recording.findings.insert(recording.findings.end(), chain.recording.begin(), chain.recording.end());
  for (std::size_t k = 0; k < recording.shots.size(); ++k) {
    auto& findings = recording.shots[k].findings;
    for (Finding finding : chain.per_shot[k]) {
      finding.origin = Origin::recording;
      findings.push_back(std::move(finding));
    }
  }
  judge_buzz(recording);
  if (recording.shots.empty()) {
    recording.findings.push_back(
        {"no_shot", Severity::caution, {}, "No loud edge that looks like a shot was found. " + why_no_shot(recording)});
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
