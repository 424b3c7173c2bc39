// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>

namespace ringfall::signal {

/// A decay that runs into steady noise: mean square m(t) = start e^(-fall t) + noise.
struct DecayModel {
  double start = 0.0;       ///< mean square at t = 0, noise not counted; unit as given
  double fall_per_s = 0.0;  ///< of the mean square: 13.8155 / (60 dB time)
  double noise = 0.0;       ///< steady mean square
};

/// What is known of the noise from elsewhere, worth so many frames of it.
struct KnownNoise {
  double mean_square = 0.0;
  double frames = 0.0;
};

/// Fits the model to means over frames of `frame_s` by maximum likelihood for noise-like sound, whose short-time
/// mean squares scatter in proportion to their mean: minimises sum (ln m + y/m). All frames count alike in dB, so
/// loud ones do not decide and weak ones do not bias.
/// means: >= 5 values >= 0, the first starts at t = 0. `guess`: all three > 0. nullopt when it does not
/// settle on a falling decay. Cost: about 20 passes over the frames.
/// Source: likelihood of exponentially distributed power (Whittle 1953); fit own, docs/measures/ring_down.md.
/// Tested: signal.DecayModel.*
std::optional<DecayModel> fit_decay_model(std::span<const double> means, double frame_s, const DecayModel& guess,
                                          const std::optional<KnownNoise>& known_noise);

}  // namespace ringfall::signal
