// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "audio/sound_file.h"
#include "base/finding.h"
#include "shot/clip.h"
#include "shot/find.h"
#include "shot/settings.h"
#include "shot/shot.h"

namespace ringfall::intake {

/// One recording, measured.
struct Recording {
  std::string file;
  audio::SoundFormat format;
  int channel = 1;  ///< the one measured, counted from 1
  double duration_s = 0.0;
  std::optional<double> peak;  ///< highest |sample|, full scale = 1; nullopt: not looked for
  shot::Scale scale;
  std::vector<Finding> findings;
  std::vector<shot::Shot> shots;
  std::vector<shot::Event> places;  ///< where each shot is, same order as `shots`, for clips_of
  bool stopped = false;             ///< the person stopped it; what was measured so far is here
};

struct RecordingOptions {
  shot::Settings settings;
  shot::Scale scale;
  std::optional<int> channel;  ///< counted from 1; nullopt: the loudest live one
  std::size_t other_threads = 0;  ///< that help to measure; the numbers are the same for any (share_out in work_line.h)
};

/// Called now and then with the part done, 0 .. 1, or nullopt when the length is unknown. Return false to stop.
using Progress = std::function<bool(std::optional<double>)>;

/// Measures a recording from disk, streaming: memory does not depend on its length.
/// FileFailure when it can't be read at all; RequestFailure for a channel it does not have.
Recording measure_recording(const std::string& path, const RecordingOptions& options,
                            const Progress& progress = {});

}  // namespace ringfall::intake
