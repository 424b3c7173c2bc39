// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/plain_loudness.h"

#include <algorithm>
#include <cmath>

#include "base/csv.h"

namespace ringfall::signal {
namespace {

constexpr int kInnerSteps = 24;
constexpr double kFrameRate_hz = 2000.0;

std::vector<std::vector<double>> read_table(const std::string& path) {
  const CsvTable table = read_csv(path);
  std::vector<std::vector<double>> rows;
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    rows.emplace_back();
    for (std::size_t c = 0; c < table.columns.size(); ++c) rows.back().push_back(table.number(r, c).value_or(0.0));
  }
  return rows;
}

/// ISO 532-1:2017 6.3: the voltages of a diode, a resistor and two capacitors.
std::vector<double> non_linear_decay(const std::vector<double>& core) {
  const double shortest = 0.005, longer = 0.015, variable = 0.075;
  const double dt = 1.0 / (kFrameRate_hz * kInnerSteps);
  const double p = (variable + longer) / (variable * shortest);
  const double q = 1.0 / (shortest * variable);
  const double l1 = -p / 2 + std::sqrt(p * p / 4 - q);
  const double l2 = -p / 2 - std::sqrt(p * p / 4 - q);
  const double den = variable * (l1 - l2);
  const double e1 = std::exp(l1 * dt), e2 = std::exp(l2 * dt);
  const double b0 = (e1 - e2) / den;
  const double b1 = ((variable * l2 + 1) * e1 - (variable * l1 + 1) * e2) / den;
  const double b2 = ((variable * l1 + 1) * e1 - (variable * l2 + 1) * e2) / den;
  const double b3 = (variable * l1 + 1) * (variable * l2 + 1) * (e1 - e2) / den;
  const double b4 = std::exp(-dt / longer), b5 = std::exp(-dt / variable);

  std::vector<double> out;
  double uo = 0.0, u2 = 0.0;
  for (std::size_t t = 0; t < core.size(); ++t) {
    const double step = ((t + 1 < core.size() ? core[t + 1] : core[t]) - core[t]) / kInnerSteps;
    for (int i = 0; i < kInnerSteps; ++i) {
      const double ui = core[t] + i * step;
      const double uo_before = uo, u2_before = u2;
      if (ui < uo_before) {
        if (uo_before > u2_before) {
          u2 = uo_before * b0 - u2_before * b1;
          uo = std::max(ui, uo_before * b2 - u2_before * b3);
          u2 = std::min(u2, uo);
        } else {
          uo = std::max(ui, uo_before * b4);
          u2 = uo;
        }
      } else if (ui - uo_before < 1e-5) {
        uo = ui;
        u2 = uo > u2_before ? (u2_before - ui) * b5 + ui : ui;
      } else {
        uo = ui;
        u2 = (u2_before - ui) * b5 + ui;
      }
      if (i == 0) out.push_back(uo);
    }
  }
  return out;
}

/// First-order low-pass over the linearly interpolated loudness.
std::vector<double> low_pass(const std::vector<double>& in, double tau_s) {
  const double a = std::exp(-1.0 / (kFrameRate_hz * kInnerSteps * tau_s));
  std::vector<double> out;
  double y = 0.0;
  for (std::size_t t = 0; t < in.size(); ++t) {
    const double step = ((t + 1 < in.size() ? in[t + 1] : in[t]) - in[t]) / kInnerSteps;
    for (int i = 0; i < kInnerSteps; ++i) {
      y = a * y + (1.0 - a) * (in[t] + i * step);
      if (i == 0) out.push_back(y);
    }
  }
  return out;
}

}  // namespace

PlainLoudness::PlainLoudness(const std::string& folder)
    : filters_(read_table(folder + "/tableA1_A2_third_octave_filters_48k.csv")),
      reduction_(read_table(folder + "/tableA3_low_frequency_DLL.csv")),
      per_band_(read_table(folder + "/tableA4_A7_per_critical_band.csv")),
      upper_slopes_(read_table(folder + "/tableA8_A9_upper_slopes.csv")) {}

std::vector<double> PlainLoudness::band(std::span<const double> pressure_pa, std::size_t index) const {
  const std::vector<double>& row = filters_[index];
  std::vector<double> x(pressure_pa.begin(), pressure_pa.end());
  for (std::size_t s = 0; s < 3; ++s) {
    const double* c = row.data() + 2 + 6 * s;  // b0 b1 b2 a0 a1 a2
    double w1 = 0.0, w2 = 0.0;
    for (double& v : x) {
      const double w0 = v - c[4] * w1 - c[5] * w2;
      v = c[0] * w0 + c[1] * w1 + c[2] * w2;
      w2 = w1;
      w1 = w0;
    }
  }
  for (double& v : x) v *= row[1];
  return x;
}

