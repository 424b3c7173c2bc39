// SPDX-License-Identifier: GPL-3.0-or-later
// Every version there ever was, brought to the present one. What must come out is what stands in tests/data/logbook_version_N.sql,
// which was written from that version's statements and is never edited.
#include "logbook/migrations.h"

#include <gtest/gtest.h>

#include <fstream>
#include <functional>
#include <iterator>
#include <memory>

#include "base/failure.h"
#include "logbook/made_up.h"
#include "logbook/programs.h"

namespace ringfall::logbook {
namespace {

std::string file_as_text(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  EXPECT_TRUE(file) << path << " is missing";
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// Tables and indices with their statements, blanks made alike.
std::vector<std::string> schema_of(const std::string& path) {
  const Database database(path, Database::Access::existing);
  std::vector<std::string> lines;
  Statement row = database.prepare("SELECT type, name, coalesce(sql, '') FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%' "
                                   "ORDER BY type, name");
  while (row.step()) lines.push_back(row.text(0) + " " + row.text(1) + " " + row.text(2));
  return lines;
}

std::string refusal_of(const std::function<void()>& act) {
  try {
    act();
  } catch (const LogbookFailure& failure) {
    return failure.what();
  }
  return "";
}

void expect_what_version_2_added(const Logbook& book) {
  const Bow bow = book.bows()[0];
  EXPECT_EQ(bow.fittings.draw_weight_n, 177.92886460184);
  EXPECT_EQ(bow.fittings.string, "18 strands");
  EXPECT_EQ(bow.fittings.parts.at(0).mass_kg, 0.18);
  const auto setup = book.setups()[1];
  EXPECT_EQ(setup.fittings.arrow_mass_kg, 0.02669715);
  EXPECT_EQ(setup.fittings.parts.at(0).kind, Part::Kind::damper);
  EXPECT_EQ(book.conditions().humidity_percent, 55.5);
  EXPECT_EQ(book.conditions().check_tone_db, -23.5);
  const auto blocks = book.blocks();
  EXPECT_EQ(blocks[0].channel, 2);
  EXPECT_EQ(blocks[1].comments.at(0).words, "all alike");
  // It was blind in version 2; changed since, with the numbers in sight, it can't be known to be.
  EXPECT_FALSE(blocks[1].comments[0].blind);
  EXPECT_EQ(blocks[1].comments[0].changed_at, "2026-01-01T10:08:00Z");
  EXPECT_EQ(blocks[0].shots[0].shot.hits.at(0).level_db, -3.25);
  EXPECT_EQ(blocks[0].shots[0].shot.buzz.value().rate_hz, 96.0);
  EXPECT_EQ(book.corrections().at(0).kind, Correction::Kind::not_a_shot);
  EXPECT_EQ(book.corrections().at(1).edge_s, 3.25);
}

void expect_what_version_3_added(const Logbook& book) {
  EXPECT_EQ(book.database().integer("SELECT covered FROM shot WHERE id = 2"), 1);
  EXPECT_EQ(book.database().integer("SELECT dropped_before = 'arm hit' FROM correction WHERE id = 1"), 1);
}

/// Findings did not say where they came from before version 5.
void expect_origins(const Logbook& book, std::int64_t version) {
  const auto blocks = book.blocks();
  EXPECT_EQ(blocks[0].findings.at(0).origin, Origin::recording) << "no single clip showed what is said of a block";
  const auto& findings = blocks[0].shots[0].shot.findings;
  EXPECT_EQ(findings.at(0).origin, Origin::clip);
  ASSERT_EQ(findings.size(), version >= 5 ? 2U : 1U);
  if (version >= 5) { EXPECT_EQ(findings[1].origin, Origin::recording); }
}

class EveryVersion : public testing::TestWithParam<std::int64_t> {};

TEST_P(EveryVersion, IsReadWithoutLoss) {
  const TestFolder folder;
  const std::string path = folder.path("old");
  make_old_logbook(path, GetParam());
  {
    const Logbook book(path);
    book.check_whole();
    ASSERT_EQ(book.bows().size(), 1U);
    EXPECT_EQ(book.bows()[0].name, "made-up bow");
    const auto session = book.conditions();
    EXPECT_EQ(session.bow, "made-up bow");
    EXPECT_EQ(session.started_at, "2026-01-01T10:00:00Z");
    EXPECT_EQ(session.distance_m, 18.288);
    EXPECT_EQ(session.full_scale_db_spl, 118.0);
    EXPECT_FALSE(session.blind);
    const auto setups = book.setups("made-up bow");
    ASSERT_EQ(setups.size(), 2U);
    EXPECT_TRUE(setups[0].baseline);
    EXPECT_EQ(setups[1].changed, "30 g below the grip");
    EXPECT_EQ(added_mass_kg(setups[1]), 0.03);
    const auto blocks = book.blocks();
    ASSERT_EQ(blocks.size(), 2U);
    EXPECT_EQ(blocks[0].session, session.session);
    EXPECT_EQ(blocks[0].note, "dry");
    EXPECT_EQ(blocks[0].findings.size(), 1U);
    EXPECT_EQ(blocks[1].dropped, "gusts");
    ASSERT_EQ(blocks[0].shots.size(), 2U);
    const KeptShot& shot = blocks[0].shots[0];
    EXPECT_EQ(shot.shot.hum, 3.3333333333333335);
    EXPECT_EQ(shot.shot.tones.at(0).frequency_hz, 95.123456789);
    EXPECT_EQ(shot.shot.findings.at(0).voids.size(), 2U);
    EXPECT_EQ(shot.comments.at(0).words, "it's \"tinny\"");
    EXPECT_EQ(shot.comments.at(0).loud, 7.0);
    EXPECT_EQ(shot.comments.at(0).hum, 0.0);
    EXPECT_FALSE(shot.comments.at(0).blind);
    EXPECT_EQ(blocks[0].shots[1].dropped, "plucked");
    EXPECT_EQ(blocks[1].shots.at(0).id, 5);
    EXPECT_EQ(blocks[1].shots[0].comments.at(0).feel, 8.0);
    EXPECT_EQ(book.clip(1).bytes, std::string("\x00\x01\x7F\xFF\x80", 5));
    EXPECT_EQ(book.clip(1).places.impact_sample, 136600);
    if (GetParam() >= 2) expect_what_version_2_added(book);
    if (GetParam() >= 3) expect_what_version_3_added(book);
    expect_origins(book, GetParam());
    // Before version 4 a temperature had to be there, so it stays; since then it may be left unsaid.
    EXPECT_EQ(session.temperature_c, GetParam() >= 4 ? std::nullopt : std::optional(15.0));
  }
  // The file is now as one that was made anew, rule by rule.
  made_up_logbook(folder.path("new"));
  EXPECT_EQ(schema_of(path), schema_of(folder.path("new")));
  const Database database(path, Database::Access::existing);
  EXPECT_EQ(database.integer("SELECT count(*) FROM number WHERE id = 'a_number_of_no_known_name'"), 1) << "unknown, not lost";
  EXPECT_THROW(database.run("DELETE FROM setup"), LogbookFailure) << "foreign keys are on again";
  // The old file is there as it was.
  const std::string copy = path + ".version-" + std::to_string(GetParam());
  if (GetParam() == migrations().back().version) {
    EXPECT_FALSE(std::filesystem::exists(copy));
  } else {
    EXPECT_EQ(Database(copy, Database::Access::existing).integer("PRAGMA user_version"), GetParam());
    EXPECT_EQ(Database(copy, Database::Access::existing).integer("SELECT count(*) FROM shot"), 3);
  }
}

INSTANTIATE_TEST_SUITE_P(Migrations, EveryVersion, testing::Range<std::int64_t>(1, migrations().back().version + 1));

/// A wind, a doubtful impact and lost sound only the whole recording showed, whatever version wrote them: no clip says them again.
TEST(Migrations, WhatOnlyTheRecordingShowedIsToldFromTheClipsOwn) {
  const TestFolder folder;
  const std::string path = folder.path("old");
  make_old_logbook(path, 4);
  Database(path, Database::Access::existing).run(
      "INSERT INTO finding VALUES (10, NULL, 2, 'wind', 'caution', '', 'w'), (11, NULL, 2, 'impact_doubtful', 'note', '', 'i'), "
      "(12, NULL, 2, 'sound_lost', 'caution', '', 's'), (13, NULL, 2, 'tail_too_short', 'void', 'hum', 't')");
  const Logbook book(path);
  const auto blocks = book.blocks();
  const auto& findings = blocks[0].shots[1].shot.findings;
  ASSERT_EQ(findings.size(), 4U);
  for (std::size_t k = 0; k < 3; ++k) EXPECT_EQ(findings[k].origin, Origin::recording) << findings[k].code;
  EXPECT_EQ(findings[3].origin, Origin::clip);
}

/// What version 2 shows of a blind session says which numbers could be seen.
TEST(Migrations, WhatABlindSessionOfVersion2StillHidesIsCovered) {
  const TestFolder folder;
  const std::string path = folder.path("old");
  make_old_logbook(path, 2);
  // Block 1: shots 1 and 2, of which 1 has a comment. Block 2: shot 5 without one, but the block has.
  Database(path, Database::Access::existing).run("UPDATE session SET blind = 1; DELETE FROM comment WHERE shot = 5");
  Logbook book(path);
  EXPECT_EQ(book.database().integer("SELECT covered FROM shot WHERE id = 1"), 0);
  EXPECT_EQ(book.database().integer("SELECT covered FROM shot WHERE id = 2"), 1);
  EXPECT_EQ(book.database().integer("SELECT covered FROM shot WHERE id = 5"), 0);
  book.add_comment(2, {"", 1.0, {}, {}, {}, ""});
  book.remove_comment(4);
  book.add_comment(5, {"", 1.0, {}, {}, {}, ""});
  const auto blocks = book.blocks();
  EXPECT_TRUE(blocks[0].shots[1].comments.at(0).blind);
  EXPECT_FALSE(blocks[1].shots[0].comments.at(0).blind);
}

// Version 3 kept an unsaid temperature as 20 C: nothing tells it from a said one, so it stays.
TEST(Migrations, AnOldTwentyDegreesStaysAndANewUnsaidOneIsNone) {
  const TestFolder folder;
  const std::string path = folder.path("old");
  make_old_logbook(path, 3);
  Database(path, Database::Access::existing).run("UPDATE session SET temperature_c = 20.0");
  Logbook book(path);
  EXPECT_EQ(book.conditions().temperature_c, 20.0);
  Conditions next = book.conditions();
  next.temperature_c.reset();
  book.start_session(next);
  EXPECT_EQ(book.conditions().temperature_c, std::nullopt);
  EXPECT_EQ(reckoned_temperature_c(book.conditions()), 20.0);
  // The rules hold for the column made anew, and the triggers of the table are all there.
  EXPECT_NE(refusal_of([&] { book.database().run("UPDATE session SET temperature_c = 61"); }), "");
  EXPECT_NE(refusal_of([&] { book.database().run("UPDATE session SET started_at = 'today'"); }), "");
  next = book.conditions(1);
  next.temperature_c.reset();
  book.change_session(next);
  EXPECT_EQ(book.conditions(1).temperature_c, std::nullopt) << "a word may be taken back";
  EXPECT_EQ(Database(path + ".version-3", Database::Access::existing).integer("SELECT temperature_c = 20.0 FROM session"), 1);
}

TEST(Migrations, AreTakenAfterKeepingACopyAndOnlyWhole) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  made_up_logbook(path).add_clip(1, made_up_clip(1));
  std::vector<Migration> steps(migrations().begin(), migrations().end());
  const std::int64_t now = steps.back().version;
  const std::string copy = path + ".version-" + std::to_string(now);
  std::ofstream(copy) << "a file of that name is there";
  steps.push_back({now + 1, "ALTER TABLE setup ADD COLUMN made_up TEXT"});
  migrate(Database(path, Database::Access::existing), steps);
  const Database database(path, Database::Access::existing);
  EXPECT_EQ(database.integer("PRAGMA user_version"), now + 1);
  EXPECT_EQ(database.integer("SELECT count(*) FROM setup WHERE made_up IS NULL"), 1);
  EXPECT_EQ(file_as_text(copy), "a file of that name is there") << "not written over";
  const Logbook kept(copy + "-2");
  kept.check_whole();
  EXPECT_EQ(kept.clip(1).bytes, made_up_clip(1).bytes);
  // A step that fails half-way leaves nothing, nor does one after which a row belongs to nothing.
  for (const char* broken : {"CREATE TABLE half (id INTEGER); CREATE TABLE shot (id INTEGER)",
                             "CREATE TABLE half (id INTEGER); DELETE FROM session"}) {
    auto more = steps;
    more.push_back({now + 2, broken});
    EXPECT_NE(refusal_of([&] { migrate(database, more); }), "") << broken;
    EXPECT_EQ(database.integer("PRAGMA user_version"), now + 1);
    EXPECT_EQ(database.integer("SELECT count(*) FROM sqlite_schema WHERE name = 'half'"), 0);
    EXPECT_EQ(database.integer("PRAGMA foreign_keys"), 1);
  }
}

/// The names of the copies kept beside a file.
std::vector<std::string> copies_of(const std::string& path) {
  const std::string begin = std::filesystem::path(path).filename().string() + ".";
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(path).parent_path())) {
    const std::string name = entry.path().filename().string();
    if (name.starts_with(begin)) names.push_back(name);
  }
  return names;
}

