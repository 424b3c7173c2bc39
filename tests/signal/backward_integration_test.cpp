// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/backward_integration.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace ringfall::signal {
namespace {

constexpr double kRate_hz = 10000.0;
const double kFall_per_s = 6.0 * std::log(10.0);  // 60 dB time 1 s: 13.8155 / s

std::vector<double> exponential(double length_s, double floor) {
  std::vector<double> values(static_cast<std::size_t>(std::round(length_s * kRate_hz)));
  for (std::size_t n = 0; n < values.size(); ++n) {
    values[n] = std::exp(-kFall_per_s * static_cast<double>(n) / kRate_hz) + floor;
  }
  return values;
}

struct Row {
  double level_db, early_s, late_20_s, late_30_s;
};

void expect_row(const std::vector<double>& curve_db, const Row& row, double allowed) {
  EXPECT_NEAR(fit_decay(curve_db, kRate_hz, 0.0, -10.0).value().decay_time_s(), row.early_s, allowed) << row.level_db;
  EXPECT_NEAR(fit_decay(curve_db, kRate_hz, -5.0, -25.0).value().decay_time_s(), row.late_20_s, allowed) << row.level_db;
  EXPECT_NEAR(fit_decay(curve_db, kRate_hz, -5.0, -35.0).value().decay_time_s(), row.late_30_s, allowed * row.late_30_s)
      << row.level_db;
}

TEST(BackwardIntegration, TruncationShortensTheLatePart) {
  // Closed form, L(t) = 10 lg((e^(-kt) - e^(-kT)) / (1 - e^(-kT))), fitted over the ranges of ISO 3382-1:2009
  // (0 -10, -5 -25, -5 -35 dB); true 60 dB time 1 s, integral ended where the level is `level_db`.
  for (const Row& row : {Row{-35, 0.9989, 0.9844, 0.9400}, {-40, 0.9996, 0.9949, 0.9758},
                         {-45, 0.9999, 0.9984, 0.9915}, {-50, 1.0000, 0.9995, 0.9972}}) {
    expect_row(backward_integration_db(exponential(-row.level_db / 60.0, 0.0), kRate_hz), row, 0.0005);
  }
}

TEST(BackwardIntegration, FloorKeptInLengthensTheLatePart) {
  // The same with a constant floor at `level_db` re the start, 2 s of record, floor not taken off (closed form).
  for (const Row& row : {Row{-40, 1.009, 1.188, 4.93}, {-50, 1.001, 1.012, 1.088}, {-60, 1.000, 1.001, 1.006},
                         {-70, 1.000, 1.000, 1.001}}) {
    const auto values = exponential(2.0, std::pow(10.0, row.level_db / 10.0));
    expect_row(backward_integration_db(values, kRate_hz), row, 0.001);
  }
}

TEST(BackwardIntegration, TailMakesGoodTheTruncation) {
  // Energy behind the end of an exponential: e^(-k T) / k. With it every range gives 1 s.
  const auto values = exponential(0.7, 0.0);
  const double tail = std::exp(-kFall_per_s * 0.7) / kFall_per_s;
  expect_row(backward_integration_db(values, kRate_hz, tail), {-42, 1.0, 1.0, 1.0}, 0.001);
  const auto line = fit_decay(backward_integration_db(values, kRate_hz, tail), kRate_hz, -5.0, -25.0).value();
  EXPECT_NEAR(line.begin_s, 5.0 / 60.0, 0.0002);
  EXPECT_NEAR(line.end_s, 25.0 / 60.0, 0.0002);
  EXPECT_NEAR(line.level_at_begin_db, -5.0, 0.01);
  EXPECT_LT(line.nonlinearity_permille, 0.01);
}

TEST(BackwardIntegration, NonlinearityOfABrokenLine) {
  // 10 dB in 0.1 s, then 10 dB in 0.3 s. In units of 0.1 s and 10 dB, integrated by hand: variance of time 4/3, of
  // level 13/48, covariance -7/12: r^2 = (49/144) / (4/3 * 13/48) = 0.94231, 57.69 permille.
  std::vector<double> curve_db;
  for (int n = 0; n <= 4000; ++n) {
    const double time_s = n / kRate_hz;
    curve_db.push_back(time_s < 0.1 ? -100.0 * time_s : -10.0 - (time_s - 0.1) * 10.0 / 0.3);
  }
  curve_db.push_back(-21.0);
  const auto line = fit_decay(curve_db, kRate_hz, 0.0, -20.0).value();
  EXPECT_NEAR(line.nonlinearity_permille, 57.69, 0.1);
}

TEST(BackwardIntegration, NoLineWhereTheCurveDoesNotReach) {
  const auto curve_db = backward_integration_db(exponential(0.2, 0.0), kRate_hz, 0.02);
  EXPECT_FALSE(fit_decay(curve_db, kRate_hz, -5.0, -25.0));
  EXPECT_FALSE(fit_decay({}, kRate_hz, -5.0, -25.0));
  EXPECT_FALSE(fit_decay(std::vector<double>{0.0, -6.0, -20.0, -30.0}, kRate_hz, -5.0, -25.0));
  EXPECT_TRUE(backward_integration_db(std::vector<double>(100, 0.0), kRate_hz).empty());
}

}  // namespace
}  // namespace ringfall::signal
