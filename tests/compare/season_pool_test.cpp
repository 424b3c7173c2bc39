// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/season_pool.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "compare/made_up_clip.h"
#include "shot/measure.h"

namespace ringfall::compare {
namespace {

/// Two evenings of three shots; only the second has the tone at 170 Hz.
struct TwoEvenings {
  Session session;
  std::vector<std::vector<shot::Clip>> clips;

  TwoEvenings() {
    for (int evening = 1; evening <= 2; ++evening) {
      std::vector<shot::SyntheticTone> tones = {{95.0, 78.0, 0.3}};
      if (evening == 2) tones.push_back({170.0, 78.0, 0.3});
      SessionBlock block;
      block.session = evening;
      block.setup = "bare";
      clips.emplace_back();
      for (std::uint64_t k = 1; k <= 3; ++k) {
        clips.back().push_back(made_up_clip(10 * static_cast<std::uint64_t>(evening) + k, tones));
        block.shots.push_back({shot::measure_shot(clips.back().back(), {}, {}).shot, {}});
      }
      session.blocks.push_back(block);
    }
  }
  bool shows(std::size_t block, std::size_t shot, double frequency_hz) const {
    return std::ranges::any_of(session.blocks[block].shots[shot].shot.tones,
                               [&](const shot::Tone& tone) { return std::abs(tone.frequency_hz / frequency_hz - 1.0) < 0.01; });
  }
};

TEST(SeasonPool, EachEveningIsReadByItself) {
  TwoEvenings season;
  // One shot missed its tone: the others of that evening show it where to look.
  season.session.blocks[1].shots[2].shot.tones.clear();
  int asked = 0;
  EXPECT_TRUE(pool_each_session(season.session, {}, [&](std::size_t block, std::size_t shot) {
    ++asked;
    return std::optional(ScaledClip{season.clips[block][shot], {}});
  }));
  EXPECT_EQ(asked, 6) << "the sound is asked for once a shot";
  for (std::size_t shot = 0; shot < 3; ++shot) {
    EXPECT_TRUE(season.shows(0, shot, 95.0));
    EXPECT_FALSE(season.shows(0, shot, 170.0)) << "the second evening's tone is not the first's";
    EXPECT_TRUE(season.shows(1, shot, 95.0));
    EXPECT_TRUE(season.shows(1, shot, 170.0));
    EXPECT_GT(season.session.blocks[1].shots[shot].shot.hum.value(), season.session.blocks[0].shots[shot].shot.hum.value());
  }
}

TEST(SeasonPool, StopsWhenToldTo) {
  TwoEvenings season;
  int asked = 0;
  EXPECT_FALSE(pool_each_session(season.session, {}, [&](std::size_t, std::size_t) {
    ++asked;
    return std::optional<ScaledClip>();
  }));
  EXPECT_EQ(asked, 1);
}

TEST(SeasonPool, DroppedBlocksAreNotAskedFor) {
  TwoEvenings season;
  season.session.blocks[0].dropped = "wind";
  int asked = 0;
  pool_each_session(season.session, {}, [&](std::size_t block, std::size_t shot) {
    ++asked;
    return std::optional(ScaledClip{season.clips[block][shot], {}});
  });
  EXPECT_EQ(asked, 3);
}

}  // namespace
}  // namespace ringfall::compare
