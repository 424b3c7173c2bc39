// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/listen_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <variant>

#include "base/text.h"

namespace ringfall::terminal {
namespace {

constexpr double kLowest_db = -60.0;

std::string numbers_text(const shot::Shot& shot) {
  return fmt::format("hum {}  ping {}  exposure {}  peak {}", plain_number(shot.hum, 1), plain_number(shot.ping, 1),
                     with_unit(shot.levels.exposure_db, "dB(A)", 1), with_unit(shot.levels.peak_db, "dB", 1));
}

struct EventText {
  bool blind;

  std::string operator()(const intake::SourceOpened& event) const {
    return fmt::format("{}Listening to {} at {:.0f} Hz\n", event.again ? "Back: " : "", event.name, event.sample_rate_hz);
  }
  std::string operator()(const intake::SourceLost& event) const { return event.sentence + "\n"; }
  std::string operator()(const intake::SourceEnded&) const { return "The file is at its end.\n"; }
  std::string operator()(const intake::BlockStarted& event) const {
    return fmt::format("Block {} of '{}'\n", event.number, event.setup);
  }
  std::string operator()(const intake::ShotKept&) const { return {}; }
  std::string operator()(const intake::ShotMeasured& event) const {
    if (event.first_look) return blind ? "" : fmt::format("  heard at {}    {}  (first look)\n", clock_text(event.onset_s), numbers_text(event.shot));
    const std::string who = fmt::format("  shot {} at {}", event.id.value_or(0), clock_text(event.onset_s));
    if (blind) return who + "  kept; say what you heard, then its numbers show\n";
    std::string text = fmt::format("{}  {}{}\n", who, numbers_text(event.shot), event.counted ? "" : "  (not counted)");
    for (const Finding& finding : event.shot.findings) {
      if (finding.severity != Severity::note) text += fmt::format("    {}: {}\n", severity_name(finding.severity), finding.sentence);
    }
    return text;
  }
  std::string operator()(const intake::ShotLeftOut& event) const {
    if (!event.id) return {};
    return fmt::format("  shot {} left out: {}\n", *event.id, event.reason);
  }
  std::string operator()(const intake::ShotTakenBack& event) const { return fmt::format("  shot {} counts after all\n", event.id); }
  std::string operator()(const intake::BlockEnded& event) const {
    std::string text = fmt::format("Block {} ended: {} shot{}\n", event.number, event.shots.size(), event.shots.size() == 1 ? "" : "s");
    for (const Finding& finding : event.findings) text += fmt::format("  {}: {}\n", severity_name(finding.severity), finding.sentence);
    if (event.take) text += fmt::format("  The whole take: {}\n", *event.take);
    return text;
  }
  std::string operator()(const intake::ArmedChanged& event) const { return event.armed ? "Armed\n" : "Paused: nothing is kept\n"; }
  std::string operator()(const intake::Remark& event) const {
    return fmt::format("{}: {}\n", severity_name(event.finding.severity), event.finding.sentence);
  }
  // The verb ends with it, as with any failure.
  std::string operator()(const intake::Failed&) const { return {}; }
};

}  // namespace

std::string event_text(const intake::ListeningEvent& event, bool blind) { return std::visit(EventText{blind}, event); }

std::string meter_text(const intake::MeterReading& reading, int width) {
  const auto place = [width](double level_db) {
    const double share = std::clamp((level_db - kLowest_db) / -kLowest_db, 0.0, 1.0);
    return static_cast<std::size_t>(std::lround(share * width));
  };
  std::string bar(static_cast<std::size_t>(width) + 1, ' ');
  std::fill_n(bar.begin(), place(reading.peak_db), '-');
  std::fill_n(bar.begin(), place(reading.rms_db), '=');
  bar[place(reading.held_peak_db)] = '|';
  return fmt::format("[{}] {:5.1f} dB, peak {:5.1f} dB{}", bar, reading.rms_db, reading.held_peak_db,
                     reading.clipped ? " CLIPPED" : "");
}

}  // namespace ringfall::terminal
