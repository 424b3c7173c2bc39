// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/compare_words_json.h"

#include <nlohmann/json.hpp>

#include "report/json_text.h"
#include "report/said_agreement.h"

namespace ringfall::report {
namespace {

Json json_of_rank(const std::optional<stats::RankAgreement>& rank) {
  if (!rank) return nullptr;
  Json out = {{"coefficient", json_number(rank->coefficient)}, {"n", rank->n},      {"p", json_number(rank->p)},
              {"low_95", nullptr},                             {"high_95", nullptr}};
  if (rank->interval) {
    out["low_95"] = json_number(rank->interval->low);
    out["high_95"] = json_number(rank->interval->high);
  }
  return out;
}

const char* outcome_name(compare::WordOutcome outcome) {
  switch (outcome) {
    case compare::WordOutcome::agrees: return "agrees";
    case compare::WordOutcome::disagrees: return "disagrees";
    case compare::WordOutcome::between: return "between";
    case compare::WordOutcome::no_number: return "no_number";
  }
  return "";
}

}  // namespace

nlohmann::ordered_json compare_words_json(const compare::Session& session, const std::string& main_number) {
  Json ratings = Json::array();
  for (const auto& entry : agreements(session, main_number)) {
    ratings.push_back({{"said", entry.rating},
                       {"number", entry.number->id},
                       {"kendall_tau_b", json_of_rank(entry.rank)},
                       {"effective_pairs", json_number(entry.effective_pairs)},
                       {"spearman", json_of_rank(entry.spearman)},
                       {"setups", entry.setup_count},
                       {"kendall_over_setups", json_of_rank(entry.over_setups)},
                       {"pairs_needed", entry.pairs_needed ? Json(*entry.pairs_needed) : Json(nullptr)},
                       {"sentence", entry.sentence}});
  }
  Json shots = Json::array();
  for (const auto& check : compare::word_checks(session)) {
    shots.push_back({{"setup", check.setup},
                     {"file", check.file},
                     {"shot", check.number},
                     {"words", check.said.words},
                     {"about", compare::aspect_name(check.said.aspect)},
                     {"direction", check.said.direction},
                     {"number", compare::aspect_number(check.said.aspect)},
                     {"value", json_number(check.value)},
                     {"middle", json_number(check.middle)},
                     {"outcome", outcome_name(check.outcome)}});
  }
  return {{"ratings", ratings}, {"shots", shots}};
}

}  // namespace ringfall::report
