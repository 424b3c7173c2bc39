// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/serial_thread.h"

#include <future>
#include <thread>
#include <utility>

namespace ringfall::audio {

SerialThread::SerialThread() : shared_(std::make_shared<Shared>()) {
  std::thread([shared = shared_] {
    for (;;) {
      std::function<void()> job;
      {
        std::unique_lock hold(shared->lock);
        shared->wake.wait(hold, [&] { return shared->ends || !shared->jobs.empty(); });
        if (shared->jobs.empty()) return;
        job = std::move(shared->jobs.front());
        shared->jobs.pop_front();
      }
      job();
    }
  }).detach();
}

SerialThread::~SerialThread() {
  const std::scoped_lock hold(shared_->lock);
  shared_->ends = true;
  shared_->wake.notify_one();
}

bool SerialThread::run(std::function<void()> job, std::chrono::milliseconds limit) {
  auto task = std::make_shared<std::packaged_task<void()>>(std::move(job));
  auto done = task->get_future();
  {
    const std::scoped_lock hold(shared_->lock);
    shared_->jobs.emplace_back([task] { (*task)(); });
    shared_->wake.notify_one();
  }
  // The thread holds the task until then: what it owns outlives a caller that gives up.
  task.reset();
  if (done.wait_for(limit) != std::future_status::ready) return false;
  done.get();
  return true;
}

}  // namespace ringfall::audio
