// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "intake/logbook_intake.h"
#include "logbook/entries.h"

namespace ringfall::terminal {

/// What the verbs on a logbook were asked to do.

struct StartRequest {
  std::string logbook;
  logbook::Conditions conditions;
};

struct AddRequest {
  std::string logbook;
  std::vector<std::string> recordings;
  std::optional<int> channel;  ///< counted from 1
  std::optional<int> expect;
  intake::BlockPlace place;
  bool new_setup = false;  ///< the name is meant, however near to another
  std::string changed;
  std::optional<double> added_mass_g;
};

struct ListRequest {
  std::string logbook;
  bool json = false;
  bool check = false;
};

struct CommentRequest {
  std::string logbook;
  std::int64_t shot = 0;
  logbook::Comment comment;
};

/// Drop, or with an empty reason restore.
struct DropRequest {
  std::string logbook;
  std::int64_t number = 0;
  bool block = false;  ///< the number is a block's, else a shot's
  std::string reason;
};

struct RemeasureRequest {
  std::string logbook;
};

}  // namespace ringfall::terminal
