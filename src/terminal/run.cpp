// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <csignal>
#include <cstdio>
#include <exception>
#include <filesystem>

#include "base/failure.h"
#include "terminal/command_line.h"
#include "terminal/exit_status.h"
#include "terminal/listen_verbs.h"
#include "terminal/logbook_verbs.h"
#include "terminal/output.h"
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

int give_up(const char* sentence, int status) {
  print_error("ringfall: {}\n", sentence);
  return status;
}

}  // namespace

int run(int argc, char** argv) {
  // A file that may grow no further is a failure with a sentence, not a signal.
  std::signal(SIGXFSZ, SIG_IGN);
  try {
    claim_output();
    const auto reading = read_command_line({argv + (argc > 0 ? 1 : 0), argv + argc});
    if (const auto* answer = std::get_if<Answer>(&reading)) {
      answer->status == kDone ? put(answer->text) : complain(answer->text);
      finish_output();
      return answer->status;
    }
    const int status = std::visit(RunVerb{}, std::get<Request>(reading));
    finish_output();
    return status;
  } catch (const RequestFailure& failure) {
    return give_up(failure.what(), kBadCommand);
  } catch (const std::filesystem::filesystem_error& failure) {
    // Such as a name too long for any file: the system's reason, without the library's own words.
    return give_up(fmt::format("{}: {}", failure.path1().string(), failure.code().message()).c_str(), kUnusable);
  } catch (const std::exception& failure) {
    return give_up(failure.what(), kUnusable);
  }
}

}  // namespace ringfall::terminal
