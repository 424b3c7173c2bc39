// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/season_pool.h"

#include <set>

#include "compare/tone_pool.h"

namespace ringfall::compare {
namespace {

void take_tones(Session& session, const std::vector<SetUpTones>& setups) {
  for (const SetUpTones& setup : setups) {
    for (const SetUpTone& pooled : setup.tones) {
      for (const ToneReading& reading : pooled.readings) {
        shot::Tone tone = pooled.tone;
        tone.level_db = reading.level_db;
        tone.ring_time_s = reading.ring_time_s.value_or(tone.ring_time_s);
        session.blocks[reading.block].shots[reading.shot].shot.tones.push_back(tone);
      }
    }
  }
}

}  // namespace

bool pool_each_session(Session& session, const shot::MeasureSettings& settings, const ClipOf& clip_of) {
  std::set<int> numbers;
  for (const SessionBlock& block : session.blocks) numbers.insert(block.session);
  for (const int number : numbers) {
    TonePool pool(settings);
    for (std::size_t block = 0; block < session.blocks.size(); ++block) {
      auto& own = session.blocks[block];
      if (own.session != number) continue;
      for (std::size_t shot = 0; shot < own.shots.size(); ++shot) {
        if (!TonePool::wants(session, block, shot)) continue;
        const auto sound = clip_of(block, shot);
        if (!sound) return false;
        pool.add(session, block, shot, sound->clip, sound->scale);
        own.shots[shot].shot.tones.clear();
      }
    }
    take_tones(session, pool.read(session));
  }
  return true;
}

}  // namespace ringfall::compare
