// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <condition_variable>
#include <fstream>
#include <memory>
#include <mutex>
#include <string>

#include "desk/desk_hands.h"

namespace ringfall::desk {

inline std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

inline std::vector<std::string> said_in(const Desk& desk) {
  std::vector<std::string> words;
  for (const auto& notice : desk.notices) words.push_back(notice.words);
  return words;
}

inline bool said(const Desk& desk, const std::string& begin) {
  return std::ranges::any_of(said_in(desk), [&](const std::string& words) { return words.starts_with(begin); });
}

/// Holds a lane's thread where its work has done a share, until a hand has pressed Stop: no race with the clock.
class Hold {
 public:
  /// The desk's wake: called from the threads of both lanes.
  void pass() {
    std::unique_lock guard(lock_);
    if (lane_ == nullptr) return;
    const auto busy = lane_->busy();
    if (!busy || busy->share.value_or(-1.0) < from_) return;
    held_ = true;
    changed_.wait(guard, [this] { return lane_ == nullptr; });
    held_ = false;
  }
  void at(const Lane& lane, double share) {
    const std::lock_guard guard(lock_);
    lane_ = &lane;
    from_ = share;
  }
  void go_on() {
    const std::lock_guard guard(lock_);
    lane_ = nullptr;
    changed_.notify_all();
  }
  bool holds() {
    const std::lock_guard guard(lock_);
    return held_;
  }

 private:
  std::mutex lock_;
  std::condition_variable changed_;
  const Lane* lane_ = nullptr;
  double from_ = 0.0;
  bool held_ = false;
};

class SharingHands : public DeskHands {
 protected:
  explicit SharingHands(const std::shared_ptr<Hold>& held = std::make_shared<Hold>())
      : DeskHands(nullptr, [held] { held->pass(); }), hold(held) {}
  ~SharingHands() override { hold->go_on(); }
  void hold_at(double share) { hold->at(desk.slow, share); }
  /// Draws until the work has got to where it is held, presses Stop there.
  void stop_by_hand() {
    while (!hold->holds()) {
      hands.frames(1);
      ASSERT_TRUE(desk.restless() || hold->holds()) << "it was over before its share was done";
    }
    hands.press("Stop");
    hold->go_on();
    hands.settle();
  }
  std::shared_ptr<Hold> hold;
};

}  // namespace ringfall::desk
