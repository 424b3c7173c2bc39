// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/report_file.h"

#include <algorithm>
#include <array>
#include <cctype>

#include "base/failure.h"
#include "plot/write.h"
#include "report/compare_json.h"
#include "report/page.h"
#include "report/paper.h"
#include "report/session_document.h"

namespace ringfall::report {
namespace {

constexpr std::array kEndings = {".html", ".pdf", ".csv", ".json"};

std::string ending_of(const std::filesystem::path& path) {
  std::string ending = path.extension().string();
  std::ranges::transform(ending, ending.begin(), [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
  return ending;
}

}  // namespace

bool names_a_report(const std::filesystem::path& path) { return std::ranges::find(kEndings, ending_of(path)) != kEndings.end(); }

std::string report_file(const SessionReport& report, const std::filesystem::path& path, const std::function<bool()>& go_on) {
  if (!names_a_report(path)) {
    throw RequestFailure(path.string() +
                         ": a report is a page, a paper or its numbers: give a name that ends in .html, .pdf, .csv or .json");
  }
  const std::string ending = ending_of(path);
  if (ending == ".csv") return compare_csv(report.source.comparison);
  if (ending == ".json") return compare_json(report.source.comparison, report.source.session);
  const auto stopped = [&go_on] { return go_on && !go_on(); };
  const auto document = session_document(report);
  if (stopped()) return {};
  if (ending != ".pdf") return html_page(document);
  const auto sheets = paper_sheets(document);
  if (stopped()) return {};
  return plot::pdf_bytes(sheets, plot::Theme::light, document.title);
}

}  // namespace ringfall::report
