// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <array>
#include <string_view>

#include "base/failure.h"
#include "logbook/finding_rows.h"
#include "logbook/logbook.h"
#include "logbook/shot_details.h"
#include "shot/numbers.h"

namespace ringfall::logbook {
namespace {

constexpr const char* kUnreadable = "the file is damaged under its sound";

// In the order of shot::ToneFamily.
constexpr std::array<std::string_view, 3> kFamilies = {"hum", "mid", "ping"};

shot::ToneFamily family_of(const std::string& name) {
  return name == kFamilies[0] ? shot::ToneFamily::hum : name == kFamilies[2] ? shot::ToneFamily::ping : shot::ToneFamily::mid;
}

/// Reads a statement whose columns are said_at, loud, hum, ping, feel, words, id, changed_at, blind to its end.
std::vector<Comment> read_comments(Statement& row) {
  std::vector<Comment> comments;
  while (row.step()) {
    comments.push_back({row.text(0), row.maybe_real(1), row.maybe_real(2), row.maybe_real(3), row.maybe_real(4), row.text(5),
                        row.integer(6), row.text(7), row.integer(8) != 0});
  }
  return comments;
}

/// A block's sample rate: Ringfall measures 8 to 192 kHz, and no other gets into a logbook.
double rate_of(const Statement& row, int column) {
  const double rate_hz = row.real(column);
  if (rate_hz < 8e3 || rate_hz > 192e3) row.refuse_value(column);
  return rate_hz;
}

/// The statements that read what hangs on a shot, prepared once for a whole logbook.
class ShotReader {
 public:
  explicit ShotReader(const Database& database)
      : shots_(database.prepare("SELECT id, number, onset_s FROM shot WHERE block = ? ORDER BY onset_s, number")),
        rest_(database.prepare("SELECT tail_end_s, analyser, dropped, details FROM shot WHERE id = ?")),
        numbers_(database.prepare("SELECT id, value FROM number WHERE shot = ?")),
        tones_(database.prepare("SELECT frequency_hz, level_db, ring_time_s, damping_ratio, family FROM tone WHERE shot = ? "
                                "ORDER BY rank")),
        findings_(database.prepare(fmt::format("SELECT {} FROM finding WHERE shot = ? ORDER BY id", kFindingColumns))),
        comments_(database.prepare("SELECT said_at, loud, hum, ping, feel, words, id, changed_at, blind FROM comment "
                                   "WHERE shot = ? ORDER BY id")) {}

  std::vector<KeptShot> of_block(std::int64_t block_id) {
    std::vector<KeptShot> kept;
    shots_.with(block_id);
    while (shots_.step()) {
      KeptShot shot;
      shot.id = shots_.integer(0);
      shot.shot.number = static_cast<int>(shots_.integer(1));
      shot.shot.onset_s = shots_.real(2);
      add_measured(shot.id, shot.shot);
      add_rest(shot);
      shot.comments = read_comments(comments_.with(shot.id));
      kept.push_back(std::move(shot));
    }
    return kept;
  }

 private:
  /// What stands behind the sound in its row, and can be read only over all the pages of it.
  void add_rest(KeptShot& shot) {
    try {
      rest_.with(shot.id).step();
      shot.shot.tail_end_s = rest_.maybe_real(0);
      shot.analyser = rest_.text(1);
      shot.dropped = rest_.text(2);
      read_details(rest_.text(3), shot.shot);
    } catch (const LogbookFailure&) {
      shot.unreadable = true;
      shot.dropped = kUnreadable;
    }
    rest_.with();
  }

  void add_measured(std::int64_t id, shot::Shot& shot) {
    numbers_.with(id);
    while (numbers_.step()) {
      // A number this program does not know (any more) is left where it is.
      if (const shot::Number* number = shot::find_number(numbers_.text(0))) number->in(shot) = numbers_.real(1);
    }
    tones_.with(id);
    while (tones_.step()) {
      shot.tones.push_back({tones_.real(0), tones_.real(1), tones_.real(2), tones_.real(3), family_of(tones_.text(4))});
    }
    shot.findings = read_findings(findings_.with(id));
  }

