// SPDX-License-Identifier: GPL-3.0-or-later
// Prints how often each fault is named, and for each number how often it was right, null, doubted or wrong without a word.
// Usage: hard_ground [first seed] [recordings a row] [row name]
#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <functional>
#include <map>
#include <string>

#include "hard_ground/kinds.h"
#include "hard_ground/verdict.h"

int main(int argc, char** argv) {
  using namespace ringfall::hard_ground;
  const auto first = static_cast<std::uint64_t>(argc > 1 ? std::atoll(argv[1]) : 1000);
  const int recordings = argc > 2 ? std::atoi(argv[2]) : 10;
  const std::string only = argc > 3 ? argv[3] : "";
  const bool loud = argc > 4;
  fmt::print("{:28} {:>18} {:>7}   early late earlyZ lateZ exp peak fast: wrong unsaid %\n", "scene", "finding", "said %");
  std::map<std::string, Verdict> whole;
  std::map<std::string, int> false_alarms;
  int clean = 0;
  for (const Kind& kind : kinds()) {
    if (!only.empty() && kind.name.find(only) == std::string::npos) continue;
    std::map<std::string, Verdict> row;
    int named = 0;
    for (int k = 0; k < recordings; ++k) {
      const Scene scene = kind.make(first + static_cast<std::uint64_t>(k));
      const auto shots = render(scene);
      const Heard heard = hear(scene, shots);
      if (said(heard, kind.expected)) ++named;
      if (kind.expected.empty()) {
        ++clean;
        for (const std::string& code : fault_codes()) {
          if (!said(heard, code)) continue;
          ++false_alarms[code];
          if (loud) fmt::print("  false {} seed {}\n", code, scene.seed);
        }
      }
      for (std::size_t n = 0; n < shots.size(); ++n) {
        for (const Judged& one : judge(heard, heard.shots[n], shots[n].truth)) {
          row[one.name].add(one.outcome);
          whole[one.name].add(one.outcome);
          if (loud && one.outcome == Outcome::wrong) {
            fmt::print("  seed {} shot {} {}: {:.3f} true {:.3f} end {:.3f}\n", scene.seed, n, one.name, one.value, one.truth,
                       *heard.shots[n].tail_end_s - heard.shots[n].onset_s);
          }
        }
      }
    }
    fmt::print("{:28} {:>18} {:7.0f}  ", kind.name, kind.expected, kind.expected.empty() ? 0.0 : 100.0 * named / recordings);
    for (const char* name : number_names()) fmt::print(" {:5.1f}", row[name].percent(Outcome::wrong));
    fmt::print("\n");
  }
  fmt::print("\n{:10} {:>7} {:>7} {:>7} {:>7} % of shots\n", "number", "right", "null", "doubted", "wrong");
  for (const char* name : number_names()) {
    const Verdict& all = whole[name];
    fmt::print("{:10} {:7.1f} {:7.1f} {:7.1f} {:7.1f}\n", name, all.percent(Outcome::right), all.percent(Outcome::null),
               all.percent(Outcome::doubted), all.percent(Outcome::wrong));
  }
  fmt::print("\nfalse alarms on {} clean recordings:", clean);
  for (const auto& [code, count] : false_alarms) fmt::print(" {} {}", code, count);
  fmt::print("\n");
}
