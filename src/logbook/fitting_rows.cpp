// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/fitting_rows.h"

#include <array>

namespace ringfall::logbook {
namespace {

// In the order of Part::Kind.
constexpr std::array<std::string_view, 4> kPartKinds = {"mass", "damper", "silencer", "other"};

}  // namespace

std::string_view part_kind_name(Part::Kind kind) { return kPartKinds[static_cast<std::size_t>(kind)]; }

std::optional<Part::Kind> find_part_kind(std::string_view name) {
  for (std::size_t k = 0; k < kPartKinds.size(); ++k) {
    if (kPartKinds[k] == name) return static_cast<Part::Kind>(k);
  }
  return std::nullopt;
}

void write_parts(const Database& database, std::optional<std::int64_t> bow_id, std::optional<std::int64_t> setup_id,
                 const std::vector<Part>& parts) {
  database.prepare("DELETE FROM part WHERE bow = ? OR setup = ?").with(bow_id, setup_id).run();
  Statement row = database.prepare("INSERT INTO part (bow, setup, kind, what, place, mass_kg) VALUES (?, ?, ?, ?, ?, ?)");
  for (const Part& part : parts) row.with(bow_id, setup_id, part_kind_name(part.kind), part.what, part.place, part.mass_kg).run();
}

std::vector<Part> read_parts(Statement& rows) {
  std::vector<Part> parts;
  while (rows.step()) {
    parts.push_back({find_part_kind(rows.text(0)).value_or(Part::Kind::other), rows.text(1), rows.text(2), rows.maybe_real(3)});
  }
  return parts;
}

}  // namespace ringfall::logbook
