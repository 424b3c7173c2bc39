// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/sheets/season_sheet.h"

#include <utility>

#include "base/failure.h"
#include "work/afar.h"
#include "work/kept_sounds.h"
#include "work/seasons.h"

namespace ringfall::desk {
namespace {

/// A set-up's level, carried to the distances through its last session's air.
std::optional<HeardAfar> heard_afar(const logbook::Logbook& logbook, const compare::Session& session, const std::string& setup,
                                    const compare::ClipOf& clip_of) {
  HeardAfar heard;
  heard.setup = setup;
  try {
    const auto afar = work::level_afar(logbook, session, setup, {}, clip_of);
    if (!afar) return std::nullopt;
    heard.shots = afar->heard.shots;
    heard.calibrated = afar->heard.calibrated;
    heard.at = afar->at;
  } catch (const RequestFailure&) {
    // Its session's air is none that the estimate is made for.
  }
  return heard;
}

}  // namespace

std::shared_ptr<const SeasonSheet> read_season(const logbook::Logbook& logbook, Ticket& ticket) {
  auto sheet = std::make_shared<SeasonSheet>();
  const auto go_on = [&ticket] { return !ticket.cancelled(); };
  const auto season = work::read_season(logbook, std::nullopt, go_on);
  if (!season) return nullptr;
  sheet->seasons = season->setups;
  const auto setups = season->session.setups();
  const auto clip_of = work::kept_sounds(logbook, season->session, go_on);
  for (std::size_t k = 0; k < setups.size(); ++k) {
    auto heard = heard_afar(logbook, season->session, setups[k], clip_of);
    if (!heard) return nullptr;
    sheet->afar.push_back(std::move(*heard));
    ticket.report(static_cast<double>(k + 1) / static_cast<double>(setups.size()));
  }
  return sheet;
}

}  // namespace ringfall::desk
