// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/logbook_session.h"

#include <fmt/format.h>

namespace ringfall::compare {
namespace {

Said said_of(const std::vector<logbook::Comment>& comments) {
  Said said;
  for (const auto& comment : comments) {
    if (comment.loud) said.loud = comment.loud;
    if (comment.hum) said.hum = comment.hum;
    if (comment.ping) said.ping = comment.ping;
    if (comment.feel) said.feel = comment.feel;
    if (!comment.words.empty()) said.words += (said.words.empty() ? "" : "; ") + comment.words;
  }
  return said;
}

}  // namespace

Session logbook_session(const logbook::Logbook& logbook) {
  Session session;
  for (const auto& kept : logbook.blocks()) {
    SessionBlock block;
    block.file = kept.file;
    block.setup = kept.setup;
    block.block = static_cast<int>(kept.number);
    block.note = kept.note;
    block.dropped = kept.dropped;
    block.findings = kept.findings;
    block.sample_rate_hz = kept.sample_rate_hz;
    for (const auto& shot : kept.shots) {
      if (!shot.dropped.empty()) {
        block.left_out.push_back(fmt::format("Shot {} of '{}' is left out: {}.", shot.id, kept.setup, shot.dropped));
      } else if (shot.analyser.empty()) {
        block.left_out.push_back(fmt::format("Shot {} of '{}' is left out: it was never measured; remeasure the logbook.", shot.id,
                                             kept.setup));
      } else {
        block.shots.push_back({shot.shot, said_of(shot.comments)});
      }
    }
    session.blocks.push_back(std::move(block));
  }
  return session;
}

}  // namespace ringfall::compare
