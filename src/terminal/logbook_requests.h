// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/unit_text.h"
#include "intake/logbook_intake.h"
#include "logbook/entries.h"
#include "work/adding.h"
#include "work/changes.h"

namespace ringfall::terminal {

/// What the verbs on a logbook were asked to do. In a change, what is not given stays as it is.
using work::CalibrationRequest;
using work::FittingsChange;
using work::NumberChange;
using work::SessionChange;

struct StartRequest {
  std::string logbook;
  std::string bow = "bow";
  FittingsChange fittings;
  SessionChange session;
};

struct SessionRequest {
  std::string logbook;
  std::optional<std::int64_t> changed;  ///< a session's number; nullopt: a new one
  std::string bow;                      ///< of a new one; empty: as before
  SessionChange change;
};

struct BowRequest {
  enum class Task { list, add, change };
  Task task = Task::list;
  std::string logbook;
  std::string name;
  std::optional<std::string> new_name;
  std::optional<std::string> since;  ///< of a change: UTC, ISO 8601; else now
  bool always = false;               ///< of a change: no state of before is kept
  FittingsChange fittings;
  std::optional<std::string> note;
  Units units = Units::metric;
  bool json = false;
};

struct SetUpRequest {
  enum class Task { list, add, change, remove };
  Task task = Task::list;
  std::string logbook;
  std::string bow;  ///< empty: that of the last session
  std::string name;
  std::optional<std::string> new_name;
  std::optional<std::string> since;  ///< of a change: UTC, ISO 8601; else now
  bool always = false;               ///< of a change: no state of before is kept
  std::optional<std::string> changed;
  NumberChange added_mass_kg;
  bool baseline = false;
  FittingsChange fittings;
  std::optional<std::string> note;
  Units units = Units::metric;
  bool json = false;
};

/// Puts a block right that was kept with the wrong set-up or remark.
struct BlockRequest {
  std::string logbook;
  std::int64_t number = 0;
  std::optional<std::string> setup;
  std::optional<std::string> note;
};

struct AddRequest {
  std::string logbook;
  std::vector<std::string> recordings;
  std::optional<int> channel;  ///< counted from 1
  std::optional<int> expect;
  std::string bow;  ///< empty: that of the last session
  work::Addition addition;
  bool json = false;
};

struct ListRequest {
  std::string logbook;
  Units units = Units::metric;
  bool json = false;
  bool check = false;
};

struct ShowRequest {
  std::string logbook;
  std::int64_t shot = 0;
  Units units = Units::metric;
  bool json = false;
  std::optional<std::string> picture_folder;
};

struct CommentRequest {
  std::string logbook;
  std::int64_t number = 0;  ///< a shot's, a block's or a comment's
  bool block = false;
  bool edit = false;        ///< replaces the comment of this number
  bool remove = false;      ///< takes it away
  logbook::Comment comment;
};

/// Drop, or with an empty reason restore.
struct DropRequest {
  std::string logbook;
  std::int64_t number = 0;
  bool block = false;  ///< the number is a block's, else a shot's
  std::string reason;
};

/// What a person says against the finder; exactly one of the last four.
struct CorrectRequest {
  std::string logbook;
  std::int64_t number = 0;  ///< a shot's; of a missed shot the block's
  bool not_a_shot = false;
  std::optional<double> edge_s;
  std::optional<double> missed_s;
  std::optional<std::string> recording;  ///< where the missed shot's sound is; else the block's file
  bool undo = false;
};

struct CopyRequest {
  std::string logbook;
  std::string copy;
};

struct CheckRequest {
  std::string logbook;
  bool json = false;
};

struct ExportRequest {
  std::string logbook;
  std::string folder;
};

struct ImportRequest {
  std::string folder;
  std::string logbook;
};

struct RemeasureRequest {
  std::string logbook;
};

using LogbookRequest = std::variant<StartRequest, SessionRequest, BowRequest, SetUpRequest, BlockRequest, AddRequest, ListRequest,
                                    ShowRequest,
                                    CommentRequest, DropRequest, CorrectRequest, CopyRequest, CheckRequest, ExportRequest,
                                    ImportRequest, RemeasureRequest>;

}  // namespace ringfall::terminal
