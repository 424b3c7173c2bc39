// SPDX-License-Identifier: GPL-3.0-or-later
// A logbook as open files and back: nothing may be lost, to the last bit.
#include "logbook/export.h"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <functional>
#include <iterator>
#include <limits>
#include <memory>

#include "base/failure.h"
#include "logbook/made_up.h"
#include "logbook/migrations.h"
#include "logbook/programs.h"

namespace ringfall::logbook {
namespace {

namespace fs = std::filesystem;

/// Everything in the file: every table's rules and every value with its kind, blobs byte for byte, numbers bit for bit.
std::vector<std::string> everything_in(const std::string& path) {
  const Database database(path, Database::Access::existing);
  std::vector<std::string> all = {"version " + std::to_string(database.integer("PRAGMA user_version"))};
  Statement table = database.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'table' ORDER BY name");
  while (table.step()) {
    all.push_back(table.text(0) + ": " + table.text(1));
    const auto columns = static_cast<int>(database.integer("SELECT count(*) FROM pragma_table_info('" + table.text(0) + "')"));
    Statement row = database.prepare("SELECT * FROM \"" + table.text(0) + "\"");
    while (row.step()) {
      std::string line;
      for (int k = 0; k < columns; ++k) {
        const double real = row.real(k);
        line += std::to_string(static_cast<int>(row.kind(k))) + "|";
        line += row.kind(k) == Statement::Kind::real ? std::string(reinterpret_cast<const char*>(&real), sizeof real) : row.text(k);
        line += "|";
      }
      all.push_back(line);
    }
  }
  return all;
}

/// Words and values that spreadsheets and parsers like to break.
void make_hard_logbook(const std::string& path) {
  Logbook book = Logbook::start(path, {"b\"o,w", "", "place;\nwith lines\r\nof \"both\" kinds", 18.288, -0.0, " blanks ", 118.1, 33.3, "'",
                                       "=1+1", -23.456789012345678, true, "\xC3\xA4\xE2\x82\xAC"},
                                {"", {177.92886460184, 0.2159, 0.02669715, "1,5", "", {{Part::Kind::damper, "a", "b", 1e-9}}}, ""});
  Conditions unsaid;
  unsaid.bow = "b\"o,w";
  book.start_session(unsaid);
  book.add_setup({"bare", "", false, std::nullopt});
  book.add_setup({"1e5", "0012", false, 0.1 + 0.2, "", {std::nullopt, 0.22, std::nullopt, "", "", {}}, ""});
  book.add_block({"bare", "a,b.wav", 44100.0, "", "", {{"code", Severity::caution, {Quantity::hum}, "It's 1,5 dB."}}, 0, 2});
  std::string bytes;
  for (int k = 0; k < 3000; ++k) bytes += static_cast<char>(k * 7 & 0xFF);
  for (int k = 1; k <= 3; ++k) {
    CodedClip clip = made_up_clip(k);
    clip.bytes = bytes + static_cast<char>(k);
    clip.places.onset_fraction = 1.0 / (3.0 + k);
    if (k == 2) clip.coding = "wav";
    book.add_clip(1, clip);
  }
  shot::Shot shot;
  shot.tail_end_s = 1.0 / 3.0;
  shot.hum = std::numeric_limits<double>::denorm_min();
  shot.ping = 0.1;
  shot.levels.peak_db = -123.45678901234567;
  shot.levels.exposure_db = 3.0;  // a whole number that must stay a real one
  shot.tones = {{95.123456789012345, 61.0, 0.4, 0.01, shot::ToneFamily::hum}};
  shot.hits = {{0.0, -3.0}};
  shot.findings = {{"x", Severity::void_, {Quantity::levels, Quantity::ping}, "\"quoted\""}};
  book.set_numbers(1, shot, "0.1");
  book.add_comment(1, {"", 7.0, 0.0, 10.0, std::nullopt, "it's \"tinny\", \n;\r"});
  book.add_block_comment(1, {"", std::nullopt, std::nullopt, std::nullopt, 1.0 / 3.0, ""});
  book.drop_shot(3, "a,b");
  book.say_not_a_shot(2);
  book.remove_comment(book.add_comment(2, {"", 1.0, std::nullopt, std::nullopt, std::nullopt, ""}));  // its id is not given again
}

TEST(Export, RoundTripIsBitForBit) {
  const TestFolder folder;
  make_hard_logbook(folder.path("a"));
  {
    const Exported exported = export_folder(Logbook(folder.path("a")), folder.path("out"));
    EXPECT_EQ(exported.shots, 3U);
  }
  EXPECT_TRUE(fs::exists(folder.path("out/sounds/shot-2.wav")));
  EXPECT_TRUE(fs::exists(folder.path("out/shots.csv")));
  import_folder(folder.path("out"), folder.path("b"));
  EXPECT_FALSE(fs::exists(folder.path("b.import")));
  const auto before = everything_in(folder.path("a"));
  const auto after = everything_in(folder.path("b"));
  ASSERT_EQ(before.size(), after.size());
  for (std::size_t k = 0; k < before.size(); ++k) EXPECT_EQ(before[k], after[k]);
  EXPECT_GT(before.size(), 30U);
  EXPECT_EQ(Logbook(folder.path("b")).conditions(1).temperature_c, 0.0);
  EXPECT_EQ(Logbook(folder.path("b")).conditions(2).temperature_c, std::nullopt) << "unsaid is not a number";
  export_folder(Logbook(folder.path("b")), folder.path("again"));
  for (const auto& entry : fs::recursive_directory_iterator(folder.path("out"))) {
    if (!entry.is_regular_file()) continue;
    const fs::path other = fs::path(folder.path("again")) / fs::relative(entry.path(), folder.path("out"));
    std::ifstream one(entry.path(), std::ios::binary);
    std::ifstream two(other, std::ios::binary);
    EXPECT_EQ(std::string(std::istreambuf_iterator<char>(one), {}), std::string(std::istreambuf_iterator<char>(two), {})) << other;
  }
}

TEST(Export, CanBeStoppedAndLeavesNothingThen) {
  const TestFolder folder;
  make_hard_logbook(folder.path("a"));
  const Logbook book(folder.path("a"));
  std::vector<double> shares;
  const auto go_on = [&shares](double share) {
    shares.push_back(share);
    return shares.size() < 3;
  };
  EXPECT_TRUE(export_folder(book, folder.path("out"), go_on).stopped);
  EXPECT_EQ(shares, (std::vector<double>{0.0, 1.0 / 3.0, 2.0 / 3.0}));
  EXPECT_FALSE(fs::exists(folder.path("out")));
  EXPECT_EQ(book.blocks()[0].shots.size(), 3U);
  EXPECT_FALSE(export_folder(book, folder.path("out"), [](double) { return true; }).stopped) << "the place is free again";
}

TEST(Export, NothingIsWrittenOver) {
  const TestFolder folder;
  made_up_logbook(folder.path("a")).add_clip(1, made_up_clip(1));
  const Logbook book(folder.path("a"));
  fs::create_directory(folder.path("full"));
  std::ofstream(folder.path("full/mine")) << "x";
  EXPECT_THROW(export_folder(book, folder.path("full")), FileFailure);
  EXPECT_THROW(export_folder(book, folder.path("full/mine")), FileFailure);
  EXPECT_FALSE(fs::exists(folder.path("full/tables")));
  export_folder(book, folder.path("out"));
  EXPECT_THROW(import_folder(folder.path("out"), folder.path("a")), LogbookFailure);
  EXPECT_EQ(book.blocks()[0].shots.size(), 1U);
}

TEST(Export, WhatIsNoWholeExportMakesNoLogbook) {
  const TestFolder folder;
  made_up_logbook(folder.path("a")).add_clip(1, made_up_clip(1));
  export_folder(Logbook(folder.path("a")), folder.path("out"));
  const auto import_refuses = [&](const char* change, const std::function<void(const fs::path&)>& spoil) {
    const fs::path spoilt = folder.path(std::string("out-") + change);
    fs::copy(folder.path("out"), spoilt, fs::copy_options::recursive);
    spoil(spoilt);
    EXPECT_THROW(import_folder(spoilt.string(), folder.path("b")), Failure) << change;
    EXPECT_FALSE(fs::exists(folder.path("b"))) << change;
    EXPECT_FALSE(fs::exists(folder.path("b.import"))) << change;
  };
  import_refuses("unfinished", [](const fs::path& out) { fs::remove(out / "logbook.csv"); });
  import_refuses("no-table", [](const fs::path& out) { fs::remove(out / "tables/setup.csv"); });
  import_refuses("no-sound", [](const fs::path& out) { fs::remove(out / "sounds/shot-1.flac"); });
  import_refuses("newer", [](const fs::path& out) { std::ofstream(out / "logbook.csv") << "version\n99\n"; });
  import_refuses("orphan", [](const fs::path& out) { std::ofstream(out / "tables/session.csv") << "id\n"; });
  import_refuses("no-number", [](const fs::path& out) {
    std::ofstream(out / "tables/number.csv") << "shot,id,value\n1,hum,loud\n";
  });
  import_refuses("other-column", [](const fs::path& out) { std::ofstream(out / "tables/tone.csv") << "shot,colour\n1,red\n"; });
  EXPECT_THROW(import_folder(folder.path("missing"), folder.path("b")), FileFailure);
}

/// What an export of an older version would have been: that version's tables and sounds.
void export_as_it_was(const std::string& path, std::int64_t version, const fs::path& out) {
  make_old_logbook(path, version);
  fs::create_directories(out / "tables");
  fs::create_directories(out / "sounds");
  const Database old(path, Database::Access::existing);
  Statement table = old.prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name <> 'sqlite_stat1'");
  while (table.step()) {
    std::vector<std::string> columns;
    Statement column = old.prepare("SELECT name FROM pragma_table_info(?) WHERE type <> 'BLOB'");
    column.with(table.text(0));
    while (column.step()) columns.push_back(column.text(0));
    std::ofstream file(out / "tables" / (table.text(0) + ".csv"), std::ios::binary);
    file << fmt::format("{}\n", fmt::join(columns, ","));
    Statement row = old.prepare(fmt::format("SELECT {} FROM \"{}\"", fmt::join(columns, ", "), table.text(0)));
    while (row.step()) {
      for (int k = 0; k < static_cast<int>(columns.size()); ++k) {
        std::string cell = row.kind(k) == Statement::Kind::real ? fmt::format("{}", row.real(k)) : row.text(k);
        for (std::size_t at = 0; (at = cell.find('"', at)) != std::string::npos; at += 2) cell.insert(at, "\"");
        file << (k == 0 ? "\"" : ",\"") << cell << "\"";
      }
      file << "\n";
    }
  }
  std::ofstream(out / "sounds/shot-1.flac", std::ios::binary) << std::string("\x00\x01\x7F\xFF\x80", 5);
  std::ofstream(out / "sounds/shot-2.wav", std::ios::binary) << "\x01\x02";
  std::ofstream(out / "sounds/shot-5.flac", std::ios::binary) << "\x03\x04\x05";
  std::ofstream(out / "logbook.csv") << "version\n" << version << "\n";
}

TEST(Export, OfAnOlderVersionComesToThePresentOne) {
  for (std::int64_t version = 1; version <= migrations().back().version; ++version) {
    const TestFolder folder;
    export_as_it_was(folder.path("old"), version, folder.path("out"));
    import_folder(folder.path("out"), folder.path("imported"));
    { const Logbook migrated(folder.path("old")); }
    EXPECT_EQ(everything_in(folder.path("imported")), everything_in(folder.path("old"))) << version;
  }
}

/// What stands beside the exports in a test's folder.
std::vector<std::string> names_in(const std::string& folder) {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder)) names.push_back(entry.path().filename().string());
  std::ranges::sort(names);
  return names;
}

