// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "intake/recording.h"
#include "shot/clip.h"
#include "shot/settings.h"
#include "shot/shot.h"

namespace ringfall::terminal {

/// Writes for every shot: wave with marks, spectrogram with the tones, decay curve with the fits, spectrum of the tail,
/// as <recording>-shot<NN>-<what>.svg and .png, into `folder` (made when missing). Returns how many files were written.
/// FileFailure when the folder or a file can't be written.
std::size_t write_pictures(const std::vector<intake::Recording>& recordings, const shot::Settings& settings,
                           const std::string& folder);

/// The same of one shot: `base` is folder and name before "-wave.svg" and so on; the folder is made when missing.
std::size_t write_shot_pictures(const shot::Clip& clip, const shot::Shot& shot, const shot::Scale& scale,
                                const shot::MeasureSettings& settings, const std::string& base, const std::string& title);

}  // namespace ringfall::terminal
