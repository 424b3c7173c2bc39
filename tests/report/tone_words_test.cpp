// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "report/document_parts.h"
#include "report/example_report.h"
#include "report/sentences.h"
#include "report/tone_change.h"

namespace ringfall::report {
namespace {

ToneChange change(ToneMatch match, double before_hz, double after_hz, double level_db, double half_width) {
  ToneChange made;
  made.match = match;
  if (match != ToneMatch::added) {
    made.baseline.emplace();
    made.baseline->tone.frequency_hz = before_hz;
    made.baseline->tone.level_db = 60.0;
    made.baseline->tone.ring_time_s = 0.2;
  }
  if (match != ToneMatch::gone) {
    made.setup.emplace();
    made.setup->tone.frequency_hz = after_hz;
    made.setup->tone.level_db = 60.0 + level_db;
    made.setup->tone.ring_time_s = 0.2;
  }
  if (made.baseline && made.setup) {
    made.level_db.emplace();
    made.level_db->difference = level_db;
    made.level_db->interval = {level_db - half_width, level_db + half_width};
    made.adjusted_p_level = made.level_db->interval.contains(0.0) ? 0.5 : 0.01;
  }
  return made;
}

TEST(ToneChange, TheSentenceNamesTheToneThatChangedMost) {
  auto gone = change(ToneMatch::gone, 300.0, 0.0, 0.0, 0.0);
  gone.level_db.emplace();
  gone.adjusted_p_level = 0.01;
  const auto said = tone_sentence({change(ToneMatch::same, 100.0, 100.0, -8.0, 1.0), change(ToneMatch::same, 1500.0, 1500.0, -1.0, 0.5),
                                   gone, change(ToneMatch::gone, 400.0, 0.0, 0.0, 0.0)},
                                  "plug", "bare");
  EXPECT_NE(said.find("the one at 100 Hz changed most"), std::string::npos) << said;
  EXPECT_NE(said.find("Gone, heard with 'bare' only: 300 Hz."), std::string::npos) << said;
  // No difference of ring time is to be had here: none is said, whatever the pooled tones have.
  EXPECT_EQ(said.find("ring time"), std::string::npos) << said;
  auto ringing = change(ToneMatch::same, 100.0, 100.0, -8.0, 1.0);
  ringing.ring_time_s.emplace();
  ringing.ring_time_s->difference = -0.108;
  ringing.ring_time_s->interval = {-0.150, -0.066};
  ringing.adjusted_p_ring_time = 0.2;
  const auto both = tone_sentence({ringing}, "plug", "bare");
  EXPECT_NE(both.find("level -8.0 dB (95 % interval -9.0 to -7.0); ring time -0.108 s (95 % interval -0.150 to -0.066), a hint, may be chance."),
            std::string::npos) << both;
}

// (The family of a made-up tone is the middle one.) What became of it and the changes stand before the levels they come from; where one is not to be had stands a dash.
TEST(ToneChange, TheTableTellsLevelAndRingTime) {
  auto report = session_report(source_of(example_session()));
  auto ringing = change(ToneMatch::perhaps_moved, 100.0, 95.0, -8.0, 1.0);
  ringing.ring_time_s.emplace();
  ringing.ring_time_s->difference = -0.108;
  ringing.ring_time_s->interval = {-0.150, -0.066};
  report.tone_changes = {{ringing, change(ToneMatch::gone, 1500.0, 0.0, 0.0, 0.0)}};
  const Section section = sound_part(report);
  const Table* table = nullptr;
  for (const auto& piece : section.pieces) {
    if (const auto* found = std::get_if<Table>(&piece)) table = found;
  }
  ASSERT_NE(table, nullptr);
  ASSERT_EQ(table->rows.size(), 2U);
  EXPECT_EQ(table->rows[0], (std::vector<std::string>{"100 Hz / 95.0 Hz", "perhaps the same, moved by -5.0 %", "-8.0 (-9.0 to -7.0)",
                                                      "-0.108 (-0.150 to -0.066)", "between", "60.0", "0.200", "52.0", "0.200"}));
  EXPECT_EQ(table->rows[1], (std::vector<std::string>{"1.50 kHz", "only with the baseline, may be chance", "-", "-", "between", "60.0", "0.200", "-", "-"}));
  EXPECT_EQ(table->columns[3].head, "Ring time change [s]");
}

TEST(ToneChange, NoChangeBeyondChanceIsNotSettled) {
  // Not that none changed: an interval that holds 0 settles nothing. The largest is named with it.
  const auto open = tone_sentence({change(ToneMatch::same, 100.0, 100.0, 0.1, 0.5), change(ToneMatch::same, 1500.0, 1500.0, -2.0, 2.5)},
                                  "plug", "bare");
  EXPECT_EQ(open, "plug: whether a tone heard with both changed against 'bare' is not settled; the largest change of level is that at 1.50 kHz: "
                  "-2.0 dB (95 % interval -4.5 to +0.5).");
  EXPECT_EQ(tone_sentence({}, "plug", "bare"), "");
  EXPECT_EQ(match_words(change(ToneMatch::perhaps_moved, 100.0, 95.0, 0.0, 1.0)), "perhaps the same, moved by -5.0 %");
}

// Rounded to whole numbers these would read "-8 to 0" and "0 to +8", as if they held no change.
TEST(Sentences, AnIntervalThatExcludesZeroNeverReadsAsHoldingIt) {
  EXPECT_EQ(interval_text({-8.3, -0.4}, 0), "-8.3 to -0.4");
  EXPECT_EQ(interval_text({0.004, 8.0}, 1), "+0.004 to +8.000");
  EXPECT_EQ(interval_text({-8.3, 0.4}, 0), "-8 to 0");
  EXPECT_EQ(interval_text({0.0, 3.0}, 0), "0 to +3");
}

}  // namespace
}  // namespace ringfall::report
