// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/sheets/lane.h"

#include <cmath>
#include <exception>

namespace ringfall::desk {

void Ticket::report(std::optional<double> share) {
  constexpr double kStep = 0.01;
  share_.store(share.value_or(-1.0));
  if (!share || std::abs(*share - woke_at_) < kStep) return;
  woke_at_ = *share;
  wake_();
}

Lane::Lane(std::function<void()> wake, std::function<void(const std::string&)> complain)
    : wake_(std::move(wake)), complain_(std::move(complain)), thread_([this] { run(); }) {}

Lane::~Lane() {
  {
    const std::lock_guard guard(lock_);
    closing_ = true;
    waiting_.clear();
    if (ticket_ != nullptr) ticket_->cancelled_ = true;
  }
  changed_.notify_all();
  thread_.join();
}

void Lane::post(std::string what, Work work) {
  {
    const std::lock_guard guard(lock_);
    waiting_.push_back({std::move(what), std::move(work)});
  }
  changed_.notify_all();
}

bool Lane::apply() {
  std::vector<Result> results;
  {
    const std::lock_guard guard(lock_);
    results.swap(finished_);
  }
  for (const Result& result : results) {
    if (result) result();
  }
  return !results.empty();
}

std::optional<Lane::Busy> Lane::busy() const {
  const std::lock_guard guard(lock_);
  if (ticket_ == nullptr) {
    if (waiting_.empty()) return std::nullopt;
    return Busy{waiting_.front().what, std::nullopt, waiting_.size()};
  }
  const double share = ticket_->share_.load();
  const std::lock_guard words_guard(ticket_->lock_);
  return Busy{ticket_->words_.empty() ? running_ : ticket_->words_, share < 0.0 ? std::nullopt : std::optional(share),
              waiting_.size()};
}

void Lane::cancel() {
  const std::lock_guard guard(lock_);
  if (ticket_ != nullptr) ticket_->cancelled_ = true;
  else if (!waiting_.empty()) waiting_.front().cancelled = true;
}

void Lane::cancel(const std::string& what) {
  const std::lock_guard guard(lock_);
  if (ticket_ != nullptr && running_ == what) ticket_->cancelled_ = true;
  std::erase_if(waiting_, [&what](const Piece& piece) { return piece.what == what; });
}

void Lane::cancel_all() {
  const std::lock_guard guard(lock_);
  if (ticket_ != nullptr) ticket_->cancelled_ = true;
  waiting_.clear();
  changed_.notify_all();
}

void Lane::wait_idle() {
  std::unique_lock guard(lock_);
  changed_.wait(guard, [this] { return waiting_.empty() && ticket_ == nullptr; });
}

void Lane::run() {
  std::unique_lock guard(lock_);
  for (;;) {
    changed_.wait(guard, [this] { return closing_ || !waiting_.empty(); });
    if (closing_) return;
    const Piece piece = std::move(waiting_.front());
    waiting_.pop_front();
    Ticket ticket(wake_, piece.cancelled);
    ticket_ = &ticket;
    running_ = piece.what;
    guard.unlock();
    Result result;
    try {
      result = piece.work(ticket);
    } catch (const std::exception& failure) {
      result = [complain = complain_, words = std::string(failure.what())] { complain(words); };
    }
    guard.lock();
    ticket_ = nullptr;
    finished_.push_back(std::move(result));
    changed_.notify_all();
    guard.unlock();
    wake_();
    guard.lock();
  }
}

}  // namespace ringfall::desk
