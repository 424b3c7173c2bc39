// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/decay_model.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "base/check.h"

namespace ringfall::signal {
namespace {

constexpr int kMostSteps = 60;
constexpr double kSettled = 1e-6;
constexpr double kLongestStride = 1.0;  // of the logarithms in one step

/// The three parameters as logarithms: they stay positive and are of like size.
using Logs = Eigen::Vector3d;

struct LikelihoodSlopes {
  double cost = 0.0;
  Eigen::Vector3d gradient = Eigen::Vector3d::Zero();
  Eigen::Matrix3d information = Eigen::Matrix3d::Zero();
};

class Likelihood {
 public:
  Likelihood(std::span<const double> means, double frame_s, const std::optional<KnownNoise>& known)
      : means_(means), frame_s_(frame_s), known_(known) {}

  /// Cost with gradient and Fisher information.
  LikelihoodSlopes at(const Logs& logs) const {
    const double fall = std::exp(logs[1]) * frame_s_;  // per frame
    const double noise = std::exp(logs[2]);
    const double ratio = std::exp(-fall);
    const double part = -std::expm1(-fall) / fall;  // mean of e^(-fall t) over the first frame
    double decay = std::exp(logs[0]) * part;
    const double part_slope = fall * ratio / -std::expm1(-fall) - 1.0;  // d ln part / d ln fall
    LikelihoodSlopes slopes;
    // Logarithms of products of eight: one mean is far from the eighth root of what a double holds.
    double product = 1.0;
    for (std::size_t n = 0; n < means_.size(); ++n, decay *= ratio) {
      const double mean = decay + noise;
      const double inverse = 1.0 / mean;
      const double misfit = 1.0 - means_[n] * inverse;
      const Eigen::Vector3d share(decay * inverse, decay * inverse * (part_slope - fall * static_cast<double>(n)),
                                  noise * inverse);
      product *= mean;
      if (n % 8 == 7) {
        slopes.cost += std::log(product);
        product = 1.0;
      }
      slopes.cost += means_[n] * inverse;
      slopes.gradient += misfit * share;
      slopes.information += share * share.transpose();
    }
    slopes.cost += std::log(product);
    if (known_) {
      slopes.cost += known_->frames * (logs[2] + known_->mean_square / noise);
      slopes.gradient[2] += known_->frames * (1.0 - known_->mean_square / noise);
      slopes.information(2, 2) += known_->frames;
    }
    return slopes;
  }

 private:
  std::span<const double> means_;
  double frame_s_;
  std::optional<KnownNoise> known_;
};

}  // namespace

std::optional<DecayModel> fit_decay_model(std::span<const double> means, double frame_s, const DecayModel& guess,
                                          const std::optional<KnownNoise>& known_noise) {
  check(means.size() >= 5 && frame_s > 0.0, "a decay model needs frames");
  check(guess.start > 0.0 && guess.fall_per_s > 0.0 && guess.noise > 0.0, "a decay model starts from a guess");
  const Likelihood likelihood(means, frame_s, known_noise);
  Logs logs(std::log(guess.start), std::log(guess.fall_per_s), std::log(guess.noise));
  // Noise that the frames do not reach runs to nothing; it is stopped there.
  const double least_noise = logs[0] - 30.0;
  LikelihoodSlopes here = likelihood.at(logs);
  double damping = 1e-3;
  for (int step = 0; step < kMostSteps; ++step) {
    Eigen::Matrix3d system = here.information;
    system.diagonal() *= 1.0 + damping;
    system.diagonal().array() += 1e-9;
    Eigen::Vector3d stride = -system.ldlt().solve(here.gradient);
    const double longest = stride.cwiseAbs().maxCoeff();
    if (!std::isfinite(longest)) return std::nullopt;
    if (longest > kLongestStride) stride *= kLongestStride / longest;
    Logs next = logs + stride;
    next[2] = std::max(next[2], least_noise);
    const LikelihoodSlopes there = likelihood.at(next);
    if (std::isfinite(there.cost) && there.cost <= here.cost + 1e-12 * std::abs(here.cost)) {
      const double moved = (next - logs).cwiseAbs().maxCoeff();
      logs = next;
      here = there;
      damping = std::max(damping * 0.2, 1e-9);
      if (moved < kSettled) break;
    } else {
      damping = std::max(damping, 1e-4) * 8.0;
      if (damping > 1e12) break;
    }
  }
  DecayModel model{std::exp(logs[0]), std::exp(logs[1]), std::exp(logs[2])};
  const double span_s = frame_s * static_cast<double>(means.size());
  if (!(model.fall_per_s * span_s > 0.1) || !(model.fall_per_s * frame_s < 20.0)) return std::nullopt;
  return model;
}

}  // namespace ringfall::signal