TEST(Migrations, ProgramsThatOpenAnOldFileAtOnceKeepOneCopy) {
  for (int round = 0; round < 30; ++round) {
    const TestFolder folder;
    const std::string path = folder.path("old");
    make_old_logbook(path, 1);
    std::vector<std::unique_ptr<Program>> programs;
    for (int k = 0; k < 4; ++k) {
      programs.push_back(std::make_unique<Program>([&](const Program::Line& line) {
        if (!line.tell(1) || !line.hear()) return 1;
        const Logbook book(path);
        return book.blocks().size() == 2 && book.bows()[0].fittings.parts.empty() ? 0 : 2;
      }));
    }
    for (const auto& program : programs) ASSERT_TRUE(program->line().hear());
    for (const auto& program : programs) program->line().tell(1);
    for (const auto& program : programs) EXPECT_EQ(program->status(), 0);
    EXPECT_EQ(copies_of(path), std::vector<std::string>{"old.version-1"});
    const Database copy(path + ".version-1", Database::Access::existing);
    EXPECT_EQ(copy.integer("PRAGMA user_version"), 1);
    EXPECT_EQ(copy.integer("SELECT count(*) FROM sqlite_schema WHERE name = 'part'"), 0) << "nothing of version 2 is in it";
    EXPECT_EQ(copy.integer("SELECT count(*) FROM shot"), 3);
    const Logbook book(path);
    book.check_whole();
    EXPECT_EQ(book.database().integer("PRAGMA user_version"), migrations().back().version);
  }
}

TEST(Migrations, NewerFileIsRefused) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  made_up_logbook(path);
  Database(path, Database::Access::existing).run("PRAGMA user_version = 99");
  const std::string said = refusal_of([&] { const Logbook book(path); });
  EXPECT_NE(said.find(path), std::string::npos) << said;
  EXPECT_NE(said.find("made by a newer Ringfall"), std::string::npos) << said;
}

}  // namespace
}  // namespace ringfall::logbook