std::array<double, 21> PlainLoudness::core(std::span<const double> levels_db, bool diffuse) const {
  std::array<double, 11> power{};
  for (std::size_t i = 0; i < 11; ++i) {
    std::size_t row = 0;
    while (row + 1 < reduction_.size() && levels_db[i] > reduction_[row][0] - reduction_[row][i + 1]) ++row;
    power[i] = std::pow(10.0, 0.1 * (levels_db[i] + reduction_[row][i + 1]));
  }
  std::array<double, 21> result{};
  for (std::size_t i = 0; i < 20; ++i) {
    double level = 0.0;
    const auto sum = [&](std::size_t from, std::size_t to) {
      double s = 0.0;
      for (std::size_t k = from; k < to; ++k) s += power[k];
      return 10.0 * std::log10(s);
    };
    if (i == 0) level = sum(0, 6);
    if (i == 1) level = sum(6, 9);
    if (i == 2) level = sum(9, 11);
    if (i > 2) level = levels_db[i + 8];
    const double a0 = per_band_[i][1], ddf = per_band_[i][2], ltq = per_band_[i][3], dcb = per_band_[i][4];
    level -= a0;
    if (diffuse) level += ddf;
    if (level <= ltq) continue;
    level -= dcb;
    const double n = 0.0635 * std::pow(10.0, 0.025 * ltq) *
                     (std::pow(0.75 + 0.25 * std::pow(10.0, 0.1 * (level - ltq)), 0.25) - 1.0);
    result[i] = std::max(0.0, n);
  }
  result[0] *= std::min(1.0, 0.4 + 0.32 * std::pow(result[0], 0.2));
  return result;
}

PlainLoudness::Spectrum PlainLoudness::slopes(std::span<const double> core) const {
  Spectrum out;
  const std::size_t last = upper_slopes_.size() - 1;
  double z1 = 0.0, n1 = 0.0, z = 0.1;
  std::size_t iz = 0, j = last;
  for (std::size_t i = 0; i < 21; ++i) {
    const double zup = per_band_[i][5] + 0.0001;
    const std::size_t column = 1 + std::min<std::size_t>(i == 0 ? 0 : i - 1, 7);
    while (z1 < zup) {
      double z2 = zup, n2 = core[i];
      double slope = 0.0, from = core[i];
      if (n1 > core[i]) {
        slope = upper_slopes_[j][column];
        from = n1;
        n2 = std::max(core[i], upper_slopes_[j][0]);
        z2 = z1 + (n1 - n2) / slope;
        if (z2 > zup) {
          z2 = zup;
          n2 = n1 - (z2 - z1) * slope;
        }
        out.loudness_sone += (z2 - z1) * (n1 + n2) / 2;
      } else {
        if (n1 < core[i]) {
          j = 0;
          while (j < last && upper_slopes_[j][0] > core[i]) ++j;
        }
        out.loudness_sone += core[i] * (z2 - z1);
      }
      for (; z <= z2 && iz < 240; z += 0.1) out.specific_sone_per_bark[iz++] = from - (z - z1) * slope;
      while (j < last && n2 <= upper_slopes_[j][0]) ++j;
      z1 = z2;
      n1 = n2;
    }
  }
  return out;
}

PlainLoudness::Spectrum PlainLoudness::stationary(std::span<const double> levels_db, bool diffuse) const {
  return slopes(core(levels_db, diffuse));
}

std::array<double, 28> PlainLoudness::levels_db(std::span<const double> pressure_pa, double skip_s) const {
  std::array<double, 28> levels{};
  const auto skip = static_cast<std::size_t>(skip_s * 48000.0);
  for (std::size_t b = 0; b < 28; ++b) {
    const std::vector<double> x = band(pressure_pa, b);
    double sum = 0.0;
    for (std::size_t n = skip; n < x.size(); ++n) sum += x[n] * x[n];
    levels[b] = 10.0 * std::log10((sum / static_cast<double>(x.size() - skip) + 1e-12) / 4e-10);
  }
  return levels;
}

PlainLoudness::Trace PlainLoudness::time_varying(std::span<const double> pressure_pa, bool diffuse) const {
  std::array<std::vector<double>, 28> levels;
  for (std::size_t b = 0; b < 28; ++b) {
    std::vector<double> x = band(pressure_pa, b);
    const double centre_hz = 1000.0 * std::pow(10.0, (static_cast<double>(b) - 16.0) / 10.0);
    const double a = std::exp(-1.0 / (48000.0 * 2.0 / (3.0 * std::min(centre_hz, 1000.0))));
    for (double& v : x) v *= v;
    for (int pass = 0; pass < 3; ++pass) {
      double y = 0.0;
      for (double& v : x) v = y = (1.0 - a) * v + a * y;
    }
    for (std::size_t n = 0; n < x.size(); n += 24) levels[b].push_back(10.0 * std::log10((x[n] + 1e-12) / 4e-10));
  }
  const std::size_t frames = levels[0].size();
  std::array<std::vector<double>, 21> cores;
  for (std::size_t t = 0; t < frames; ++t) {
    std::array<double, 28> now{};
    for (std::size_t b = 0; b < 28; ++b) now[b] = levels[b][t];
    const std::array<double, 21> c = core(now, diffuse);
    for (std::size_t i = 0; i < 21; ++i) cores[i].push_back(c[i]);
  }
  for (auto& c : cores) c = non_linear_decay(c);
  std::vector<double> total;
  Trace trace;
  for (std::size_t t = 0; t < frames; ++t) {
    std::array<double, 21> now{};
    for (std::size_t i = 0; i < 21; ++i) now[i] = cores[i][t];
    const Spectrum s = slopes(now);
    total.push_back(s.loudness_sone);
    if (t % 4 == 0) trace.specific_sone_per_bark.push_back(s.specific_sone_per_bark);
  }
  const std::vector<double> quick = low_pass(total, 0.0035), slow = low_pass(total, 0.070);
  for (std::size_t t = 0; t < frames; t += 4) trace.loudness_sone.push_back(0.47 * quick[t] + 0.53 * slow[t]);
  return trace;
}

}  // namespace ringfall::signal
