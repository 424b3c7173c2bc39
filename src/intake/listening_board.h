// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <atomic>
#include <mutex>
#include <string>
#include <utility>
#include <vector>

#include "intake/level_meter.h"
#include "intake/listening_events.h"

namespace ringfall::intake {

/// What a face asks of the listening thread.
struct Order {
  enum class Kind { next_block, next_setup, wipe_clip_mark, stop };
  Kind kind = Kind::stop;
  std::string setup = {};
  std::string note = {};
};

/// Where face and listening thread leave things for each other. The audio callback never comes here.
class ListeningBoard {
 public:
  explicit ListeningBoard(bool arm) : armed(arm) {}

  void order(Order order) {
    const std::scoped_lock hold(lock_);
    orders_.push_back(std::move(order));
  }
  std::vector<Order> take_orders() {
    const std::scoped_lock hold(lock_);
    return std::exchange(orders_, {});
  }
  void tell(ListeningEvent event) {
    const std::scoped_lock hold(lock_);
    // A face that never asks must not fill the memory; what it misses is in the logbook.
    if (events_.size() >= kMostEvents) events_.erase(events_.begin(), events_.begin() + kMostEvents / 2);
    events_.push_back(std::move(event));
  }
  std::vector<ListeningEvent> take_events() {
    const std::scoped_lock hold(lock_);
    return std::exchange(events_, {});
  }
  void show(const MeterReading& reading) {
    const std::scoped_lock hold(lock_);
    meter_ = reading;
  }
  MeterReading meter() const {
    const std::scoped_lock hold(lock_);
    return meter_;
  }

  std::atomic<bool> armed;  ///< as the face wants it
  std::atomic<bool> stopped = false;

 private:
  static constexpr int kMostEvents = 4096;
  mutable std::mutex lock_;
  std::vector<Order> orders_;
  std::vector<ListeningEvent> events_;
  MeterReading meter_;
};

}  // namespace ringfall::intake
