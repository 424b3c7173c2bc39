// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>

#include "plot/example_figures.h"
#include "plot/layout.h"
#include "plot/readers.h"
#include "plot/write.h"

namespace ringfall::plot {
namespace {

std::filesystem::path golden(const std::string& name) {
  return std::filesystem::path(RINGFALL_TEST_DATA).parent_path() / "plot" / "golden" / (name + ".csv");
}

/// The first line that differs, for people.
std::string first_difference(const std::string& a, const std::string& b) {
  std::size_t start = 0;
  for (std::size_t i = 0; i < std::min(a.size(), b.size()) && a[i] == b[i]; ++i) {
    if (a[i] == '\n') start = i + 1;
  }
  return "expected " + a.substr(start, 120) + "\ngot      " + b.substr(start, 120);
}

// The marks of each kind of figure as they were looked at and found good. RINGFALL_BLESS=1 writes them anew:
// then look at the pictures again.
class GoldenTest : public testing::TestWithParam<Example> {};

TEST_P(GoldenTest, MarksAreAsTheyWere) {
  const std::string trace = trace_text(layout(GetParam().figure).picture);
  const auto path = golden(GetParam().name);
  if (std::getenv("RINGFALL_BLESS")) write_whole_file(path, trace);
  ASSERT_TRUE(std::filesystem::exists(path)) << path;
  const std::string expected = bytes_of(path);
  EXPECT_TRUE(trace == expected) << first_difference(expected, trace);
}

INSTANTIATE_TEST_SUITE_P(Figures, GoldenTest, testing::ValuesIn(example_figures()),
                         [](const auto& example) { return example.param.name; });

}  // namespace
}  // namespace ringfall::plot
