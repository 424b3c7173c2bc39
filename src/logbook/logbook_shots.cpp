// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <array>
#include <string_view>

#include "logbook/finding_rows.h"
#include "logbook/logbook.h"
#include "shot/numbers.h"

namespace ringfall::logbook {
namespace {

// In the order of shot::ToneFamily.
constexpr std::array<std::string_view, 3> kFamilies = {"hum", "mid", "ping"};

shot::ToneFamily family_of(const std::string& name) {
  return name == kFamilies[0] ? shot::ToneFamily::hum : name == kFamilies[2] ? shot::ToneFamily::ping : shot::ToneFamily::mid;
}

/// The statements that read what hangs on a shot, prepared once for a whole logbook.
class ShotReader {
 public:
  explicit ShotReader(const Database& database)
      : shots_(database.prepare("SELECT id, number, onset_s, tail_end_s, analyser, dropped FROM shot WHERE block = ? "
                                "ORDER BY number")),
        numbers_(database.prepare("SELECT id, value FROM number WHERE shot = ?")),
        tones_(database.prepare("SELECT frequency_hz, level_db, ring_time_s, damping_ratio, family FROM tone WHERE shot = ? "
                                "ORDER BY rank")),
        findings_(database.prepare("SELECT code, severity, voids, sentence FROM finding WHERE shot = ? ORDER BY id")),
        comments_(database.prepare("SELECT said_at, loud, hum, ping, feel, words FROM comment WHERE shot = ? ORDER BY id")) {}

  std::vector<KeptShot> of_block(std::int64_t block_id) {
    std::vector<KeptShot> kept;
    shots_.with(block_id);
    while (shots_.step()) {
      KeptShot shot;
      shot.id = shots_.integer(0);
      shot.shot.number = static_cast<int>(shots_.integer(1));
      shot.shot.onset_s = shots_.real(2);
      shot.shot.tail_end_s = shots_.real(3);
      shot.analyser = shots_.text(4);
      shot.dropped = shots_.text(5);
      add_measured(shot.id, shot.shot);
      comments_.with(shot.id);
      while (comments_.step()) {
        shot.comments.push_back({comments_.text(0), comments_.maybe_real(1), comments_.maybe_real(2), comments_.maybe_real(3),
                                 comments_.maybe_real(4), comments_.text(5)});
      }
      kept.push_back(std::move(shot));
    }
    return kept;
  }

 private:
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
  Statement numbers_;
  Statement tones_;
  Statement findings_;
  Statement comments_;
};

}  // namespace

void Logbook::set_numbers(std::int64_t shot_id, const shot::Shot& measured, const std::string& analyser) {
  need_shot(shot_id);
  Transaction transaction(database_);
  for (const char* table : {"number", "tone", "finding"}) {
    database_.prepare(fmt::format("DELETE FROM {} WHERE shot = ?", table)).with(shot_id).run();
  }
  database_.prepare("UPDATE shot SET tail_end_s = ?, analyser = ? WHERE id = ?")
      .with(measured.tail_end_s, analyser, shot_id)
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
  Statement findings = database_.prepare("SELECT code, severity, voids, sentence FROM finding WHERE block = ? ORDER BY id");
  Statement row = database_.prepare("SELECT block.id, number, setup.name, file, sample_rate_hz, note, dropped FROM block "
                                    "JOIN setup ON setup.id = block.setup ORDER BY number");
  while (row.step()) {
    const std::int64_t id = row.integer(0);
    blocks.push_back({row.integer(1), row.text(2), row.text(3), row.real(4), row.text(5), row.text(6),
                      read_findings(findings.with(id)), shots.of_block(id)});
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
  clip.places = {{}, row.real(4), row.integer(5), row.integer(6), row.real(7), row.maybe_integer(8), row.maybe_integer(9)};
  return clip;
}

}  // namespace ringfall::logbook