  Statement shots_;
  Statement rest_;
  Statement numbers_;
  Statement tones_;
  Statement findings_;
  Statement comments_;
};

}  // namespace

std::int64_t Logbook::add_clip(std::int64_t block, const CodedClip& clip) {
  Transaction transaction(database_);
  const std::int64_t block_id = need_block(block);
  std::int64_t number = clip.number;
  if (number == 0) {
    Statement next = database_.prepare("SELECT coalesce(max(number), 0) + 1 FROM shot WHERE block = ?");
    next.with(block_id).step();
    number = next.integer(0);
  }
  // Covered: in a blind session, unless a comment on the block shows the numbers of all its shots.
  database_.prepare("INSERT INTO shot (block, number, onset_s, coding, clip, first_sample, onset_sample, onset_fraction, "
                    "impact_sample, next_shot_sample, covered) SELECT ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, session.blind AND NOT "
                    "EXISTS (SELECT 1 FROM comment WHERE comment.block = ?1) FROM block JOIN session ON session.id = block.session "
                    "WHERE block.id = ?1")
      .with(block_id, number, clip.onset_s, clip.coding, Blob{clip.bytes}, clip.places.first_sample, clip.places.onset_sample,
            clip.places.onset_fraction, clip.places.impact_sample, clip.places.next_shot_sample)
      .run();
  const std::int64_t id = database_.last_row();
  transaction.commit();
  return id;
}

void Logbook::forget_numbers(std::int64_t shot_id) {
  for (const char* table : {"number", "tone"}) {
    database_.prepare(fmt::format("DELETE FROM {} WHERE shot = ?", table)).with(shot_id).run();
  }
  // What only the whole recording showed, or a person said, stays: measuring again takes it over.
  database_.prepare("DELETE FROM finding WHERE shot = ? AND origin = ?").with(shot_id, origin_name(Origin::clip)).run();
  database_.prepare("UPDATE shot SET tail_end_s = NULL, analyser = NULL, details = NULL WHERE id = ?").with(shot_id).run();
}

void Logbook::set_numbers(std::int64_t shot_id, const shot::Shot& measured, const std::string& analyser) {
  Transaction transaction(database_);
  need_shot(shot_id);
  for (const char* table : {"number", "tone", "finding"}) {
    database_.prepare(fmt::format("DELETE FROM {} WHERE shot = ?", table)).with(shot_id).run();
  }
  database_.prepare("UPDATE shot SET tail_end_s = ?, analyser = ?, details = ? WHERE id = ?")
      .with(measured.tail_end_s, analyser, details_text(measured), shot_id)
      .run();
  Statement number = database_.prepare("INSERT INTO number (shot, id, value) VALUES (?, ?, ?)");
  for (const shot::Number& entry : shot::numbers()) {
    if (const auto value = entry.of(measured)) number.with(shot_id, entry.id, *value).run();
  }
  Statement tone = database_.prepare("INSERT INTO tone (shot, rank, frequency_hz, level_db, ring_time_s, damping_ratio, family) "
                                     "VALUES (?, ?, ?, ?, ?, ?, ?)");
  int rank = 0;
  for (const shot::Tone& entry : measured.tones) {
    tone.with(shot_id, ++rank, entry.frequency_hz, entry.level_db, entry.ring_time_s, entry.damping_ratio,
              kFamilies[static_cast<std::size_t>(entry.family)])
        .run();
  }
  write_findings(database_, std::nullopt, shot_id, measured.findings);
  transaction.commit();
}

std::vector<KeptBlock> Logbook::blocks() const {
  std::vector<KeptBlock> blocks;
  // Another program's writing does not show half-way.
  Transaction reading(database_, Transaction::Kind::read);
  ShotReader shots(database_);
  Statement findings = database_.prepare(fmt::format("SELECT {} FROM finding WHERE block = ? ORDER BY id", kFindingColumns));
  Statement comments = database_.prepare("SELECT said_at, loud, hum, ping, feel, words, id, changed_at, blind FROM comment "
                                         "WHERE block = ? ORDER BY id");
  Statement row = database_.prepare(
      "SELECT block.id, number, setup.name, file, sample_rate_hz, block.note, dropped, session, bow.name, channel, session.blind "
      "FROM block JOIN setup ON setup.id = block.setup JOIN session ON session.id = block.session "
      "JOIN bow ON bow.id = session.bow ORDER BY number");
  while (row.step()) {
    const std::int64_t id = row.integer(0);
    std::optional<int> channel;
    if (const auto stored = row.maybe_integer(9)) channel = static_cast<int>(*stored);
    blocks.push_back({row.integer(1), row.text(2), row.text(3), rate_of(row, 4), row.text(5), row.text(6),
                      read_findings(findings.with(id)), shots.of_block(id), row.integer(7), row.text(8), channel,
                      read_comments(comments.with(id)), row.integer(10) != 0});
  }
  return blocks;
}

CodedClip Logbook::clip(std::int64_t shot_id) const {
  need_shot(shot_id);
  Statement row = database_.prepare(
      "SELECT shot.number, onset_s, coding, clip, sample_rate_hz, first_sample, onset_sample, onset_fraction, impact_sample, "
      "next_shot_sample FROM shot JOIN block ON block.id = shot.block WHERE shot.id = ?");
  row.with(shot_id).step();
  CodedClip clip{static_cast<int>(row.integer(0)), row.real(1), row.text(2), row.text(3), {}};
  clip.places = {{}, rate_of(row, 4), row.integer(5), row.integer(6), row.real(7), row.maybe_integer(8), row.maybe_integer(9)};
  return clip;
}

}  // namespace ringfall::logbook
