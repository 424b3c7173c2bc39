// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/listening_worker.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <exception>
#include <thread>
#include <utility>

#include "base/failure.h"
#include "base/nearest.h"
#include "intake/session_options.h"
#include "intake/source_findings.h"

namespace ringfall::intake {
namespace {

using namespace std::chrono_literals;

constexpr auto kIdle = 4ms;
constexpr auto kNoSource = 20ms;
constexpr auto kTryAgain = 1s;
constexpr std::size_t kBuffer = 4800;
constexpr std::size_t kWorkWaiting = 4;  // with more, measuring goes first: only a source faster than life brings that about
constexpr double kRecent_s = 1.2;        // the floor before a shot right after arming
constexpr double kNoticed_s = 5.0;       // missing sound is noticed this late
constexpr double kSync_s = 10.0;

}  // namespace

ListeningWorker::ListeningWorker(ListeningOptions options, audio::OpenSource open, ListeningBoard& board)
    : options_(std::move(options)),
      open_(std::move(open)),
      board_(board),
      buffer_(kBuffer),
      packing_([&board](Finding finding) { board.tell(Remark{std::move(finding)}); }) {}

void ListeningWorker::run() {
  try {
    logbook_.emplace(options_.logbook);
    if (!has_setup(options_.setup)) return;
    loop();
  } catch (const std::exception& failure) {
    board_.tell(Failed{failure.what()});
  }
}

bool ListeningWorker::has_setup(const std::string& name) const {
  std::vector<std::string> names;
  for (const auto& setup : logbook_->setups(logbook_->conditions().bow)) names.push_back(setup.name);
  if (std::ranges::find(names, name) != names.end()) return true;
  const std::string sentence = fmt::format("there is no set-up '{}'{}", name, did_you_mean(name, names));
  if (opened_once_) {
    board_.tell(Remark{{"no_such_setup", Severity::caution, {}, sentence}});
  } else {
    board_.tell(Failed{sentence});
  }
  return false;
}

void ListeningWorker::loop() {
  while (!stop_) {
    obey();
    if (stop_) break;
    if (!source_) {
      try_to_open();
      if (!source_) std::this_thread::sleep_for(kNoSource);
      continue;
    }
    read_source();
  }
  if (source_) end_block();
}

void ListeningWorker::obey() {
  for (Order& order : board_.take_orders()) orders_.push_back(std::move(order));
  while (!orders_.empty() && !stop_) {
    const Order order = orders_.front();
    // A shot that has just been heard still belongs to this block: its sound is waited for, a second or two.
    const bool ends_block = order.kind != Order::Kind::wipe_clip_mark;
    if (ends_block && source_ && !stalled_ && hearing_ && hearing_->expects_more()) return;
    orders_.pop_front();
    obey(order);
  }
}

void ListeningWorker::obey(const Order& order) {
  switch (order.kind) {
    case Order::Kind::wipe_clip_mark:
      if (meter_) meter_->wipe_clip_mark();
      return;
    case Order::Kind::stop: stop_ = true; return;
    case Order::Kind::next_setup:
      if (!has_setup(order.setup)) return;
      break;
    case Order::Kind::next_block: break;
  }
  if (source_) end_block();
  if (order.kind == Order::Kind::next_setup) options_.setup = order.setup;
  options_.note = order.note;
  if (source_) start_block();
}

void ListeningWorker::try_to_open() {
  if (Clock::now() < next_try_) return;
  try {
    source_ = open_();
  } catch (const Failure&) {
    if (!opened_once_) throw;
    next_try_ = Clock::now() + kTryAgain;
    return;
  }
  const double rate_hz = source_->info().sample_rate_hz;
  board_.tell(SourceOpened{source_->info().name, rate_hz, opened_once_});
  opened_once_ = true;
  health_ = {};
  meter_.emplace(rate_hz);
  recent_.emplace(static_cast<std::size_t>(kRecent_s * rate_hz));
  start_block();
}

void ListeningWorker::read_source() {
  follow_arming();
  const std::size_t got = source_->read(buffer_);
  const auto heard = std::span<const float>(buffer_).first(got);
  if (got > 0) {
    meter_->push(heard);
    board_.show(meter_->reading());
    if (take_) {
      try {
        take_->write(heard);
        unsynced_ += static_cast<std::int64_t>(got);
        if (static_cast<double>(unsynced_) > kSync_s * source_->info().sample_rate_hz) {
          take_->sync();
          unsynced_ = 0;
        }
      } catch (const FileFailure& failure) {
        board_.tell(Remark{{"take_stopped", Severity::caution, {}, failure.what()}});
        take_.reset();
      }
    }
    recent_->push(heard);
    if (hearing_) hearing_->push(heard);
    position_ += static_cast<std::int64_t>(got);
  }
  look_at_health();
  if (!work_.empty() && (got == 0 || work_.size() > kWorkWaiting)) {
    work_off_one();
  } else if (got == 0) {
    std::this_thread::sleep_for(kIdle);
  }
}

void ListeningWorker::look_at_health() {
  const audio::SourceHealth before = std::exchange(health_, source_->health());
  stalled_ = health_.pulse == audio::SourcePulse::stalled;
  if (const auto finding = loss_between(before, health_, source_->info().sample_rate_hz)) {
    const auto late = std::llround(kNoticed_s * source_->info().sample_rate_hz);
    if (block_) block_->mark_lost(position_ - late, position_);
    board_.tell(Remark{*finding});
  }
  if (health_.pulse == audio::SourcePulse::lost) {
    lose_source(fmt::format("{}: no more sound comes from it; what was heard so far is kept. Check the plug and the sound "
                            "system; listening goes on by itself when it is back.", source_->info().name));
  } else if (health_.pulse == audio::SourcePulse::ended) {
    end_block();
    source_.reset();
    stop_ = true;
    board_.tell(SourceEnded{});
  }
}

void ListeningWorker::lose_source(const std::string& sentence) {
  board_.tell(SourceLost{sentence});
  board_.show({});
  end_block();
  source_.reset();
  next_try_ = Clock::now() + kTryAgain;
}

void ListeningWorker::follow_arming() {
  const bool wanted = board_.armed;
  if (wanted == armed_) return;
  armed_ = wanted;
  if (armed_) {
    start_hearing();
  } else {
    stop_hearing();
  }
  board_.tell(ArmedChanged{armed_});
}

void ListeningWorker::start_hearing() {
  const auto before = recent_->copy(recent_->end() - position_, recent_->end());
  hearing_base_ = position_ - static_cast<std::int64_t>(before.size());
  heard_from_ = position_;
  const auto in_block = [this](shot::Clip clip) {
    clip.first_sample += hearing_base_;
    clip.onset_sample += hearing_base_;
    if (clip.impact_sample) *clip.impact_sample += hearing_base_;
    if (clip.next_shot_sample) *clip.next_shot_sample += hearing_base_;
    return clip;
  };
  ShotHearing::Handlers handlers;
  handlers.first_look = [this, in_block](const shot::Clip& clip) {
    if (clip.onset_sample + hearing_base_ >= heard_from_) work_.emplace_back(FirstLook{in_block(clip)});
  };
  handlers.complete = [this, in_block](const shot::Clip& clip) {
    if (clip.onset_sample + hearing_base_ >= heard_from_) block_->keep(in_block(clip));
  };
  handlers.found = [this, in_block](std::int64_t onset, shot::FoundEvent&& found) {
    if (onset + hearing_base_ < heard_from_) return;
    found.clip = in_block(std::move(found.clip));
    shot::Event& event = found.event;
    event.onset_sample += hearing_base_;
    if (event.impact_sample) *event.impact_sample += hearing_base_;
    if (event.next_shot_sample) *event.next_shot_sample += hearing_base_;
    work_.emplace_back(Verdict{onset + hearing_base_, std::move(found)});
  };
  handlers.refuted = [this](std::int64_t onset, bool kept) {
    if (onset + hearing_base_ >= heard_from_) work_.emplace_back(Refuted{onset + hearing_base_, kept});
  };
  hearing_ = std::make_unique<ShotHearing>(source_->info().sample_rate_hz, recording_options_->settings.find, handlers);
  hearing_->push(before);
}

void ListeningWorker::stop_hearing() {
  if (!hearing_) return;
  hearing_->finish();
  hearing_.reset();
}

void ListeningWorker::work_off_one() {
  const Work work = std::move(work_.front());
  work_.pop_front();
  if (const auto* look = std::get_if<FirstLook>(&work)) block_->first_look(look->clip);
  if (const auto* verdict = std::get_if<Verdict>(&work)) block_->measure(verdict->onset, verdict->found);
  if (const auto* refuted = std::get_if<Refuted>(&work)) block_->refute(refuted->onset, refuted->kept);
}

void ListeningWorker::start_block() {
  const auto conditions = logbook_->conditions();
  const double rate_hz = source_->info().sample_rate_hz;
  RecordingOptions options = options_of(conditions);
  options.settings.measure = options_.measure;
  options.settings.find.arrow_speed_m_s = options_.arrow_speed_m_s;
  recording_options_ = options;
  // The block begins with the sound that a shot right now would need before it.
  position_ = recent_->end() - recent_->begin();
  health_at_start_ = health_;
  start_take();
  logbook::NewBlock block;
  block.setup = options_.setup;
  block.file = take_ ? packed_take_name(take_->path()) : source_->info().name;
  block.sample_rate_hz = rate_hz;
  block.note = options_.note;
  block_ = std::make_unique<LiveBlock>(*logbook_, options, block, [this](ListeningEvent event) { board_.tell(std::move(event)); });
  armed_ = false;
  if (board_.armed) {
    armed_ = true;
    start_hearing();
  } else {
    // A wish from before there was a source is answered too.
    board_.tell(ArmedChanged{false});
  }
}

void ListeningWorker::end_block() {
  stop_hearing();
  while (!work_.empty()) work_off_one();
  const auto take = take_ ? std::optional(packed_take_name(take_->path())) : std::nullopt;
  close_take();
  if (block_) block_->end(findings_of_source(health_at_start_, health_, source_->info().sample_rate_hz), take);
  block_.reset();
}

void ListeningWorker::start_take() {
  if (!options_.take_folder) return;
  try {
    take_ = std::make_unique<audio::TakeWriter>(new_take_name(*options_.take_folder), source_->info().sample_rate_hz);
    unsynced_ = 0;
    take_->write(recent_->copy(recent_->begin(), recent_->end()));
  } catch (const FileFailure& failure) {
    take_.reset();
    board_.tell(Remark{{"take_stopped", Severity::caution, {}, failure.what()}});
  }
}

void ListeningWorker::close_take() {
  if (!take_) return;
  const std::string path = take_->path();
  take_.reset();
  packing_.pack(path);
}

}  // namespace ringfall::intake
