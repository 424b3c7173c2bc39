// SPDX-License-Identifier: GPL-3.0-or-later
// Entries that cannot be: the file itself refuses them, whoever writes.
#include <gtest/gtest.h>

#include <functional>
#include <limits>

#include "base/failure.h"
#include "logbook/made_up.h"

namespace ringfall::logbook {
namespace {

/// The sentence of the refusal; empty: it was taken.
std::string refused(const std::function<void()>& act) {
  try {
    act();
  } catch (const LogbookFailure& failure) {
    return failure.what();
  }
  return "";
}

void expect_refused(const Database& database, const std::string& sql, const std::string& part) {
  const std::string said = refused([&] { database.run(sql); });
  EXPECT_NE(said.find(part), std::string::npos) << sql << "\n" << said;
}

TEST(Rules, ABlockHasASetUpOfItsSessionsBow) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  Logbook book = made_up_logbook(path);
  book.add_bow({"second", {}, ""});
  book.add_setup({"other", "", false, std::nullopt, "second"});
  EXPECT_EQ(book.start_session({"second", "", "", std::nullopt, 20.0, "", std::nullopt}), 2);
  book.add_block({"other", "b.wav", 48000.0, "", "", {}});
  // Bow 1: session 1, set-up 1, block 1. Bow 2: session 2, set-up 2, block 2.
  const Database& database = book.database();
  const std::string of_another = "the set-up of a block belongs to another bow";
  expect_refused(database, "UPDATE block SET setup = 2 WHERE id = 1", of_another);
  expect_refused(database, "UPDATE block SET session = 2 WHERE id = 1", of_another);
  expect_refused(database, "UPDATE session SET bow = 2 WHERE id = 1", of_another);
  expect_refused(database, "UPDATE setup SET bow = 1, baseline = 0 WHERE id = 2", of_another);
  expect_refused(database, "INSERT INTO block VALUES (9, 1, 2, 9, '', 48000.0, '', NULL, NULL)", of_another);
  // In the order of an import, with the references at rest until the end.
  const std::string block = "PRAGMA defer_foreign_keys = ON; INSERT INTO block VALUES (9, 9, 9, 9, '', 48000.0, '', NULL, NULL); ";
  const std::string session = "INSERT INTO session VALUES (9, 1, '2026-01-01T10:00:00Z', '', NULL, NULL, '', '', '', NULL, NULL, 0, '', NULL); ";
  const std::string setup_first = "INSERT INTO setup VALUES (9, 1, 'x', '', 0, NULL, NULL, NULL, NULL, '', '', ''); ";
  const std::string setup_second = "INSERT INTO setup VALUES (9, 2, 'x', '', 0, NULL, NULL, NULL, NULL, '', '', ''); ";
  for (const auto& [rows, taken] : {std::pair{block + session + setup_first, true}, std::pair{block + session + setup_second, false},
                                    std::pair{block + setup_second + session, false}}) {
    const Transaction undone(database);
    const std::string said = refused([&, &rows = rows] { database.run(rows); });
    EXPECT_EQ(said.empty(), taken) << rows << "\n" << said;
  }
  book.check_whole();
  // A row from before the rule is seen.
  database.run("DROP TRIGGER changed_block_of_one_bow; UPDATE block SET setup = 2 WHERE id = 1");
  EXPECT_NE(refused([&] { book.check_whole(); }).find("the set-up of block 1 belongs to another bow"), std::string::npos);
}

TEST(Rules, TimesHaveTheirShape) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  book.add_clip(1, made_up_clip(1));
  book.say_not_a_shot(1);
  book.change_comment(book.add_comment(1, {"", 1.0, {}, {}, {}, ""}), {"", 2.0, {}, {}, {}, ""});
  const Database& database = book.database();
  // RFC 3339 section 5.7 for the days of months; 2028 is a leap year, 2027 is not.
  for (const char* wrong : {"", "soon", "now", "2026-01-01", "2026-01-01 10:00:00", "2026-01-01T10:00:00", "2026-02-30T10:00:00Z",
                            "2027-02-29T10:00:00Z", "2026-13-01T10:00:00Z", "2026-01-01T24:00:00Z", "2026-01-01T10:00:00+01:00", "2461000.5"}) {
    const std::string time = "'" + std::string(wrong) + "'";
    expect_refused(database, "UPDATE session SET started_at = " + time, "a time is not like");
    expect_refused(database, "UPDATE comment SET said_at = " + time, "a time is not like");
    expect_refused(database, "UPDATE comment SET changed_at = " + time, "a time is not like");
    expect_refused(database, "INSERT INTO session SELECT 9, bow, " + time + ", place, NULL, NULL, '', '', '', NULL, NULL, 0, '', NULL FROM session",
                   "a time is not like");
    expect_refused(database, "INSERT INTO comment SELECT 9, NULL, 1, " + time + ", NULL, 0, 1.0, NULL, NULL, NULL, ''", "a time is not like");
    expect_refused(database, "INSERT INTO correction SELECT 9, 1, 1, 'not_a_shot', 1.0, NULL, " + time + ", NULL", "a time is not like");
  }
  database.run("UPDATE session SET started_at = '2028-02-29T23:59:59Z'; UPDATE comment SET changed_at = NULL");
}

TEST(Rules, AShotHasSoundAndItsNumbersAreFinite) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  EXPECT_NE(refused([&] { book.add_clip(1, made_up_clip(1, 0)); }).find("the sound of a shot is empty"), std::string::npos);
  book.add_clip(1, made_up_clip(1));
  expect_refused(book.database(), "UPDATE shot SET clip = X''", "the sound of a shot is empty");
  shot::Shot measured;
  measured.hum = 3.0;
  book.set_numbers(1, measured, "0.1");
  for (const double wrong : {std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity(),
                             std::numeric_limits<double>::quiet_NaN()}) {
    shot::Shot bad = measured;
    bad.hum = 5.0;
    bad.ping = wrong;
    EXPECT_NE(refused([&] { book.set_numbers(1, bad, "0.2"); }).find("no finite number"), std::string::npos);
    bad.ping.reset();
    bad.tones = {{95.0, wrong, 0.4, 0.01, shot::ToneFamily::hum}};
    EXPECT_NE(refused([&] { book.set_numbers(1, bad, "0.2"); }).find("no finite number"), std::string::npos);
    Conditions session = book.conditions();
    session.full_scale_db_spl = wrong;
    EXPECT_NE(refused([&] { book.change_session(session); }).find("no finite number"), std::string::npos);
    EXPECT_NE(refused([&] { book.add_block({"bare", "b.wav", wrong, "", "", {}}); }).find("no finite number"), std::string::npos);
  }
  EXPECT_EQ(book.blocks().at(0).shots.at(0).shot.hum, 3.0) << "all or nothing";
  EXPECT_EQ(book.blocks()[0].shots[0].analyser, "0.1");
  EXPECT_EQ(book.blocks().size(), 1U);
}

}  // namespace
}  // namespace ringfall::logbook
