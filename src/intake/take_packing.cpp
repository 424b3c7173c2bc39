// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/take_packing.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <ctime>
#include <exception>
#include <filesystem>
#include <utility>

#include "audio/take_writer.h"

namespace ringfall::intake {

void TakePacking::pack(const std::string& path) {
  // One after the other; the one before has had a whole block's time.
  thread_ = std::jthread([tell = tell_, path] {
    try {
      if (audio::pack_take(path) == path) {
        tell({"take_not_packed", Severity::note, {},
              fmt::format("The take stays {}: FLAC would change its samples.", path)});
      }
    } catch (const std::exception& failure) {
      tell({"take_not_packed", Severity::note, {},
            fmt::format("The take {} stays as it is: {}", path, failure.what())});
    }
  });
}

std::string new_take_name(const std::string& folder) {
  const auto base = std::filesystem::path(folder) / fmt::format("take-{:%Y%m%d-%H%M%S}", fmt::localtime(std::time(nullptr)));
  for (int k = 1;; ++k) {
    const std::string stem = k == 1 ? base.string() : fmt::format("{}-{}", base.string(), k);
    if (!std::filesystem::exists(stem + ".w64") && !std::filesystem::exists(stem + ".flac")) return stem + ".w64";
  }
}

std::string packed_take_name(const std::string& take) { return std::filesystem::path(take).replace_extension(".flac").string(); }

}  // namespace ringfall::intake
