// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/work_line.h"

#include <algorithm>
#include <utility>

namespace ringfall::intake {
namespace {

constexpr std::size_t kWaitingEach = 4;  // pieces in the line for each thread: enough to bridge uneven ones

}  // namespace

WorkLine::WorkLine(std::size_t others) : longest_(kWaitingEach * others) {
  for (std::size_t k = 0; k < others; ++k) others_.emplace_back([this] { work(); });
}

WorkLine::~WorkLine() {
  {
    const std::scoped_lock hold(mutex_);
    ends_ = true;
    waiting_.clear();
  }
  more_.notify_all();
}

void WorkLine::give(std::function<void()> piece) {
  std::unique_lock hold(mutex_);
  waiting_.push_back(std::move(piece));
  if (waiting_.size() > longest_) {
    do_next(hold);
    return;
  }
  hold.unlock();
  more_.notify_one();
}

void WorkLine::finish() {
  std::unique_lock hold(mutex_);
  while (do_next(hold)) {
  }
  done_.wait(hold, [this] { return under_way_ == 0; });
  if (failure_) std::rethrow_exception(std::exchange(failure_, nullptr));
}

void WorkLine::work() {
  std::unique_lock hold(mutex_);
  while (true) {
    more_.wait(hold, [this] { return ends_ || !waiting_.empty(); });
    if (!do_next(hold)) return;
  }
}

bool WorkLine::do_next(std::unique_lock<std::mutex>& hold) {
  if (waiting_.empty()) return false;
  const auto piece = std::move(waiting_.front());
  waiting_.pop_front();
  ++under_way_;
  hold.unlock();
  std::exception_ptr failed;
  try {
    piece();
  } catch (...) {
    failed = std::current_exception();
  }
  hold.lock();
  if (failed && !failure_) failure_ = failed;
  if (--under_way_ == 0) done_.notify_all();
  return true;
}

Jobs share_out(int wanted, std::size_t recordings) {
  const std::size_t threads = wanted > 0 ? static_cast<std::size_t>(wanted) : std::max(1U, std::thread::hardware_concurrency());
  Jobs jobs;
  jobs.recordings = std::clamp<std::size_t>(recordings, 1, threads);
  jobs.others_inside = threads / jobs.recordings - 1;
  return jobs;
}

}  // namespace ringfall::intake
