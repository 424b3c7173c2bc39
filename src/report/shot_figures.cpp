// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/shot_figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "base/units.h"

namespace ringfall::report {
namespace {

constexpr std::size_t kNamedTonesOfAShot = 6;
constexpr double kLowPanelTop_hz = 600.0;
// Names of tones stand before the shot, where they hide nothing.
constexpr double kShownFrom_s = -0.200;
constexpr double kNamesAt_s = -0.180;
constexpr double kShownTo_s = 0.600;
constexpr double kPeakNear = 0.015;  // of a tone's frequency: where its peak may stand in a spectrum's bins

double milliseconds(double seconds) { return 1000.0 * seconds; }

plot::Rule mark(double at_s, std::string label, plot::Ink ink, plot::Dash dash) {
  return {plot::Along::x, milliseconds(at_s), std::move(label), ink, dash};
}

/// Marks common to everything that runs over time.
void add_time_marks(plot::Panel& panel, const shot::Shot& shot) {
  panel.series.emplace_back(mark(0.0, "loud edge", plot::Ink::accent, plot::Dash::solid));
  if (shot.impact_lag_s) {
    panel.series.emplace_back(mark(*shot.impact_lag_s, "impact", plot::Ink::warning, plot::Dash::dashed));
  }
}

plot::LevelMap level_map(const shot::Spectrogram& spectrogram, std::optional<double> highest_db) {
  plot::LevelMap map;
  map.columns = spectrogram.frames;
  map.rows = spectrogram.bins;
  map.levels.assign(spectrogram.levels_db.begin(), spectrogram.levels_db.end());
  map.x_low = milliseconds(spectrogram.first_frame_s - 0.5 * spectrogram.hop_s);
  map.x_high = map.x_low + milliseconds(static_cast<double>(spectrogram.frames) * spectrogram.hop_s);
  map.y_low = -0.5 * spectrogram.bin_hz;
  map.y_high = (static_cast<double>(spectrogram.bins) - 0.5) * spectrogram.bin_hz;
  const double own_db = map.levels.empty() ? 0.0 : *std::ranges::max_element(map.levels);
  // Seventy decibels below the loudest cell hold all that can ring audibly beside it.
  map.high = 5.0 * std::ceil(highest_db.value_or(own_db) / 5.0);
  map.low = map.high - 70.0;
  return map;
}

plot::Panel spectrogram_panel(const shot::Spectrogram& spectrogram, const shot::Shot& shot, const std::string& reference, std::optional<double> highest_db,
                              double low_hz, double high_hz, double named_from_hz) {
  plot::Panel panel;
  panel.x = plot::time_axis_ms();
  panel.y.quantity = "Frequency";
  panel.y.unit = "Hz";
  panel.x.low = milliseconds(kShownFrom_s);
  panel.x.high = milliseconds(std::max(kShownTo_s, shot.impact_lag_s.value_or(0.0) + 0.1));
  panel.y.low = low_hz;
  panel.y.high = high_hz;
  auto map = level_map(spectrogram, highest_db);
  map.unit = "dB " + reference;
  panel.series.emplace_back(std::move(map));
  add_time_marks(panel, shot);
  plot::Notes notes;
  for (const shot::Tone& tone : shot.tones) {
    if (tone.frequency_hz < named_from_hz || tone.frequency_hz > high_hz) continue;
    if (notes.notes.size() >= kNamedTonesOfAShot) break;
    notes.notes.push_back({{milliseconds(kNamesAt_s), tone.frequency_hz}, frequency_text(tone.frequency_hz)});
  }
  if (!notes.notes.empty()) panel.series.emplace_back(std::move(notes));
  return panel;
}

void add_decay(plot::Panel& panel, const signal::Decay& decay, plot::Ink ink, const std::string& name, char weighting) {
  std::vector<double> levels = decay.curve_db;
  panel.series.emplace_back(plot::sampled_trace(0.0, milliseconds(decay.step_s), std::move(levels), ink, name));
  const auto add_line = [&](const std::optional<signal::DecayLine>& line, std::optional<double> time_s, const char* part) {
    if (!line || !time_s) return;
    plot::Fit fit;
    fit.from = {milliseconds(line->begin_s), line->level_at_begin_db};
    fit.to = {milliseconds(line->end_s),
              line->level_at_begin_db + line->slope_db_per_s * (line->end_s - line->begin_s)};
    fit.label = fmt::format("{} {} {}", weighting, part, duration_text(*time_s));
    panel.series.emplace_back(std::move(fit));
  };
  add_line(decay.early_line, decay.early_s, "early");
  add_line(decay.late_line, decay.late_s, "late");
}

}  // namespace

std::optional<plot::Point> place_on_tail(const shot::TailDensity& tail, double frequency_hz) {
  const auto above = std::ranges::lower_bound(tail.frequency_hz, static_cast<float>(frequency_hz));
  if (above == tail.frequency_hz.begin() || above == tail.frequency_hz.end()) return std::nullopt;
  const auto at = static_cast<std::size_t>(above - tail.frequency_hz.begin());
  const auto hz = [&tail](std::size_t k) { return static_cast<double>(tail.frequency_hz[k]); };
  const auto level_db = [&tail](std::size_t k) { return static_cast<double>(tail.density_db[k]); };
  const double part = (frequency_hz - hz(at - 1)) / (hz(at) - hz(at - 1));
  double height_db = std::lerp(level_db(at - 1), level_db(at), part);
  for (std::size_t k = 0; k < tail.frequency_hz.size(); ++k) {
    if (std::abs(hz(k) / frequency_hz - 1.0) <= kPeakNear) height_db = std::max(height_db, level_db(k));
  }
  return plot::Point{frequency_hz, height_db};
}

plot::Figure wave_figure(const shot::Portrait& portrait, const shot::Shot& shot, const std::string& title) {
  plot::Figure figure;
  figure.title = title;
  figure.height_pt = 230.0;
  plot::Panel panel;
  panel.x = plot::time_axis_ms();
  panel.y.quantity = "Sample";
  panel.y.unit = "full scale = 1";
  if (shot.tail_end_s) {
    const double tail_s = *shot.tail_end_s - shot.onset_s;
    panel.series.emplace_back(
        plot::Span{plot::Along::x, milliseconds(std::min(0.030, tail_s)), milliseconds(tail_s), "tail", plot::Ink::fill});
  }
  const double step_ms = milliseconds(1.0 / portrait.sample_rate_hz);
  panel.series.emplace_back(plot::sampled_trace(milliseconds(portrait.wave_begin_s), step_ms,
                                                {portrait.wave.begin(), portrait.wave.end()}, plot::Ink::trace1, ""));
  add_time_marks(panel, shot);
  for (const shot::Hit& hit : shot.hits) {
    if (hit.lag_s > 0.0005) panel.series.emplace_back(mark(hit.lag_s, "hit", plot::Ink::muted, plot::Dash::dotted));
  }
  figure.panels.push_back(std::move(panel));
  return figure;
}

plot::Figure spectrogram_figure(const shot::Portrait& portrait, const shot::Shot& shot, const std::string& title,
                                const std::string& reference, std::optional<double> highest_db) {
  plot::Figure figure;
  figure.title = title;
  figure.height_pt = 420.0;
  const double top_hz = portrait.wide.bin_hz * (static_cast<double>(portrait.wide.bins) - 0.5);
  figure.panels.push_back(spectrogram_panel(portrait.wide, shot, reference, highest_db, 0.0, top_hz, kLowPanelTop_hz));
  figure.panels.push_back(spectrogram_panel(portrait.low, shot, reference, highest_db, 0.0, kLowPanelTop_hz, 0.0));
  figure.shared_x = true;
  return figure;
}

plot::Figure decay_figure(const shot::Portrait& portrait, const shot::Shot& shot, const std::string& title) {
  plot::Figure figure;
  figure.title = title;
  figure.height_pt = 250.0;
  plot::Panel panel;
  panel.x = plot::time_axis_ms();
  panel.x.quantity = "Time after the loud edge";
  panel.y.quantity = "Decay curve";
  panel.y.unit = "dB";
  panel.y.high = 0.0;
  panel.legend = plot::LegendPlace::inside;
  if (portrait.decay_z) add_decay(panel, *portrait.decay_z, plot::Ink::trace2, "unweighted (Z)", 'Z');
  if (portrait.decay_a) add_decay(panel, *portrait.decay_a, plot::Ink::trace1, "A-weighted (A)", 'A');
  const auto time_text = [](const std::optional<double>& time_s) { return time_s ? duration_text(*time_s) : "-"; };
  const auto& times = shot.ring_down;
  figure.caption = fmt::format("Time for 60 dB. A-weighted: early {}, late {}. Unweighted: early {}, late {}.",
                               time_text(times.early_s), time_text(times.late_s), time_text(times.early_z_s),
                               time_text(times.late_z_s));
  figure.panels.push_back(std::move(panel));
  return figure;
}

plot::Figure tail_figure(const shot::Portrait& portrait, const shot::Shot& shot, const std::string& title,
                         const std::string& reference) {
  plot::Figure figure;
  figure.title = title;
  figure.height_pt = 250.0;
  plot::Panel panel;
  panel.x = plot::frequency_axis(50.0, 10000.0);
  panel.y = plot::level_axis("Tail, per hertz", reference);
  const auto& tail = portrait.tail;
  plot::Trace sound;
  sound.x.assign(tail.frequency_hz.begin(), tail.frequency_hz.end());
  sound.y.assign(tail.density_db.begin(), tail.density_db.end());
  sound.name = "tail";
  plot::Trace noise = sound;
  noise.y.assign(tail.noise_db.begin(), tail.noise_db.end());
  noise.ink = plot::Ink::muted;
  noise.name = "taken for noise";
  panel.series.emplace_back(plot::Span{plot::Along::x, 60.0, 400.0, "hum", plot::Ink::fill});
  panel.series.emplace_back(plot::Span{plot::Along::x, 800.0, 8000.0, "ping", plot::Ink::fill});
  plot::Notes notes;
  for (const shot::Tone& tone : shot.tones) {
    const auto place = place_on_tail(tail, tone.frequency_hz);
    if (!place || notes.notes.size() >= 2 * kNamedTonesOfAShot) continue;
    notes.notes.push_back({*place, frequency_text(tone.frequency_hz)});
  }
  panel.series.emplace_back(std::move(noise));
  panel.series.emplace_back(std::move(sound));
  if (!notes.notes.empty()) panel.series.emplace_back(std::move(notes));
  figure.panels.push_back(std::move(panel));
  return figure;
}

}  // namespace ringfall::report
