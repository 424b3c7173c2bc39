// SPDX-License-Identifier: GPL-3.0-or-later
// The completion script, loaded and asked in bash itself.
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <set>
#include <sstream>

#include "terminal/exit_status.h"
#include "terminal/program.h"

namespace ringfall::terminal {
namespace {

/// What bash offers after these words; the last one is being typed.
std::set<std::string> offered(const std::vector<std::string>& words) {
  const TestFolder folder;
  std::ofstream(folder.path("completion")) << run_program({"completion"}).out;
  std::ofstream script(folder.path("ask"));
  script << "source " << folder.path("completion") << "\nCOMP_WORDS=(ringfall";
  for (const auto& word : words) script << " '" << word << "'";
  script << ")\nCOMP_CWORD=" << words.size() << "\n_ringfall\nprintf '%s\\n' \"${COMPREPLY[@]}\"\n";
  script.close();
  const std::string command = "bash --norc " + folder.path("ask") + " > " + folder.path("out") + " 2>&1";
  EXPECT_EQ(std::system(command.c_str()), 0) << file_text(folder.path("out"));
  std::istringstream lines(file_text(folder.path("out")));
  std::set<std::string> result;
  for (std::string line; std::getline(lines, line);) {
    if (!line.empty()) result.insert(line);
  }
  return result;
}

using Words = std::set<std::string>;

TEST(Completion, OffersVerbsAndOptionsInBash) {
  EXPECT_EQ(run_program({"completion"}).status, kDone);
  const auto verbs = offered({""});
  for (const char* verb : {"measure", "start", "set-up", "show", "compare", "report", "completion"}) EXPECT_TRUE(verbs.contains(verb)) << verb;
  EXPECT_EQ(offered({"rem"}), Words{"remeasure"});
  EXPECT_EQ(offered({"set-up", "c"}), Words{"change"});
  EXPECT_EQ(offered({"set-up", ""}), (Words{"add", "change", "list", "remove"}));
  EXPECT_EQ(offered({"set-up", "add", "book", "name", "--draw"}), Words{"--draw-weight"});
  EXPECT_EQ(offered({"correct", "book", "1", "--not"}), Words{"--not-a-shot"}) << "options of a group too";
  EXPECT_EQ(offered({"block", "book", "3", "--se"}), Words{"--setup"});
  EXPECT_EQ(offered({"show", "book", "3", "--pl"}), Words{"--plot"});
  EXPECT_TRUE(offered({"show", "boo"}).empty()) << "left to bash, which knows the files";
  EXPECT_TRUE(offered({"show", "--nothing"}).empty());
  EXPECT_TRUE(offered({"--ver"}).contains("--version"));
}

}  // namespace
}  // namespace ringfall::terminal
