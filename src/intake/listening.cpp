// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/listening.h"

#include <thread>
#include <utility>

#include "intake/listening_board.h"
#include "intake/listening_worker.h"

namespace ringfall::intake {

struct Listening::Part {
  Part(ListeningOptions options, audio::OpenSource open)
      : board(options.armed),
        thread([this, options = std::move(options), open = std::move(open)]() mutable {
          ListeningWorker(std::move(options), std::move(open), board).run();
          board.stopped = true;
        }) {}

  ListeningBoard board;
  std::jthread thread;
};

Listening::Listening(ListeningOptions options, audio::OpenSource open)
    : part_(std::make_unique<Part>(std::move(options), std::move(open))) {}

Listening::~Listening() { stop(); }

void Listening::arm() { part_->board.armed = true; }
void Listening::pause() { part_->board.armed = false; }
bool Listening::armed() const { return part_->board.armed; }
void Listening::next_block(std::string note) { part_->board.order(Order{Order::Kind::next_block, {}, std::move(note)}); }
void Listening::next_setup(std::string setup, std::string note) {
  part_->board.order(Order{Order::Kind::next_setup, std::move(setup), std::move(note)});
}
void Listening::stop() {
  part_->board.order(Order{Order::Kind::stop});
  if (part_->thread.joinable()) part_->thread.join();
}
bool Listening::stopped() const { return part_->board.stopped; }
MeterReading Listening::meter() const { return part_->board.meter(); }
void Listening::wipe_clip_mark() { part_->board.order(Order{Order::Kind::wipe_clip_mark}); }
std::vector<ListeningEvent> Listening::take_events() { return part_->board.take_events(); }

}  // namespace ringfall::intake
