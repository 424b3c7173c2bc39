// SPDX-License-Identifier: GPL-3.0-or-later
// A logbook that a stranger hands over: what SQLite's documentation ("Defense Against The Dark Arts", 1) warns of, made with SQLite itself.
#include <gtest/gtest.h>
#include <sqlite3.h>
#include <sys/stat.h>

#include <fstream>
#include <memory>

#include "base/failure.h"
#include "logbook/export.h"
#include "logbook/made_up.h"
#include "logbook/migrations.h"
#include "support/test_folder.h"

namespace ringfall::logbook {
namespace {

namespace fs = std::filesystem;

/// Changes a file behind the program's back, as anybody can.
void tamper(const std::string& path, const std::string& sql) {
  sqlite3* raw = nullptr;
  ASSERT_EQ(sqlite3_open(path.c_str(), &raw), SQLITE_OK);
  const std::unique_ptr<sqlite3, decltype(&sqlite3_close)> connection(raw, &sqlite3_close);
  char* said = nullptr;
  ASSERT_EQ(sqlite3_exec(raw, sql.c_str(), nullptr, nullptr, &said), SQLITE_OK) << said;
}

std::string refusal_of(const std::string& path) {
  try {
    const Logbook book(path);
    book.blocks();
    return "";
  } catch (const Damage& damage) {
    return damage.what();
  } catch (const LogbookFailure& failure) {
    return std::string("no damage: ") + failure.what();
  }
}

TEST(Foreign, PartsThatNoLogbookHasAreNamedAndNothingRuns) {
  for (const std::string part :
       {"CREATE TRIGGER evil AFTER INSERT ON bow BEGIN DELETE FROM shot; END", "CREATE VIEW evil AS SELECT 1", "CREATE TABLE evil (x)",
        "CREATE TABLE \"../../evil\" (x)", "CREATE INDEX evil ON bow (name)", "CREATE VIRTUAL TABLE evil USING fts5(x)"}) {
    const TestFolder folder;
    made_up_logbook(folder.path("a"));
    tamper(folder.path("a"), part);
    const std::string said = refusal_of(folder.path("a"));
    EXPECT_NE(said.find("evil"), std::string::npos) << part << ": " << said;
    EXPECT_NE(said.find(folder.path("a")), std::string::npos) << said;
  }
}

TEST(Foreign, AChangedOrMissingPartIsSeen) {
  const TestFolder folder;
  made_up_logbook(folder.path("a"));
  tamper(folder.path("a"), "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, 'draw_weight_n <= 2000', "
                           "'draw_weight_n <= 9000') WHERE name = 'bow'; PRAGMA writable_schema = RESET");
  EXPECT_NE(refusal_of(folder.path("a")).find("its table 'bow' is not that of a logbook"), std::string::npos) << refusal_of(folder.path("a"));
  made_up_logbook(folder.path("b"));
  tamper(folder.path("b"), "DROP TABLE tone");
  EXPECT_NE(refusal_of(folder.path("b")).find("its table 'tone' is missing"), std::string::npos) << refusal_of(folder.path("b"));
}

TEST(Foreign, OldVersionsAreHeldAgainstTheirOwn) {
  for (std::int64_t version = 1; version <= migrations().back().version; ++version) {
    const TestFolder folder;
    make_old_logbook(folder.path("a"), version);
    EXPECT_EQ(refusal_of(folder.path("a")), "") << version;
    make_old_logbook(folder.path("b"), version);
    tamper(folder.path("b"), "CREATE TRIGGER evil AFTER UPDATE ON bow BEGIN DELETE FROM shot; END");
    EXPECT_NE(refusal_of(folder.path("b")).find("evil"), std::string::npos) << version;
    EXPECT_EQ(std::distance(fs::directory_iterator(folder.str()), fs::directory_iterator()), version == migrations().back().version ? 2 : 3)
        << "nothing was migrated of the one with a trigger";
  }
}

TEST(Foreign, AnEmptyFileOfSqliteIsNotAdopted) {
  const TestFolder folder;
  tamper(folder.path("a"), "CREATE TABLE x (y); DROP TABLE x; VACUUM");
  EXPECT_NE(refusal_of(folder.path("a")).find("no logbook"), std::string::npos);
  tamper(folder.path("a"), "PRAGMA application_id = 1380338786");  // "RFlb", and no version
  EXPECT_NE(refusal_of(folder.path("a")).find("no logbook"), std::string::npos);
}

// The values are in no one's range: an overflow of IEEE 754, a rate of 1 Hz, more shots than a lifetime has.
TEST(Foreign, NumbersThatCantBeAreDamage) {
  for (const std::string change : {"UPDATE shot SET onset_s = 9e999", "UPDATE shot SET onset_s = 1e300", "UPDATE shot SET onset_sample = 9223372036854775807",
                                   "UPDATE block SET sample_rate_hz = 1"}) {
    const TestFolder folder;
    made_up_logbook(folder.path("a")).add_clip(1, made_up_clip(1));
    tamper(folder.path("a"), "PRAGMA ignore_check_constraints = ON; " + change);
    try {
      const Logbook book(folder.path("a"));
      book.blocks();
      book.clip(1);
      ADD_FAILURE() << change;
    } catch (const Damage& damage) {
      EXPECT_NE(std::string(damage.what()).find("damaged"), std::string::npos) << damage.what();
    }
  }
}

TEST(Foreign, ImportFollowsNoLinkAndAsksForWholeSounds) {
  const TestFolder folder;
  {
    Logbook book = made_up_logbook(folder.path("a"));
    book.add_clip(1, made_up_clip(1));
    export_folder(book, folder.path("out"));
  }
  EXPECT_THROW(import_folder(folder.path("out"), folder.path("b"), [](const Logbook&) { throw Damage("no sound"); }), Damage);
  EXPECT_FALSE(fs::exists(folder.path("b")));
  fs::rename(folder.path("out/sounds/shot-1.flac"), folder.path("secret"));
  fs::create_symlink(folder.path("secret"), folder.path("out/sounds/shot-1.flac"));
  EXPECT_THROW(import_folder(folder.path("out"), folder.path("b")), FileFailure);
  fs::remove(folder.path("out/sounds/shot-1.flac"));
  ASSERT_EQ(mkfifo(folder.path("out/sounds/shot-1.flac").c_str(), 0600), 0);
  EXPECT_THROW(import_folder(folder.path("out"), folder.path("b")), FileFailure);
  EXPECT_FALSE(fs::exists(folder.path("b")));
}

TEST(Foreign, ACopyHasTheModeOfItsLogbookAndFollowsNoLink) {
  const TestFolder folder;
  made_up_logbook(folder.path("a"));
  chmod(folder.path("a").c_str(), 0600);
  fs::create_symlink(folder.path("elsewhere"), folder.path("link"));
  const Logbook book(folder.path("a"));
  book.copy_to(folder.path("copy"));
  struct stat status {};
  ASSERT_EQ(stat(folder.path("copy").c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 0777U, 0600U);
  EXPECT_THROW(book.copy_to(folder.path("link")), LogbookFailure);
  EXPECT_FALSE(fs::exists(folder.path("elsewhere")));
}

TEST(Foreign, AFailedExportLeavesNothingInTheWay) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  book.add_clip(1, made_up_clip(1));
  EXPECT_THROW(export_folder(book, folder.path("out"), [](double) -> bool { throw FileFailure("the disk is full"); }), FileFailure);
  EXPECT_FALSE(fs::exists(folder.path("out")));
  EXPECT_EQ(export_folder(book, folder.path("out")).shots, 1U);
}

}  // namespace
}  // namespace ringfall::logbook