// Version 2 had no rule against it: what it let in is seen only when all is brought to the present version.
TEST(Export, DamagedThatShowsOnlyInTheEndMakesNoLogbook) {
  const TestFolder folder;
  export_as_it_was(folder.path("old"), 2, folder.path("out"));
  std::ofstream(folder.path("out/tables/bow.csv"), std::ios::app) << "2,another bow,,,,\"\",\"\",\"\"\n";
  const std::string sessions = folder.path("out/tables/session.csv");
  std::ifstream before(sessions);
  std::string text(std::istreambuf_iterator<char>(before), {});
  const auto bow = text.find("\n\"1\",\"1\"");
  ASSERT_NE(bow, std::string::npos) << text;
  std::ofstream(sessions) << text.replace(bow, 8, "\n\"1\",\"2\"");
  std::string said;
  try {
    import_folder(folder.path("out"), folder.path("b"));
  } catch (const LogbookFailure& failure) {
    said = failure.what();
  }
  EXPECT_NE(said.find("the set-up of block 1 belongs to another bow"), std::string::npos) << said;
  EXPECT_EQ(said.rfind(folder.path("out"), 0), 0U) << "the export is at fault, not a file that is gone: " << said;
  EXPECT_EQ(names_in(folder.str()), (std::vector<std::string>{"old", "out"}));
}

