// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "shot/settings.h"
#include "terminal/listen_requests.h"
#include "terminal/logbook_requests.h"
#include "terminal/planning_requests.h"

namespace ringfall::terminal {

/// What each verb was asked to do: the command line, understood and checked.

/// How sound is to be read; shared by the verbs that measure.
struct HearRequest {
  shot::Settings settings;
  std::optional<int> channel;                ///< counted from 1
  std::optional<double> full_scale_db_spl;
  std::optional<std::string> calibration_file;
  double calibrator_db = 94.0;
  int jobs = 0;                              ///< cores to use, over recordings and inside one; 0: all
  std::vector<std::string> given;            ///< names of the options above that were given, for refusing them where nothing is measured
};

enum class Form { text, json, csv };

struct MeasureRequest {
  std::vector<std::string> recordings;
  HearRequest hear;
  Form form = Form::text;
  std::optional<std::string> picture_folder;
};

struct DemoRequest {
  std::string folder;
};

struct CompareRequest {
  std::string source;  ///< a logbook, a folder with a setups.csv or a sub-folder a set-up, or such a table; empty with `table` or `recordings`
  std::vector<std::string> recordings;  ///< as typed, FILE or NAME=FILE,FILE; else empty (compare/recordings_plan.h)
  std::string table;   ///< numbers measured elsewhere; empty: none
  HearRequest hear;
  Form form = Form::text;
  std::optional<std::string> bow;  ///< of a logbook
  bool all = false;    ///< every number, not the answer alone
  std::optional<std::string> baseline;
  std::string main_number = "exposure_db";  ///< empty: the first of `table`
  std::optional<double> wanted_difference;  ///< of the main number, not 0
};

struct ReportRequest {
  CompareRequest compare;
  std::vector<std::string> outputs;  ///< names that end in .html or .pdf
};

using Request = std::variant<MeasureRequest, DemoRequest, CompareRequest, ReportRequest, PlanRequest, SeasonRequest, HuntingRequest,
                             LogbookRequest, SoundRequest>;

}  // namespace ringfall::terminal
