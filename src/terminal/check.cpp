// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cstdio>
#include <nlohmann/json.hpp>

#include "base/failure.h"
#include "base/text.h"
#include "intake/kept_clip.h"
#include "report/json_text.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"
#include "terminal/output.h"

namespace ringfall::terminal {

using report::Json;
using report::json_text;
using report::json_tool;

namespace {

/// What a look through the whole file found.
struct Checked {
  std::optional<std::string> file;  ///< what is wrong with the file itself; the shots are not looked at then
  std::vector<intake::DamagedClip> clips;
  std::size_t shots = 0;
  std::size_t unmeasured = 0;
};

Checked checked(const std::string& path) {
  Checked found;
  try {
    const logbook::Logbook book(path);
    book.check_whole();
    found.clips = intake::damaged_clips(book);
    for (const auto& block : book.blocks()) {
      for (const auto& kept : block.shots) {
        ++found.shots;
        if (kept.analyser.empty()) ++found.unmeasured;
      }
    }
  } catch (const LogbookFailure& failure) {
    found.file = failure.what();
  }
  return found;
}

std::string check_json(const std::string& path, const Checked& found) {
  Json complaints = Json::array();
  if (found.file) complaints.push_back({{"shot", nullptr}, {"block", nullptr}, {"sentence", *found.file}});
  for (const auto& clip : found.clips) {
    complaints.push_back({{"shot", clip.shot}, {"block", clip.block}, {"sentence", clip.sentence}});
  }
  return json_text({{"tool", json_tool()},
                    {"logbook", path},
                    {"whole", complaints.empty()},
                    {"shots", found.file ? Json() : Json(found.shots)},
                    {"not_measured", found.file ? Json() : Json(found.unmeasured)},
                    {"complaints", complaints}});
}

}  // namespace

int check_logbook(const CheckRequest& request) {
  const Checked found = checked(request.logbook);
  const bool whole = !found.file && found.clips.empty();
  if (request.json) {
    const std::string text = check_json(request.logbook, found);
    put(text);
    return whole ? kDone : kUnusable;
  }
  if (found.file) print_error("ringfall: {}\n", *found.file);
  for (const auto& clip : found.clips) print_error("ringfall: block {}: {}\n", clip.block, clip.sentence);
  if (!found.file) {
    print_out("{}: {}, {}\n", request.logbook,
               whole ? "nothing is damaged" : fmt::format("the sound of {} is damaged", counted(found.clips.size(), "shot")),
               counted(found.shots, "shot"));
  }
  if (found.unmeasured > 0) {
    print_out("{} of them are kept and not measured yet: ringfall remeasure {}\n", found.unmeasured, request.logbook);
  }
  return whole ? kDone : kUnusable;
}

}  // namespace ringfall::terminal
