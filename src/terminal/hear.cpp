// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/hear.h"

#include <atomic>
#include <exception>
#include <optional>
#include <thread>

#include "intake/calibration.h"
#include "intake/work_line.h"
#include "terminal/progress_bar.h"

namespace ringfall::terminal {

intake::RecordingOptions recording_options(const HearRequest& request) {
  intake::RecordingOptions options;
  options.settings = request.settings;
  options.channel = request.channel;
  options.scale.full_scale_db_spl = request.full_scale_db_spl;
  if (request.calibration_file) {
    options.scale.full_scale_db_spl =
        intake::calibrate(*request.calibration_file, request.calibrator_db, request.channel).full_scale_db_spl;
  }
  return options;
}

Heard hear(const std::vector<std::string>& files, const intake::RecordingOptions& options, int wanted) {
  std::vector<std::optional<intake::Recording>> done(files.size());
  std::vector<std::string> complaints(files.size());
  ProgressBar bar("measuring", files.size());
  const auto jobs = intake::share_out(wanted, files.size());
  auto sharing = options;
  sharing.other_threads = jobs.others_inside;
  std::atomic<std::size_t> next = 0;
  const auto work = [&] {
    for (std::size_t k = next++; k < files.size(); k = next++) {
      try {
        done[k] = intake::measure_recording(files[k], sharing, [&bar, k](std::optional<double> share) {
          bar.report(k, share);
          return true;
        });
      } catch (const std::exception& failure) {
        const std::string what = failure.what();
        complaints[k] = what.find(files[k]) == std::string::npos ? files[k] + ": " + what : what;
      }
      bar.report(k, 1.0);
    }
  };
  {
    std::vector<std::jthread> others;
    for (std::size_t k = 1; k < jobs.recordings; ++k) others.emplace_back(work);
    work();
  }
  Heard heard;
  for (std::size_t k = 0; k < files.size(); ++k) {
    if (done[k]) heard.recordings.push_back(std::move(*done[k]));
    if (!complaints[k].empty()) heard.complaints.push_back(std::move(complaints[k]));
  }
  return heard;
}

}  // namespace ringfall::terminal
