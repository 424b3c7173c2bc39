// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>

namespace ringfall {

/// One place that turns numbers into words, so that terminal, report and window agree.

/// "73.4 dB"; "-" without a value. `decimals` 0..6.
std::string with_unit(std::optional<double> value, const char* unit, int decimals);

/// "73.4"; "-" without a value.
std::string plain_number(std::optional<double> value, int decimals);

/// A frequency with about three significant figures: "95.2 Hz", "1.45 kHz".
std::string frequency_text(double frequency_hz);

/// A duration with about three significant figures: "8.30 ms", "250 ms", "1.35 s".
std::string duration_text(double duration_s);

/// Time from the start of a recording: "0:03.41", "1:02:03.41"; before it: "-0:00.50".
std::string clock_text(double time_s);

/// "1 shot", "0 shots", "12 shots": for a thing whose plural takes an s.
std::string counted(std::size_t count, const char* thing);

/// As it can be typed in a POSIX shell: itself where it is plain, else between single quotes.
std::string shell_word(const std::string& text);

}  // namespace ringfall
