// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <gtest/gtest.h>

#include <chrono>
#include <thread>
#include <utility>
#include <variant>
#include <vector>

#include "intake/listening.h"

namespace ringfall::intake {

/// Those of one kind.
template <typename Event>
std::vector<Event> only(const std::vector<ListeningEvent>& events) {
  std::vector<Event> chosen;
  for (const auto& event : events) {
    if (const auto* it = std::get_if<Event>(&event)) chosen.push_back(*it);
  }
  return chosen;
}

template <typename Event>
auto at_least(std::size_t count) {
  return [count](const std::vector<ListeningEvent>& events) { return only<Event>(events).size() >= count; };
}

/// Collects events until `done` says so of them, or fails after a minute: nothing waited for takes that long.
template <typename Done>
std::vector<ListeningEvent> events_until(Listening& listening, Done done) {
  std::vector<ListeningEvent> events;
  for (int k = 0; k < 30000 && !done(events); ++k) {
    const bool over = listening.stopped();
    for (auto& event : listening.take_events()) events.push_back(std::move(event));
    if (over) break;
    std::this_thread::sleep_for(std::chrono::milliseconds(2));
  }
  EXPECT_TRUE(done(events)) << "waited in vain; " << (only<Failed>(events).empty() ? "" : only<Failed>(events)[0].sentence);
  for (auto& event : listening.take_events()) events.push_back(std::move(event));
  return events;
}

}  // namespace ringfall::intake
