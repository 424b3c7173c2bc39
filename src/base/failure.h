// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>
#include <string>

namespace ringfall {

/// A failure: the operation could not be completed. `what()` is one sentence for a person that says which
/// file or device, what is wrong and what to do. A remark about data that could still be measured is a
/// Finding (finding.h), never an exception.
struct Failure : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// A file can't be read or written, or is not what it should be.
struct FileFailure : Failure {
  using Failure::Failure;
};

/// A sound device can't be used.
struct DeviceFailure : Failure {
  using Failure::Failure;
};

/// The logbook can't be used, or refuses what was asked of it.
struct LogbookFailure : Failure {
  using Failure::Failure;
};

/// What the person asked for makes no sense (an unknown name, a value out of range).
struct RequestFailure : Failure {
  using Failure::Failure;
};

/// Our own mistake: a broken promise between parts of the program, see check.h.
struct InternalError : std::logic_error {
  using std::logic_error::logic_error;
};

}  // namespace ringfall
