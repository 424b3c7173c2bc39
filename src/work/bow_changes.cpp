// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/bow_changes.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/local_time.h"
#include "logbook/earlier.h"

namespace ringfall::work {
namespace {

void compare_words(std::vector<std::string>& news, const char* what, const std::string& was, const std::string& is) {
  if (!was.empty() && is != was) news.push_back(is.empty() ? fmt::format("{} '{}' taken off", what, was) : fmt::format("new {} '{}' (before '{}')", what, is, was));
}

void compare_number(std::vector<std::string>& news, const char* what, std::optional<double> was, std::optional<double> is, double scale, const char* unit) {
  if (was && is && *was != *is) news.push_back(fmt::format("{} {:.4g} {} (before {:.4g})", what, scale * *is, unit, scale * *was));
}

std::vector<std::string> part_words(const std::vector<logbook::Part>& parts) {
  std::vector<std::string> words;
  for (const auto& part : parts) words.push_back(part.what + (part.what.empty() || part.place.empty() ? "" : " at ") + part.place);
  return words;
}

std::vector<std::string> news_of(const logbook::Fittings& was, const logbook::Fittings& is) {
  std::vector<std::string> news;
  compare_words(news, "string", was.string, is.string);
  compare_words(news, "silencers", was.silencers, is.silencers);
  compare_number(news, "draw weight", was.draw_weight_n, is.draw_weight_n, 1.0, "N");
  compare_number(news, "brace height", was.brace_height_m, is.brace_height_m, 1000.0, "mm");
  compare_number(news, "arrow", was.arrow_mass_kg, is.arrow_mass_kg, 1000.0, "g");
  const auto before = part_words(was.parts);
  const auto now = part_words(is.parts);
  if (before != now) news.push_back(fmt::format("on the bow now: {}", now.empty() ? "nothing" : fmt::format("{}", fmt::join(now, ", "))));
  return news;
}

/// What the exposure did from the last session before to the first after; empty: it can't be told.
std::string effect(const compare::SetUpSeason& season, const std::string& moment) {
  const compare::SeasonPoint* before = nullptr;
  const compare::SeasonPoint* after = nullptr;
  for (const auto& point : season.points) {
    if (point.evening.started_at < moment) before = &point;
    else if (after == nullptr) after = &point;
  }
  if (before == nullptr || after == nullptr) return {};
  const auto measures = compare::season_measures();
  for (std::size_t k = 0; k < measures.size(); ++k) {
    if (measures[k].id != "exposure_db" || !before->means[k] || !after->means[k]) continue;
    if (before->evening.calibrated != after->evening.calibrated) return "; the levels of the sessions before and after are of two scales";
    return fmt::format(": sound exposure {:+.1f} dB from session {} to session {}, one session each, so another day alone may have done it",
                       *after->means[k] - *before->means[k], before->evening.session, after->evening.session);
  }
  return {};
}

}  // namespace

std::vector<std::string> bow_changes(const logbook::Logbook& book, const compare::SetUpSeason& season) {
  std::vector<std::string> sentences;
  const auto states = logbook::earlier_states(book, season.bow);
  for (std::size_t k = 0; k < states.size(); ++k) {
    const auto news = news_of(states[k].fittings, logbook::fittings_at(book, season.bow, states[k].until));
    const std::string did = effect(season, states[k].until);
    if (news.empty() || did.empty()) continue;
    std::string what = fmt::format("{}", fmt::join(news, ", "));
    what.front() = what.front() == 'n' ? 'N' : what.front();
    sentences.push_back(fmt::format("{} on {}{}.", what, local_day_text(states[k].until), did));
  }
  return sentences;
}

}  // namespace ringfall::work
