// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/schema_check.h"

#include <fmt/format.h>

#include <map>
#include <utility>


namespace ringfall::logbook {
namespace {

/// Kind and name.
using Object = std::pair<std::string, std::string>;
using Schema = std::map<Object, std::string>;

/// A hostile file may name millions of things.
constexpr std::size_t kMostObjects = 1000;

std::string plain(const std::string& sql) {
  std::string out;
  bool text = false;
  for (const char letter : sql) {
    if (letter == '\'') text = !text;
    if (text) {
      out += letter;
    } else if (letter != ' ' && letter != '\n' && letter != '\t' && letter != '\r' && letter != '"') {
      out += letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
    }
  }
  return out;
}

Schema schema_of(const Database& database) {
  Schema schema;
  Statement row = database.prepare("SELECT type, name, coalesce(sql, '') FROM sqlite_schema");
  while (schema.size() <= kMostObjects && row.step()) schema[{row.text(0), row.text(1)}] = plain(row.text(2));
  return schema;
}

Schema schema_of_version(std::span<const Migration> steps, std::int64_t version) {
  const Database made(":memory:", Database::Access::in_memory);
  // In one go: SQLite reads the schema anew after each statement on its own.
  Transaction together(made);
  for (const Migration& step : steps) {
    if (step.version <= version) made.run(step.sql);
  }
  return schema_of(made);
}

/// As schema_of_version; that of a logbook of today is made once.
const Schema& expected_schema(std::span<const Migration> steps, std::int64_t version, Schema& place) {
  if (steps.data() == migrations().data() && version == migrations().back().version) {
    static const Schema kToday = schema_of_version(migrations(), migrations().back().version);
    return kToday;
  }
  place = schema_of_version(steps, version);
  return place;
}

}  // namespace

std::optional<std::string> foreign_part(const Database& database, std::span<const Migration> steps, std::int64_t version) {
  Schema place;
  const Schema& expected = expected_schema(steps, version, place);
  const Schema found = schema_of(database);
  for (const auto& [object, sql] : found) {
    const auto known = expected.find(object);
    if (known == expected.end()) return fmt::format("it holds a {} '{}' that no logbook of version {} has", object.first, object.second, version);
    if (known->second != sql) return fmt::format("its {} '{}' is not that of a logbook of version {}", object.first, object.second, version);
  }
  for (const auto& [object, sql] : expected) {
    if (!found.contains(object)) return fmt::format("its {} '{}' is missing", object.first, object.second);
  }
  return std::nullopt;
}

std::set<std::string> known_tables(std::int64_t version) {
  std::set<std::string> tables;
  for (const auto& [object, sql] : schema_of_version(migrations(), version)) {
    if (object.first == "table") tables.insert(object.second);
  }
  return tables;
}

}  // namespace ringfall::logbook
