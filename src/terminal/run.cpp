// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cstdio>
#include <exception>
#include <filesystem>

#include "base/failure.h"
#include "terminal/command_line.h"
#include "terminal/exit_status.h"
#include "terminal/listen_verbs.h"
#include "terminal/logbook_verbs.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {
namespace {

struct RunVerb {
  int operator()(const SoundRequest& request) const { return sound_verb(request); }
  int operator()(const MeasureRequest& request) const { return measure(request); }
  int operator()(const DemoRequest& request) const { return demo(request); }
  int operator()(const CompareRequest& request) const { return compare(request); }
  int operator()(const ReportRequest& request) const { return report(request); }
  int operator()(const PlanRequest& request) const { return plan(request); }
  int operator()(const SeasonRequest& request) const { return season(request); }
  int operator()(const HuntingRequest& request) const { return hunting(request); }
  int operator()(const LogbookRequest& request) const { return logbook_verb(request); }
};

int complain(const char* sentence, int status) {
  fmt::print(stderr, "ringfall: {}\n", sentence);
  return status;
}

}  // namespace

int run(int argc, char** argv) {
  try {
    const auto reading = read_command_line({argv + (argc > 0 ? 1 : 0), argv + argc});
    if (const auto* answer = std::get_if<Answer>(&reading)) {
      std::fputs(answer->text.c_str(), answer->status == kDone ? stdout : stderr);
      return answer->status;
    }
    const int status = std::visit(RunVerb{}, std::get<Request>(reading));
    if (std::fflush(stdout) != 0) return complain("the output could not be written; is the disk full?", kUnusable);
    return status;
  } catch (const RequestFailure& failure) {
    return complain(failure.what(), kBadCommand);
  } catch (const std::filesystem::filesystem_error& failure) {
    // Such as a name too long for any file: the system's reason, without the library's own words.
    return complain(fmt::format("{}: {}", failure.path1().string(), failure.code().message()).c_str(), kUnusable);
  } catch (const std::exception& failure) {
    return complain(failure.what(), kUnusable);
  }
}

}  // namespace ringfall::terminal
