// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

#include "shot/tone_search.h"

namespace ringfall::shot {

/// A damped sinusoid behind a candidate, as one shot shows it.
struct FittedTone {
  std::size_t candidate = 0;   ///< index into the candidates given
  double frequency_hz = 0.0;
  double decay_per_s = 0.0;    ///< of the amplitude
  double mean_square = 0.0;    ///< at view.start_s, Pa^2
};

/// Fits damped sinusoids to the candidates in one shot of the view (index into view.bands). Each is fitted from the gate on that
/// shows it well above the noise, so that the thump does not pull it, and followed back to view.start_s; never to a level
/// that the earliest gate contradicts. Dropped: what rises, what does not die, what is too uncertain to be called a tone,
/// what rings no longer than the noise around it without standing far above it, steady tones. Ascending in frequency.
std::vector<FittedTone> fit_candidates(const BandView& view, std::size_t shot, std::span<const Candidate> candidates,
                                       std::span<const TailSound::Steady> steady);

}  // namespace ringfall::shot
