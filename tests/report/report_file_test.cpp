// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/report_file.h"

#include <gtest/gtest.h>

#include "base/failure.h"
#include "report/example_report.h"

namespace ringfall::report {
namespace {

TEST(ReportFile, IsWhatItsNameSays) {
  const auto report = session_report(source_of(example_session()));
  EXPECT_TRUE(report_file(report, "a.html").starts_with("<!DOCTYPE html>"));
  EXPECT_TRUE(report_file(report, "a.PDF").starts_with("%PDF-"));
  EXPECT_EQ(report_file(report, "b/a.json").front(), '{');
  const std::string table = report_file(report, "a.csv");
  EXPECT_EQ(table.find('<'), std::string::npos);
  EXPECT_NE(table.find("hum"), std::string::npos);
  for (const char* name : {"a", "a.txt", "html"}) {
    EXPECT_FALSE(names_a_report(name)) << name;
    EXPECT_THROW(report_file(report, name), RequestFailure) << name;
  }
}

TEST(ReportFile, IsEmptyWhenItIsStopped) {
  const auto report = session_report(source_of(example_session()));
  for (const int last : {1, 2}) {
    int asked = 0;
    EXPECT_TRUE(report_file(report, "a.pdf", [&] { return ++asked < last; }).empty());
    EXPECT_EQ(asked, last);
  }
  EXPECT_TRUE(report_file(report, "a.html", [] { return false; }).empty());
}

}  // namespace
}  // namespace ringfall::report
