// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/kept_sounds.h"

#include <map>
#include <utility>

#include "intake/kept_clip.h"
#include "intake/session_options.h"

namespace ringfall::work {

compare::ClipOf kept_sounds(const logbook::Logbook& book, const compare::Session& session, std::function<bool()> go_on) {
  std::map<int, shot::Scale> scales;
  for (const auto& conditions : book.sessions()) scales[static_cast<int>(conditions.session)] = intake::scale_of(conditions);
  return [&book, &session, go_on = std::move(go_on), scales = std::move(scales)](std::size_t block,
                                                                                std::size_t shot) -> std::optional<compare::ScaledClip> {
    if (go_on && !go_on()) return std::nullopt;
    const auto& own = session.blocks[block];
    return compare::ScaledClip{intake::kept_clip(book, own.shots[shot].id), scales.at(own.session)};
  };
}

}  // namespace ringfall::work
