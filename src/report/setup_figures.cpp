// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/setup_figures.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "report/shot_figures.h"

namespace ringfall::report {
namespace {

constexpr double kWidth_pt = 330.0;
constexpr std::size_t kNamedTones = 5;

plot::Ink ink_of(std::size_t setup) { return plot::trace_ink(static_cast<int>(setup)); }

bool wanted(const std::vector<std::size_t>& only, std::size_t setup) { return only.empty() || std::ranges::find(only, setup) != only.end(); }

/// Where levels of all typical shots reach, so that one ramp serves them.
std::optional<double> highest_typical_db(const SessionReport& report) {
  std::optional<double> highest;
  for (const auto& sound : report.source.sounds) {
    if (!sound.typical) continue;
    for (const auto* levels : {&sound.typical->low.levels_db, &sound.typical->wide.levels_db}) {
      for (const float level_db : *levels) highest = std::max<double>(highest.value_or(level_db), level_db);
    }
  }
  return highest;
}

plot::Trace curve_of(const MedianDecay& decay, std::size_t setup, const std::string& name) {
  return plot::sampled_trace(0.0, 1000.0 * decay.step_s, decay.level_db, ink_of(setup), name);
}

plot::Notes tone_notes(const SetUpSound& sound, std::size_t setup) {
  plot::Notes notes;
  notes.ink = ink_of(setup);
  for (const compare::SetUpTone& entry : sound.pooled.tones) {
    if (notes.notes.size() == kNamedTones) break;
    if (const auto place = place_on_tail(sound.pooled.tail, entry.tone.frequency_hz)) {
      notes.notes.push_back({*place, frequency_text(entry.tone.frequency_hz)});
    }
  }
  return notes;
}

}  // namespace

std::optional<plot::Figure> decays_figure(const SessionReport& report, bool a_weighted, const std::vector<std::size_t>& only) {
  plot::Panel panel;
  panel.x = plot::time_axis_ms();
  panel.x.quantity = "Time after the loud edge";
  panel.y.quantity = a_weighted ? "Decay curve, A-weighted" : "Decay curve, unweighted";
  panel.y.unit = "dB";
  panel.y.high = 0.0;
  for (std::size_t k = 0; k < report.source.sounds.size(); ++k) {
    const auto& sound = report.source.sounds[k];
    const auto& decay = a_weighted ? sound.decay_a : sound.decay_z;
    if (decay.level_db.empty() || !wanted(only, k)) continue;
    panel.series.emplace_back(curve_of(decay, k, fmt::format("{}, {}", sound.setup, counted(decay.shots, "shot"))));
  }
  if (panel.series.empty()) return std::nullopt;
  plot::Figure figure;
  figure.title = a_weighted ? "Dying away as the ear weighs it" : "Dying away, low tones and all";
  figure.width_pt = kWidth_pt;
  figure.height_pt = 230.0;
  figure.panels.push_back(std::move(panel));
  return figure;
}

std::optional<plot::Figure> tails_figure(const SessionReport& report, const std::vector<std::size_t>& only) {
  plot::Panel panel;
  panel.x = plot::frequency_axis(50.0, 10000.0);
  panel.y = plot::level_axis("Tail, per hertz", report.level_reference);
  panel.series.emplace_back(plot::Span{plot::Along::x, 60.0, 400.0, "", plot::Ink::fill});
  panel.series.emplace_back(plot::Span{plot::Along::x, 800.0, 8000.0, "", plot::Ink::fill});
  std::vector<plot::Notes> notes;
  for (std::size_t k = 0; k < report.source.sounds.size(); ++k) {
    const auto& sound = report.source.sounds[k];
    if (sound.pooled.tail.frequency_hz.empty() || !wanted(only, k)) continue;
    plot::Trace trace;
    trace.x.assign(sound.pooled.tail.frequency_hz.begin(), sound.pooled.tail.frequency_hz.end());
    trace.y.assign(sound.pooled.tail.density_db.begin(), sound.pooled.tail.density_db.end());
    trace.ink = ink_of(k);
    trace.name = fmt::format("{}, {}", sound.setup, counted(sound.pooled.tails, "shot"));
    panel.series.emplace_back(std::move(trace));
    notes.push_back(tone_notes(sound, k));
  }
  if (panel.series.size() == 2) return std::nullopt;
  for (auto& words : notes) {
    if (!words.notes.empty()) panel.series.emplace_back(std::move(words));
  }
  plot::Figure figure;
  figure.title = "What rings in the tail";
  figure.width_pt = 1.15 * kWidth_pt;
  figure.height_pt = 280.0;
  figure.panels.push_back(std::move(panel));
  return figure;
}

std::optional<plot::Figure> typical_figure(const SessionReport& report, std::size_t setup) {
  const auto& sound = report.source.sounds[setup];
  if (!sound.typical || !sound.typical_shot) return std::nullopt;
  auto figure = spectrogram_figure(*sound.typical, *sound.typical_shot, sound.setup, report.level_reference,
                                   highest_typical_db(report));
  figure.width_pt = kWidth_pt;
  figure.height_pt = 400.0;
  return figure;
}

plot::Figure said_figure(const SessionReport& report, const Agreement& agreement) {
  plot::Panel panel;
  panel.x.quantity = std::string(agreement.number->label) + " as measured";
  panel.x.unit = agreement.number->unit;
  panel.y.quantity = "'" + agreement.rating + "' as said";
  panel.y.unit = "0 to 10";
  panel.y.low = -0.5;
  panel.y.high = 10.5;
  for (std::size_t k = 0; k < report.setups.size(); ++k) {
    plot::Dots dots;
    dots.ink = ink_of(k);
    dots.name = report.setups[k].name;
    for (std::size_t i = 0; i < agreement.said.size(); ++i) {
      if (agreement.setups[i] != dots.name) continue;
      dots.x.push_back(agreement.measured[i]);
      dots.y.push_back(agreement.said[i]);
    }
    if (!dots.x.empty()) panel.series.emplace_back(std::move(dots));
  }
  plot::Figure figure;
  figure.title = fmt::format("Said and measured: {}", agreement.rating);
  figure.width_pt = kWidth_pt;
  figure.height_pt = 210.0;
  figure.panels.push_back(std::move(panel));
  return figure;
}

}  // namespace ringfall::report
