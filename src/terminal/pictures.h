// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "intake/recording.h"
#include "shot/settings.h"

namespace ringfall::terminal {

/// Writes for every shot: wave with marks, spectrogram with the tones, decay curve with the fits, spectrum of the tail,
/// as <recording>-shot<NN>-<what>.svg and .png, into `folder` (made when missing). Returns how many files were written.
/// FileFailure when the folder or a file can't be written.
std::size_t write_pictures(const std::vector<intake::Recording>& recordings, const shot::Settings& settings,
                           const std::string& folder);

}  // namespace ringfall::terminal
