// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <fmt/format.h>

#include <string>
#include <string_view>

namespace ringfall::terminal {

/// The only ways to standard output and standard error. What goes to a screen is screen_text(): foreign words in it (names, notes,
/// file names, cells of tables) can't steer the terminal; only Ink's colours can. FileFailure: standard output can't be
/// written (a full disk, a closed pipe), now or earlier. Tested: terminal.Output.*

/// To be called first: from then on only these functions reach standard output. What a library prints there of its own accord (decoders
/// do, on bad files) goes to standard error, so that JSON stays JSON.
void claim_output();
/// Is standard output a screen?
bool output_is_screen();

/// Sentences and tables.
void put(std::string_view text);
/// JSON or CSV: as it is into a file or pipe, as put() on a screen. JSON is harmless by itself (screen_json).
void put_data(std::string_view text);
/// What moves the cursor: written by this program alone, never with a foreign word in it.
void put_control(std::string_view text);
/// Sends what is held back on its way.
void flush_output();
/// FileFailure: something that was put could not be written.
void finish_output();

/// On standard error, with the same care; what can't be written there is lost.
void complain(std::string_view text);

template <typename... Values>
void print_out(fmt::format_string<Values...> format, Values&&... values) {
  put(fmt::format(format, std::forward<Values>(values)...));
}
template <typename... Values>
void print_error(fmt::format_string<Values...> format, Values&&... values) {
  complain(fmt::format(format, std::forward<Values>(values)...));
}

}  // namespace ringfall::terminal
