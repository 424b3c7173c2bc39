// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace ringfall::terminal {

/// Where sound comes from: a microphone, or a file in its stead.
struct SoundInRequest {
  std::string device;  ///< name, part of it or number; empty: the last one, else the usual one
  std::optional<double> sample_rate_hz;
  std::optional<int> channel;       ///< counted from 1
  std::optional<std::string> file;  ///< played in as if it were a microphone
  double speed = 1.0;               ///< of the file; 0: as fast as can be
};

struct ListenRequest {
  std::string logbook;
  std::string setup;
  std::string bow;  ///< empty: that of the last session
  bool new_setup = false;
  std::string note;
  SoundInRequest sound;
  bool paused = false;
  std::optional<double> for_s;
  std::optional<std::string> take_folder;
};

struct DevicesRequest {
  bool json = false;
};

struct PlayRequest {
  std::string logbook;
  std::vector<std::int64_t> shots;  ///< one or two
  std::string device;
  int times = 1;
};

struct ChainRequest {
  SoundInRequest sound;
  bool tone = false;  ///< play the check tone and hear it, instead of waiting for a clap
  std::string output;
  bool json = false;
};

using SoundRequest = std::variant<ListenRequest, DevicesRequest, PlayRequest, ChainRequest>;

}  // namespace ringfall::terminal
