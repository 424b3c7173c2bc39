// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/typed_units.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

#include "base/failure.h"
#include "base/nearest.h"
#include "base/units.h"
#include "logbook/fitting_rows.h"

namespace ringfall::terminal {
namespace {

std::string without_blanks_around(const std::string& text) {
  const auto first = text.find_first_not_of(' ');
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

}  // namespace

NumberChange typed_change(const std::optional<std::string>& typed, const std::function<double(std::string_view)>& parse,
                          work::Limits limits, const char* unit, const char* option) {
  if (!typed) return std::nullopt;
  if (*typed == "none") return std::optional<double>();
  double value = 0.0;
  try {
    value = parse(*typed);
  } catch (const RequestFailure& refused) {
    throw RequestFailure(fmt::format("{}: {}", option, refused.what()));
  }
  if (limits.hold(value)) return std::optional(value);
  throw RequestFailure(fmt::format("{}: '{}' can't be; it must lie between {:g} and {:g} {}", option, *typed, limits.low, limits.high, unit));
}

logbook::Part parse_part(const std::string& typed) {
  std::vector<std::string> fields(1);
  for (const char letter : typed) {
    if (letter == ',') {
      fields.emplace_back();
    } else {
      fields.back() += letter;
    }
  }
  for (auto& field : fields) field = without_blanks_around(field);
  if (fields.size() > 4) {
    throw RequestFailure(fmt::format("--part '{}' says too much; write it like \"damper, rubber, upper limb, 12g\"", typed));
  }
  fields.resize(4);
  const auto kind = logbook::find_part_kind(fields[0]);
  if (!kind) {
    throw RequestFailure(fmt::format("--part begins with its kind, and '{}' is none{}", fields[0],
                                     did_you_mean(fields[0], {"mass", "damper", "silencer", "other"})));
  }
  logbook::Part part{*kind, fields[1], fields[2], std::nullopt};
  if (!fields[3].empty()) part.mass_kg = typed_change(fields[3], parse_mass_kg, work::kAddedMass_kg, "kg", "--part").value();
  if (part.what.empty() && part.place.empty() && !part.mass_kg) {
    throw RequestFailure(fmt::format("--part '{}' says nothing but its kind; write it like \"damper, rubber, upper limb, 12g\"", typed));
  }
  return part;
}

double parse_plain(std::string_view typed) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(typed.data(), typed.data() + typed.size(), value);
  if (error == std::errc{} && end == typed.data() + typed.size() && std::isfinite(value)) return value;
  throw RequestFailure(fmt::format("'{}' is not a number", typed));
}

double parse_clock_s(const std::string& typed) {
  double seconds = 0.0;
  std::size_t begin = 0;
  int parts = 0;
  for (;;) {
    const auto colon = typed.find(':', begin);
    const double part = parse_plain(std::string_view(typed).substr(begin, colon == std::string::npos ? colon : colon - begin));
    seconds = seconds * 60.0 + part;
    if (part < 0.0 || ++parts > 3) throw RequestFailure(fmt::format("'{}' is no time in a recording; write it like 0:12.34", typed));
    if (colon == std::string::npos) return seconds;
    begin = colon + 1;
  }
}

}  // namespace ringfall::terminal
