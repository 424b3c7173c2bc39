// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/example_report.h"

#include <array>
#include <cstdio>
#include <fstream>
#include <stdexcept>

#include "support/test_folder.h"

namespace ringfall::report {

compare::Session example_session(int shots) {
  compare::Session session;
  const std::array<const char*, 4> setups = {"bare", "plug", "plug", "bare"};
  for (std::size_t k = 0; k < setups.size(); ++k) {
    compare::SessionBlock block;
    block.file = "block" + std::to_string(k + 1) + ".wav";
    block.setup = setups[k];
    block.block = static_cast<int>(k) + 1;
    block.sample_rate_hz = 48000.0;
    const bool bare = block.setup == "bare";
    for (int i = 0; i < shots; ++i) {
      compare::SessionShot entry;
      const double spread = 0.1 * i + 0.05 * static_cast<double>(k);
      entry.shot.number = i + 1;
      entry.shot.hum = (bare ? 6.0 : 2.0) + spread;
      entry.shot.ping = 3.0 + spread;
      entry.shot.levels.exposure_db = -40.0 - spread;
      entry.said.hum = (bare ? 6.0 : 2.0) + i;
      entry.said.feel = (bare ? 3.0 : 7.0) - 0.5 * i;
      entry.said.words = bare ? "hums" : "dead";
      block.shots.push_back(entry);
    }
    session.blocks.push_back(block);
  }
  return session;
}

ReportSource source_of(compare::Session session) {
  ReportSource source;
  source.comparison = compare::compare_setups(session, std::nullopt, "hum");
  for (const auto& block : session.blocks) {
    source.recordings.push_back({block.file, "WAV, 24-bit PCM", block.sample_rate_hz, 1, 1, 20.0, false});
  }
  source.session = std::move(session);
  return source;
}

std::string verdict_of_readers(const std::string& page) {
  const TestFolder folder;
  const std::string path = folder.path("page.html");
  std::ofstream(path, std::ios::binary) << page;
  const std::string command = "python3 '" RINGFALL_TEST_DATA "/../report/read_page.py' '" + path + "' 2>&1";
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("python3 can't be run");
  std::string said;
  std::array<char, 256> part{};
  while (std::fgets(part.data(), part.size(), pipe) != nullptr) said += part.data();
  pclose(pipe);
  while (!said.empty() && said.back() == '\n') said.pop_back();
  return said;
}

}  // namespace ringfall::report
