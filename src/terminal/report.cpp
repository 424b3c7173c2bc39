// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <unistd.h>

#include <cstdio>
#include <filesystem>

#include "base/failure.h"
#include "compare/comparison.h"
#include "plot/write.h"
#include "report/report_file.h"
#include "report/session_report.h"
#include "terminal/compared.h"
#include "terminal/exit_status.h"
#include "terminal/output.h"
#include "terminal/session_sounds.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {
namespace {

/// Measuring takes minutes: a page that can't be written is better known before.
void need_writable_place(const std::string& page) {
  const std::filesystem::path path(page);
  if (!report::names_a_report(path)) {
    throw RequestFailure(page + ": a report is a page, a paper or its numbers: give a name that ends in .html, .pdf, .csv or .json");
  }
  const auto folder = path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
  if (!std::filesystem::is_directory(folder)) {
    throw FileFailure(fmt::format("{}: there is no folder '{}'; make it first", page, folder.string()));
  }
  if (std::filesystem::is_directory(path)) throw FileFailure(page + ": this is a folder; give the name of a page in it");
  if (access(folder.c_str(), W_OK) != 0) throw FileFailure(fmt::format("{}: '{}' can't be written to", page, folder.string()));
}

}  // namespace

int report(const ReportRequest& request) {
  const auto& wanted = request.compare;
  for (const auto& path : request.outputs) need_writable_place(path);
  const auto compared = compare_source(wanted);
  const auto& measured = compared.measured;
  for (const auto& complaint : measured.complaints) print_error("ringfall: {}\n", complaint);
  if (!compared.usable) return kUnusable;
  report::ReportSource source;
  source.session = measured.session;
  source.comparison = compared.comparison;
  source.tones = compared.tones;
  auto heard = session_sounds(measured, *shot::find_number(source.comparison.main_number));
  source.sounds = std::move(heard.sounds);
  source.clips = std::move(heard.clips);
  source.clip_gain_db = heard.clip_gain_db;
  source.recordings = recording_facts(measured);
  source.complaints = measured.complaints;
  const auto finished = report::session_report(std::move(source));
  for (const auto& path : request.outputs) {
    plot::write_whole_file(path, report::report_file(finished, path));
    print_out("{}\n", path);
  }
  if (!measured.complaints.empty()) return kUnusable;
  for (const auto& against : finished.source.comparison.against) {
    if (!against.numbers.front().difference) return kNotMeasured;
  }
  return kDone;
}

}  // namespace ringfall::terminal
