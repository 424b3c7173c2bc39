// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/recordings_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <filesystem>
#include <string_view>
#include <system_error>

#include "base/csv.h"
#include "base/failure.h"

namespace ringfall::compare {
namespace {

namespace fs = std::filesystem;

constexpr std::array<std::string_view, 18> kSoundEndings = {".wav", ".flac", ".ogg",  ".oga", ".opus", ".mp3", ".aif", ".aiff", ".caf",
                                                            ".m4a", ".mp4",  ".mov",  ".3gp", ".amr",  ".aac", ".w64", ".rf64", ".webm"};
constexpr std::array<std::string_view, 4> kBaselineNames = {"bare", "baseline", "before", "without"};

std::string lower(std::string text) {
  std::ranges::transform(text, text.begin(), [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
  return text;
}

/// "bare 2" -> "bare", "take-01" -> "take"; a name that is nothing but a number stays.
std::string without_number(const std::string& name) {
  const std::size_t last = name.find_last_not_of("0123456789");
  if (last == std::string::npos || last + 1 == name.size()) return name;
  const std::size_t end = name.find_last_not_of(" -_.#(", last);
  return end == std::string::npos ? name : name.substr(0, end + 1);
}

struct Typed {
  std::string setup;  ///< empty: by its file's name
  std::string file;
};

std::vector<Typed> understood(const std::string& word) {
  const std::size_t equals = word.find('=');
  std::error_code failed;
  if (equals == std::string::npos || fs::exists(word, failed)) return {{"", word}};
  std::vector<Typed> all;
  const std::string setup = word.substr(0, equals);
  std::size_t from = equals + 1;
  while (from <= word.size()) {
    // A comma may stand in a file's name: the rest as it is, if that is there.
    std::size_t comma = fs::exists(word.substr(from), failed) ? std::string::npos : word.find(',', from);
    if (comma == std::string::npos) comma = word.size();
    all.push_back({setup, word.substr(from, comma - from)});
    from = comma + 1;
  }
  for (const Typed& typed : all) {
    if (!setup.empty() && !typed.file.empty()) continue;
    throw RequestFailure(fmt::format("'{}': write it like cuff=first.wav,second.wav, a name and its recordings", word));
  }
  return all;
}

/// Names for those that have none.
void name_by_file(std::vector<Typed>& all) {
  std::vector<Typed*> open;
  for (Typed& typed : all) {
    if (typed.setup.empty()) open.push_back(&typed);
  }
  const auto stem = [](const Typed* typed) { return fs::path(typed->file).stem().string(); };
  const auto folder = [](const Typed* typed) { return fs::path(typed->file).parent_path().filename().string(); };
  const bool one_name = open.size() > 1 && std::ranges::all_of(open, [&](const Typed* typed) { return stem(typed) == stem(open.front()); });
  if (one_name && std::ranges::all_of(open, [&](const Typed* typed) { return !folder(typed).empty(); })) {
    for (Typed* typed : open) typed->setup = folder(typed);
    return;
  }
  std::vector<std::string> names;
  for (Typed* typed : open) {
    const std::string bare = without_number(stem(typed));
    const auto shared = std::ranges::count_if(open, [&](const Typed* other) { return without_number(stem(other)) == bare; });
    names.push_back(shared > 1 ? bare : stem(typed));
  }
  const bool one_left = open.size() == all.size() && std::ranges::all_of(names, [&](const std::string& name) { return name == names.front(); });
  for (std::size_t k = 0; k < open.size(); ++k) open[k]->setup = one_left ? stem(open[k]) : names[k];
}

/// What a line says of its set-up: the first mass that is there, all of its notes. Two masses are a mistake.
void add_facts(const CsvTable& table, std::size_t row, const std::string& setup, const std::string& note, std::optional<double> mass_g,
               std::vector<SetUpFacts>& all) {
  if (mass_g && !(*mass_g > -1e4 && *mass_g < 1e4)) {
    throw FileFailure(fmt::format("{}, line {}: an added mass of {:g} g is none that a bow could have", table.name, table.lines[row], *mass_g));
  }
  auto own = std::ranges::find(all, setup, &SetUpFacts::name);
  if (own == all.end()) own = all.insert(all.end(), SetUpFacts{setup, {}, std::nullopt, std::nullopt});
  if (!note.empty() && own->changed.find(note) == std::string::npos) own->changed += (own->changed.empty() ? "" : "; ") + note;
  if (!mass_g) return;
  if (own->added_mass_kg && std::abs(*own->added_mass_kg - *mass_g / 1000.0) > 1e-9) {
    throw FileFailure(fmt::format("{}, line {}: '{}' adds {:g} g here and {:g} g in a line before; two masses are two set-ups",
                                  table.name, table.lines[row], setup, *mass_g, *own->added_mass_kg * 1000.0));
  }
  own->added_mass_kg = *mass_g / 1000.0;
}

SessionPlan plan_of(const std::vector<Typed>& all) {
  SessionPlan plan;
  for (const Typed& typed : all) {
    SessionBlock block;
    block.file = typed.file;
    block.setup = typed.setup;
    block.block = static_cast<int>(plan.blocks.size()) + 1;
    plan.blocks.push_back(std::move(block));
  }
  return plan;
}

std::vector<fs::path> sorted_entries(const fs::path& folder) {
  std::vector<fs::path> entries;
  std::error_code failed;
  for (fs::directory_iterator entry(folder, failed), end; !failed && entry != end; entry.increment(failed)) entries.push_back(entry->path());
  std::ranges::sort(entries);
  return entries;
}

}  // namespace

bool is_sound_name(const std::string& file) {
  return std::ranges::find(kSoundEndings, lower(fs::path(file).extension().string())) != kSoundEndings.end();
}

bool names_recordings(const std::string& word) {
  std::error_code failed;
  if (fs::is_directory(word, failed)) return false;
  return is_sound_name(word) || (word.find('=') != std::string::npos && !fs::exists(word, failed));
}

SessionPlan plan_of_recordings(const std::vector<std::string>& words) {
  std::vector<Typed> all;
  for (const std::string& word : words) {
    std::error_code failed;
    if (fs::is_directory(word, failed)) {
      throw RequestFailure(fmt::format("{}: this is a folder; name recordings, or one folder alone", word));
    }
    for (Typed& typed : understood(word)) all.push_back(std::move(typed));
  }
  name_by_file(all);
  for (const Typed& typed : all) {
    if (typed.setup != all.front().setup) return plan_of(all);
  }
  throw RequestFailure("a comparison needs recordings of two set-ups or more: before.m4a after.m4a, or NAME=FILE,FILE NAME=FILE");
}

SessionPlan session_plan_of(const std::string& source) {
  std::error_code failed;
  const fs::path folder(source);
  if (!fs::is_directory(folder, failed) || fs::exists(folder / "setups.csv", failed)) return read_session_plan(source);
  std::vector<Typed> all;
  std::vector<fs::path> setups;
  for (const fs::path& entry : sorted_entries(folder)) {
    if (fs::is_directory(entry, failed)) setups.push_back(entry);
  }
  std::ranges::stable_sort(setups, {}, [](const fs::path& entry) {
    return std::ranges::find(kBaselineNames, lower(entry.filename().string())) == kBaselineNames.end();
  });
  std::size_t found = 0;
  for (const fs::path& setup : setups) {
    const std::size_t before = all.size();
    for (const fs::path& file : sorted_entries(setup)) {
      if (is_sound_name(file.string())) all.push_back({setup.filename().string(), (setup.filename() / file.filename()).string()});
    }
    if (all.size() > before) ++found;
  }
  if (found < 2) {
    throw FileFailure(fmt::format("{}: there is no setups.csv in it, and no two sub-folders with recordings; name the recordings, put each set-up's "
                                  "into a sub-folder, or write a setups.csv with the columns file, setup, block", source));
  }
  SessionPlan plan = plan_of(all);
  plan.folder = source;
  return plan;
}

std::vector<SetUpFacts> setup_facts_of(const std::string& source) {
  std::error_code failed;
  const fs::path path = fs::is_directory(source, failed) ? fs::path(source) / "setups.csv" : fs::path(source);
  std::vector<SetUpFacts> all;
  if (!fs::exists(path, failed)) return all;
  const CsvTable table = read_csv(path.string());
  const std::size_t setup = table.needed_column("setup");
  const auto note = table.column("note");
  const auto mass = table.column("added_mass_g");
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    add_facts(table, row, table.text(row, setup), note ? table.text(row, *note) : std::string(), mass ? table.number(row, *mass) : std::nullopt, all);
  }
  return all;
}

}  // namespace ringfall::compare