TEST(Export, AValueThatCantBeIsNamedByItsTableAndLine) {
  const TestFolder folder;
  made_up_logbook(folder.path("a"));
  export_folder(Logbook(folder.path("a")), folder.path("out"));
  std::ofstream(folder.path("out/tables/bow.csv"), std::ios::app) << "1,another,,,,,,\n";
  std::string said;
  try {
    import_folder(folder.path("out"), folder.path("b"));
  } catch (const LogbookFailure& failure) {
    said = failure.what();
  }
  EXPECT_NE(said.find("bow.csv, line 3: "), std::string::npos) << said;
  EXPECT_NE(said.find("one of this name or number is there already"), std::string::npos) << said;
}

TEST(Export, ImportsIntoOneNameAtOnceDontDisturbEachOther) {
  const TestFolder folder;
  make_hard_logbook(folder.path("a"));
  export_folder(Logbook(folder.path("a")), folder.path("out"));
  const auto whole = everything_in(folder.path("a"));
  std::ofstream(folder.path("b.import")) << "of another program";
  for (int round = 0; round < 20; ++round) {
    std::vector<std::unique_ptr<Program>> programs;
    for (int k = 0; k < 4; ++k) {
      programs.push_back(std::make_unique<Program>([&](const Program::Line& line) {
        if (!line.tell(1) || !line.hear()) return 1;
        try {
          import_folder(folder.path("out"), folder.path("b"));
          return 0;
        } catch (const LogbookFailure& failure) {
          return std::string(failure.what()).find("exists and is not written over") == std::string::npos ? 3 : 2;
        }
      }));
    }
    for (const auto& program : programs) ASSERT_TRUE(program->line().hear());
    for (const auto& program : programs) program->line().tell(1);
    int made = 0;
    for (const auto& program : programs) {
      const int status = program->status();
      EXPECT_TRUE(status == 0 || status == 2) << status;
      if (status == 0) ++made;
    }
    EXPECT_EQ(made, 1);
    EXPECT_EQ(names_in(folder.str()), (std::vector<std::string>{"a", "b", "b.import", "out"}));
    EXPECT_EQ(everything_in(folder.path("b")), whole);
    std::filesystem::remove(folder.path("b"));
  }
  std::ifstream other(folder.path("b.import"));
  EXPECT_EQ(std::string(std::istreambuf_iterator<char>(other), {}), "of another program");
}

}  // namespace
}  // namespace ringfall::logbook
