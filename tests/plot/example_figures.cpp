// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/example_figures.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace ringfall::plot {
namespace {

/// Even noise -1 .. 1 from a linear congruential generator: the same on every machine.
class Noise {
 public:
  double next() {
    state_ = state_ * 6364136223846793005u + 1442695040888963407u;
    return static_cast<double>(state_ >> 40) / static_cast<double>(1u << 23) - 1.0;
  }

 private:
  std::uint64_t state_ = 1;
};

Panel panel(std::string title, Axis x, Axis y, std::vector<Series> series) {
  Panel result;
  result.title = std::move(title);
  result.x = std::move(x);
  result.y = std::move(y);
  result.series = std::move(series);
  return result;
}

Figure figure(std::string title, std::string caption, std::vector<Panel> panels, double height_pt) {
  Figure result;
  result.title = std::move(title);
  result.caption = std::move(caption);
  result.panels = std::move(panels);
  result.height_pt = height_pt;
  return result;
}

/// A made-up shot: a loud edge at 0, two ringing tones, a little noise. Times in ms.
double shot_sound(double t_ms, Noise& noise) {
  const double floor = 0.004 * noise.next();
  if (t_ms < 0.0) return floor;
  const double t = t_ms / 1000.0;
  const double two_pi = 2.0 * std::numbers::pi;
  return floor + 0.75 * noise.next() * std::exp(-t / 0.008) + 0.18 * std::sin(two_pi * 96.0 * t) * std::exp(-t / 0.09) +
         0.05 * std::sin(two_pi * 1450.0 * t) * std::exp(-t / 0.05);
}

Example waveform() {
  Noise noise;
  std::vector<double> y;
  for (int i = 0; i < 2000; ++i) y.push_back(shot_sound(-40.0 + 0.25 * i, noise));
  Axis level;
  level.quantity = "Sound pressure";
  level.unit = "re full scale";
  return {"waveform", figure("One shot", "Invented sound, no recording: a thump, a hum of 96 Hz and a ping of 1.45 kHz.",
                             {panel("", time_axis_ms(), level,
                                    {Span{Along::x, 30.0, 390.0, "tail"},
                                     sampled_trace(-40.0, 0.25, y, Ink::trace1, ""),
                                     Rule{Along::x, 0.0, "loud edge", Ink::accent, Dash::solid},
                                     Rule{Along::x, 6.0, "hit", Ink::muted, Dash::dotted},
                                     Rule{Along::x, 30.0, "tail starts", Ink::muted, Dash::dashed},
                                     Rule{Along::x, 390.0, "tail ends", Ink::muted, Dash::dashed},
                                     Rule{Along::x, 400.0, "impact at the target", Ink::warning, Dash::solid}})},
                             230.0)};
}

Example decay() {
  Noise noise;
  std::vector<double> curve, levels;
  for (int i = 0; i < 250; ++i) {
    const double t = 2.0 * i;
    curve.push_back(10.0 * std::log10(0.97 * std::exp(-t / 9.0) + 0.03 * std::exp(-t / 60.0) + 1e-5));
  }
  for (int i = 0; i < 50; ++i) levels.push_back(curve[static_cast<std::size_t>(5 * i)] - 6.0 + 2.0 * noise.next());
  Trace steps = sampled_trace(0.0, 10.0, levels, Ink::trace6, "level of 10 ms");
  steps.form = Form::step;
  steps.dash = Dash::solid;
  return {"decay", figure("How the shot dies away", "", {panel("", time_axis_ms(), level_axis("Level", "re the start"),
                                                               {steps, sampled_trace(0.0, 2.0, curve, Ink::trace1, "decay curve"),
                                                                Fit{{0.0, 0.0}, {25.0, -12.0}, "early: 125 ms", Ink::accent},
                                                                Fit{{30.0, -17.5}, {200.0, -30.0}, "late: 816 ms", Ink::trace3},
                                                                Rule{Along::y, -50.0, "noise", Ink::muted, Dash::dashed}})}, 240.0)};
}

std::vector<double> spectrum(double low_tone, Noise& noise, const std::vector<double>& f) {
  std::vector<double> level;
  for (const double hz : f) {
    const auto tone = [hz](double at, double db) { return db - 500.0 * std::pow(std::log2(hz / at), 2.0) * 30.0; };
    level.push_back(std::max({-70.0 - 6.0 * std::log2(hz / 500.0) + 3.0 * noise.next(), tone(low_tone, -28.0), tone(1450.0, -41.0)}));
  }
  return level;
}

Example spectra() {
  Noise noise;
  Trace bare, damped;
  for (int i = 0; i < 400; ++i) bare.x.push_back(40.0 * std::pow(2.0, i / 46.0));
  damped.x = bare.x;
  bare.y = spectrum(96.0, noise, bare.x);
  damped.y = spectrum(118.0, noise, damped.x);
  for (double& y : damped.y) y -= 4.0;
  bare.name = "bare";
  damped.name = "with damper";
  damped.ink = Ink::trace2;
  Panel p = panel("Spectrum of the tail", frequency_axis(40.0, 16000.0), level_axis("Band level", "re full scale"),
                  {Span{Along::x, 60.0, 400.0, "hum"}, Span{Along::x, 800.0, 8000.0, "ping"}, bare, damped,
                   Notes{{{{96.0, -28.0}, "96 Hz"}, {{1450.0, -41.0}, "1.45 kHz"}}, Ink::accent, ""}});
  p.legend = LegendPlace::right;
  return {"spectra", figure("", "Two set-ups, eight shots each. Invented data.", {p}, 240.0)};
}

LevelMap shot_map() {
  LevelMap map;
  map.columns = 120;
  map.rows = 160;
  map.x_low = -50.0;
  map.x_high = 450.0;
  map.y_low = 0.0;
  map.y_high = 12000.0;
  map.low = -90.0;
  map.high = -20.0;
  map.unit = "dB re full scale";
  Noise noise;
  for (std::size_t r = 0; r < map.rows; ++r) {
    for (std::size_t c = 0; c < map.columns; ++c) {
      const double hz = (static_cast<double>(r) + 0.5) * 75.0;
      const double ms = map.x_low + (static_cast<double>(c) + 0.5) * 500.0 / 120.0;
      double level = -86.0 + 4.0 * noise.next();
      if (ms > 0.0) {
        level = std::max(level, -22.0 - hz / 400.0 - ms * 0.9 + 5.0 * noise.next());
        if (std::abs(hz - 112.5) < 40.0) level = std::max(level, -30.0 - ms * 0.07);
        if (std::abs(hz - 1462.5) < 40.0) level = std::max(level, -40.0 - ms * 0.1);
        if (std::abs(hz - 4087.5) < 40.0) level = std::max(level, -48.0 - ms * 0.25);
      }
      map.levels.push_back(level);
    }
  }
  return map;
}

Example spectrogram() {
  Axis frequency = frequency_axis(60.0, 12000.0);
  return {"spectrogram", figure("Spectrogram of one shot", "Darker is louder. Circles mark the tones that were accepted.",
                                {panel("", time_axis_ms(), frequency,
                                       {shot_map(), Notes{{{{120.0, 112.0}, "hum 112 Hz"}, {{120.0, 1462.0}, "ping 1.46 kHz"}}, Ink::accent, "tones"},
                                        Rule{Along::x, 0.0, "loud edge", Ink::accent, Dash::solid},
                                        Rule{Along::x, 400.0, "impact", Ink::warning, Dash::solid}})},
                                270.0)};
}

Example dots() {
  Noise noise;
  Dots counted, spoilt;
  Intervals means;
  const double centre[3] = {84.2, 81.0, 80.3};
  for (int setup = 0; setup < 3; ++setup) {
    for (int shot = 0; shot < 12; ++shot) {
      Dots& kind = shot == 7 ? spoilt : counted;
      kind.x.push_back(setup);
      kind.y.push_back(centre[setup] + (shot == 7 ? 3.0 : 0.8) * noise.next());
    }
    means.intervals.push_back({setup + 0.34, centre[setup] - 0.5, centre[setup], centre[setup] + 0.5});
  }
  counted.name = "each shot";
  spoilt.name = "left out";
  spoilt.hollow = true;
  means.ink = Ink::trace2;
  means.name = "mean, 95 % interval";
  Panel p = panel("Sound exposure level, every shot", category_axis("", {"bare", "rubber damper on the upper limb", "damper and string silencers"}),
                  level_axis("Level", "re full scale + 120"), {counted, spoilt, means});
  p.legend = LegendPlace::right;
  return {"dots", figure("", "", {p}, 230.0)};
}

Example intervals() {
  Intervals differences;
  differences.intervals = {{0, -4.1, -3.2, -2.3}, {1, -1.2, -0.4, 0.4}, {2, -3.0, -1.0, 1.1}, {3, -2.4, -1.7, -0.9}};
  Axis x = level_axis("Difference from bare", "");
  return {"intervals", figure("Is it quieter?", "A bar is the 95 % interval of the difference. Inside the band nobody would hear it.",
                              {panel("", x, category_axis("", {"damper", "silencers", "brace height +5 mm", "all three"}),
                                     {Span{Along::x, -1.0, 1.0, "\xc2\xb1" "1 dB"}, differences, Rule{Along::x, 0.0, "", Ink::muted, Dash::solid}})},
                              190.0)};
}

Example grid() {
  Noise noise;
  std::vector<Panel> panels;
  for (int i = 0; i < 4; ++i) {
    Dots months;
    for (int k = 0; k < 9; ++k) {
      months.x.push_back(k + 1.0);
      months.y.push_back(80.0 + i + noise.next());
      months.low.push_back(months.y.back() - 0.6);
      months.high.push_back(months.y.back() + 0.6);
    }
    months.ink = trace_ink(i);
    Axis x;
    x.quantity = "Month";
    panels.push_back(panel("Bow " + std::to_string(i + 1), x, level_axis("Level", "SPL"), {months}));
  }
  Figure result = figure("Season", "Points with error bars.", panels, 320.0);
  result.columns = 2;
  result.shared_x = true;
  return {"grid", result};
}

Example stems() {
  Trace stem = sampled_trace(1.0, 1.0, {3.0, 7.0, 4.0, 6.5, 2.0, 0.5, 5.5}, Ink::trace4, "score");
  stem.form = Form::stem;
  Axis shot, score;
  shot.quantity = "Shot";
  score.quantity = "Score";
  score.low = 0.0;
  score.high = 10.0;
  Figure result = figure("", "", {panel("Hum, shot by shot", shot, score, {stem}), panel("Ping, shot by shot", shot, score, {})}, 170.0);
  result.columns = 2;
  return {"stems_and_no_data", result};
}

Example column() {
  Noise noise;
  std::vector<double> y;
  for (int i = 0; i < 1000; ++i) y.push_back(shot_sound(-50.0 + 0.5 * i, noise));
  Axis level;
  level.quantity = "Sound pressure";
  level.unit = "re full scale";
  Panel top = panel("", time_axis_ms(), level, {sampled_trace(-50.0, 0.5, y, Ink::trace1, ""), Rule{Along::x, 0.0, "loud edge", Ink::accent, Dash::solid}});
  Axis frequency;
  frequency.quantity = "Frequency";
  frequency.unit = "Hz";
  Panel map = panel("", time_axis_ms(), frequency, {shot_map()});
  map.height_share = 1.6;
  Figure result = figure("Sound and spectrogram", "", {top, map}, 360.0);
  result.shared_x = true;
  return {"column", result};
}

}  // namespace

std::vector<Example> example_figures() {
  return {waveform(), decay(), spectra(), spectrogram(), dots(), intervals(), grid(), stems(), column()};
}

}  // namespace ringfall::plot
