// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "signal/loudness_core.h"

namespace ringfall::signal {
namespace {

constexpr int kDecaySteps = 6;       // a frame; the standard's 24 change nothing that matters and take longer
constexpr int kWeightingSteps = 24;  // folded into one

/// Exact step of the two capacitors' voltages over dt.
struct Network {
  double from_output_to_second, from_second_to_second, from_output_to_output, from_second_to_output, joint, charge;

  explicit Network(double dt_s) {
    constexpr double kShort_s = 0.005, kLong_s = 0.015, kVariable_s = 0.075;
    const double p = (kVariable_s + kLong_s) / (kVariable_s * kShort_s);
    const double root = std::sqrt(p * p / 4.0 - 1.0 / (kShort_s * kVariable_s));
    const double l1 = -p / 2.0 + root, l2 = -p / 2.0 - root;
    const double e1 = std::exp(l1 * dt_s), e2 = std::exp(l2 * dt_s);
    const double d1 = kVariable_s * l1 + 1.0, d2 = kVariable_s * l2 + 1.0;
    const double scale = 1.0 / (kVariable_s * (l1 - l2));
    from_output_to_second = scale * (e1 - e2);
    from_second_to_second = scale * (d2 * e1 - d1 * e2);
    from_output_to_output = scale * (d1 * e1 - d2 * e2);
    from_second_to_output = scale * d1 * d2 * (e1 - e2);
    joint = std::exp(-dt_s / kLong_s);
    charge = std::exp(-dt_s / kVariable_s);
  }
};

/// One inner step of all bands: the input `in` against the output and the second capacitor.
void step(const Network& net, const CoreLoudness& in, CoreLoudness& output, CoreLoudness& second) {
  for (std::size_t i = 0; i < kCriticalBands; ++i) {
    const double ui = in[i], uo = output[i], u2 = second[i];
    // Falling, second capacitor below the output: both discharge. Level with it: together.
    const bool apart = uo > u2;
    const double free_output = apart ? uo * net.from_output_to_output - u2 * net.from_second_to_output : uo * net.joint;
    const double free_second = apart ? uo * net.from_output_to_second - u2 * net.from_second_to_second : free_output;
    const double falling_output = std::max(ui, free_output);
    const double falling_second = apart ? std::min(free_second, falling_output) : falling_output;
    const bool falling = ui < uo;
    output[i] = falling ? falling_output : ui;
    second[i] = falling ? falling_second : (u2 - ui) * net.charge + ui;
  }
}

/// A first-order low-pass over straight lines between values, inner steps folded: y' = keep y + first x + last x'.
struct LowPass {
  double keep, first, last, at_start;

  explicit LowPass(double tau_s) {
    const double a = std::exp(-kLoudnessFrame_s / kWeightingSteps / tau_s);
    keep = std::pow(a, kWeightingSteps);
    at_start = 1.0 - a;
    first = last = 0.0;
    for (int i = 1; i <= kWeightingSteps; ++i) {
      const double weight = (1.0 - a) * std::pow(a, kWeightingSteps - i);
      const double share = static_cast<double>(i) / kWeightingSteps;
      first += weight * (1.0 - share);
      last += weight * share;
    }
  }
};

}  // namespace

void decay_core_loudness(std::vector<CoreLoudness>& frames) {
  static const Network net(kLoudnessFrame_s / kDecaySteps);
  CoreLoudness output{}, second{};
  for (std::size_t t = 0; t < frames.size(); ++t) {
    CoreLoudness in = frames[t], rise{};
    if (t + 1 < frames.size()) {
      for (std::size_t i = 0; i < kCriticalBands; ++i) rise[i] = (frames[t + 1][i] - in[i]) / kDecaySteps;
    }
    for (int s = 0; s < kDecaySteps; ++s) {
      step(net, in, output, second);
      if (s == 0) frames[t] = output;
      for (std::size_t i = 0; i < kCriticalBands; ++i) in[i] += rise[i];
    }
  }
}

std::vector<double> temporally_weighted(const std::vector<double>& loudness_sone) {
  static const LowPass quick(0.0035), slow(0.070);
  std::vector<double> out;
  out.reserve(loudness_sone.size() / kFramesPerValue + 1);
  double y_quick = 0.0, y_slow = 0.0;
  for (std::size_t t = 0; t < loudness_sone.size(); ++t) {
    const double x = loudness_sone[t];
    if (t == 0) {
      y_quick = quick.at_start * x;
      y_slow = slow.at_start * x;
    } else {
      const double before = loudness_sone[t - 1];
      y_quick = quick.keep * y_quick + quick.first * before + quick.last * x;
      y_slow = slow.keep * y_slow + slow.first * before + slow.last * x;
    }
    if (t % kFramesPerValue == 0) out.push_back(0.47 * y_quick + 0.53 * y_slow);
  }
  return out;
}

}  // namespace ringfall::signal
