// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>
#include <thread>
#include <vector>

#include "base/finding.h"

namespace ringfall::intake {

/// Packs finished takes in the background. The end waits for them.
class TakePacking {
 public:
  using Tell = std::function<void(Finding)>;

  /// `tell`: called from another thread when a take could not be packed.
  explicit TakePacking(Tell tell) : tell_(std::move(tell)) {}
  void pack(const std::string& path);

 private:
  Tell tell_;
  std::jthread thread_;
};

/// A name for a take that begins now, in `folder`: the time of day and a number when there is one of that name. Ends in .w64.
std::string new_take_name(const std::string& folder);

/// What a take is called once it is packed.
std::string packed_take_name(const std::string& take);

}  // namespace ringfall::intake
