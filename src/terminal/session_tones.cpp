// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/session_tones.h"

#include "intake/clips.h"
#include "intake/kept_clip.h"

namespace ringfall::terminal {
namespace {

shot::Scale scale_of(const logbook::Logbook& book, int session) { return {book.conditions(session).full_scale_db_spl}; }

}  // namespace

std::vector<compare::SetUpTones> pooled_tones(MeasuredSession& measured) {
  auto& session = measured.session;
  compare::TonePool pool(measured.settings.measure);
  for (std::size_t block = 0; block < session.blocks.size(); ++block) {
    if (!session.blocks[block].dropped.empty()) continue;
    const auto& recording = measured.recordings[block];
    intake::clips_of(recording, measured.settings.find, [&](std::size_t shot, const shot::Clip& clip) {
      pool.add(session, block, shot, clip, recording.scale);
    });
  }
  return pool.read(session);
}

std::vector<compare::SetUpTones> pooled_tones(compare::Session& session, const logbook::Logbook& book) {
  compare::TonePool pool{shot::MeasureSettings{}};
  for (std::size_t block = 0; block < session.blocks.size(); ++block) {
    const auto& own = session.blocks[block];
    const shot::Scale scale = scale_of(book, own.session);
    for (std::size_t shot = 0; shot < own.shots.size(); ++shot) {
      if (!compare::TonePool::wants(session, block, shot)) continue;
      pool.add(session, block, shot, intake::kept_clip(book, own.shots[shot].id), scale);
    }
  }
  return pool.read(session);
}

}  // namespace ringfall::terminal
