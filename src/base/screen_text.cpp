// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/screen_text.h"

#include <fmt/format.h>

#include <cstdint>
#include <optional>

namespace ringfall {
namespace {

struct Letter {
  std::uint32_t code = 0;
  std::size_t bytes = 1;
};

/// The letter at the front by RFC 3629; nullopt: its bytes are none.
std::optional<Letter> first_letter(std::string_view text) {
  const auto byte = [&](std::size_t k) { return static_cast<std::uint32_t>(static_cast<unsigned char>(text[k])); };
  const std::uint32_t head = byte(0);
  if (head < 0x80) return Letter{head, 1};
  const std::size_t size = head >= 0xF0 && head < 0xF5 ? 4 : head >= 0xE0 && head < 0xF0 ? 3 : head >= 0xC2 && head < 0xE0 ? 2 : 0;
  if (size == 0 || text.size() < size) return std::nullopt;
  std::uint32_t code = head & (0x7FU >> size);
  for (std::size_t k = 1; k < size; ++k) {
    if ((byte(k) & 0xC0U) != 0x80U) return std::nullopt;
    code = (code << 6U) | (byte(k) & 0x3FU);
  }
  constexpr std::uint32_t kSmallest[] = {0, 0, 0x80, 0x800, 0x10000};
  if (code < kSmallest[size] || code > 0x10FFFF || (code >= 0xD800 && code < 0xE000)) return std::nullopt;
  return Letter{code, size};
}

/// Above ASCII: C1, and what turns directions or ends lines.
bool steers(std::uint32_t code) {
  return (code >= 0x80 && code < 0xA0) || code == 0x061C || code == 0x200E || code == 0x200F ||
         (code >= 0x2028 && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
}

}  // namespace

std::string screen_text(std::string_view text, bool lines) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const auto letter = first_letter(text);
    const std::size_t bytes = letter ? letter->bytes : 1;
    if (!letter) {
      out += fmt::format("\\x{:02x}", static_cast<unsigned char>(text.front()));
    } else if (letter->code < 0x20 || letter->code == 0x7F) {
      const bool kept = lines && (letter->code == '\n' || letter->code == '\t');
      out += kept ? std::string(1, text.front()) : fmt::format("\\x{:02x}", letter->code);
    } else if (steers(letter->code)) {
      out += fmt::format("\\u{:04x}", letter->code);
    } else {
      out += text.substr(0, bytes);
    }
    text.remove_prefix(bytes);
  }
  return out;
}

std::string screen_json(std::string_view json) {
  std::string out;
  out.reserve(json.size());
  while (!json.empty()) {
    const auto letter = first_letter(json);
    const std::size_t bytes = letter ? letter->bytes : 1;
    const bool escaped = letter && (letter->code == 0x7F || steers(letter->code));
    out += escaped ? fmt::format("\\u{:04x}", letter->code) : std::string(json.substr(0, bytes));
    json.remove_prefix(bytes);
  }
  return out;
}

}  // namespace ringfall
