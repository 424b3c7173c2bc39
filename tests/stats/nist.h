// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace ringfall::stats {

/// The rows of numbers below the last "Data:" line of a file of tests/data/nist.
inline std::vector<std::vector<double>> nist_rows(const std::string& set) {
  std::ifstream file(std::string(RINGFALL_TEST_DATA) + "/nist/" + set + ".dat");
  if (!file) throw std::runtime_error("no NIST set " + set);
  std::vector<std::vector<double>> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.rfind("Data:", 0) == 0) rows.clear();
    std::istringstream cells(line);
    std::vector<double> row;
    for (double number = 0.0; cells >> number;) row.push_back(number);
    if (!row.empty() && cells.eof()) rows.push_back(row);
  }
  return rows;
}

inline std::vector<double> nist_column(const std::string& set, std::size_t column) {
  std::vector<double> values;
  for (const auto& row : nist_rows(set)) values.push_back(row.at(column));
  return values;
}

}  // namespace ringfall::stats
