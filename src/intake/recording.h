// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "audio/sound_file.h"
#include "base/finding.h"
#include "shot/clip.h"
#include "shot/settings.h"
#include "shot/shot.h"

namespace ringfall::intake {

/// One recording, measured.
struct Recording {
  std::string file;
  audio::SoundFormat format;
  int channel = 1;  ///< the one measured, counted from 1
  double duration_s = 0.0;
  shot::Scale scale;
  std::vector<Finding> findings;
  std::vector<shot::Shot> shots;
};

struct RecordingOptions {
  shot::Settings settings;
  shot::Scale scale;
  std::optional<int> channel;  ///< counted from 1; nullopt: the loudest live one
  bool keep_clips = false;     ///< hand every shot's clip to on_clip
};

/// Called now and then with the part done, 0 .. 1, or nullopt when the length is unknown. Return false to stop.
using Progress = std::function<bool(std::optional<double>)>;
/// Called for each shot that was kept, after the recording was read.
using OnClip = std::function<void(const shot::Shot&, const shot::Clip&)>;

/// Measures a recording from disk, streaming. FileFailure when it can't be read at all.
Recording measure_recording(const std::string& path, const RecordingOptions& options,
                            const Progress& progress = {}, const OnClip& on_clip = {});

}  // namespace ringfall::intake
