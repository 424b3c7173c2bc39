// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <utility>
#include <variant>

#include "base/failure.h"
#include "base/text.h"
#include "desk/model/desk.h"
#include "intake/chain_check.h"
#include "plot/picture.h"

namespace ringfall::desk {

using plot::Overloaded;

namespace {

/// A source that is at its end as soon as the work it feeds is stopped.
class StoppableSource final : public audio::SoundSource {
 public:
  StoppableSource(std::unique_ptr<audio::SoundSource> source, const Ticket& ticket) : source_(std::move(source)), ticket_(ticket) {}
  const audio::SourceInfo& info() const override { return source_->info(); }
  std::size_t read(std::span<float> mono) override { return ticket_.cancelled() ? 0 : source_->read(mono); }
  audio::SourceHealth health() override {
    auto health = source_->health();
    if (ticket_.cancelled()) health.pulse = audio::SourcePulse::ended;
    return health;
  }

 private:
  std::unique_ptr<audio::SoundSource> source_;
  const Ticket& ticket_;
};

}  // namespace

void Desk::look_for_microphones() {
  if (!sound_) return;
  quick.post("looking for microphones", [this, sound = sound_](Ticket&) -> Lane::Result {
    auto found = sound->devices();
    std::erase_if(found, [](const audio::Device& device) { return device.inputs < 1; });
    return [this, found] { microphones = found; };
  });
}

void Desk::listen_to_microphone(const std::string& setup, const std::string& note, const std::string& device) {
  if (!sound_) return;
  preferences.device = device;
  listen(setup, note, [sound = sound_, device] {
    audio::InputWish wish;
    wish.device = device;
    return sound->open_input(wish);
  });
}

void Desk::listen(const std::string& setup, const std::string& note, audio::OpenSource open) {
  if (!book || hearing.ears) return;
  intake::ListeningOptions options;
  options.logbook = book->path;
  options.setup = setup;
  options.note = note;
  hearing = {};
  hearing.setup = setup;
  try {
    hearing.ears = std::make_shared<intake::Listening>(options, std::move(open));
  } catch (const Failure& failure) {
    say(failure.what(), true);
  }
}

void Desk::check_chain(const std::string& device) {
  if (!sound_ || hearing.ears) return;
  chain_lines.clear();
  slow.post("checking the chain", [this, sound = sound_, device](Ticket& ticket) -> Lane::Result {
    audio::InputWish wish;
    wish.device = device;
    StoppableSource source(sound->open_input(wish), ticket);
    const auto check = intake::check_chain(source, {}, [&](const std::string& words) { ticket.say(words); });
    if (ticket.cancelled()) return [this] { say("Stopped; the chain is not judged."); };
    auto lines = intake::chain_verdicts(check);
    for (const Finding& finding : check.findings) lines.push_back(finding.sentence);
    return [this, lines] { chain_lines = lines; };
  });
}

void Desk::stop_listening() {
  if (!hearing.ears || hearing.stopping) return;
  hearing.stopping = true;
  slow.post("keeping what was heard", [this, ears = hearing.ears](Ticket&) -> Lane::Result {
    ears->stop();
    return [this] {
      hear();
      hearing.ears.reset();
      hearing.stopping = false;
      read_again();
      say("Stopped listening; kept: " + counted(static_cast<std::size_t>(hearing.shots), "shot") + ".");
    };
  });
}

bool Desk::hear() {
  if (!hearing.ears) return false;
  bool something = false;
  bool changed = false;
  for (const auto& event : hearing.ears->take_events()) {
    something = true;
    std::visit(Overloaded{[&](const intake::SourceOpened& opened) {
                            hearing.source = fmt::format("{}, {:.1f} kHz", opened.name, opened.sample_rate_hz / 1000.0);
                            hearing.trouble.clear();
                          },
                          [&](const intake::SourceLost& lost) { hearing.trouble = lost.sentence; },
                          [&](const intake::SourceEnded&) { stop_listening(); },
                          [&](const intake::BlockStarted& started) { hearing.block = started.number; },
                          [&](const intake::ShotKept& kept) {
                            ++hearing.shots;
                            changed = true;
                            chosen = kept.id;  // words go to the newest shot
                          },
                          [&](const intake::ShotMeasured& measured) {
                            hearing.last = measured;
                            hearing.peak_db = measured.shot.levels.peak_db;
                            if (hearing.peak_db) *hearing.peak_db -= book->conditions.full_scale_db_spl.value_or(0.0);
                            changed = changed || !measured.first_look;
                          },
                          [&](const intake::ShotLeftOut& left) {
                            changed = changed || left.id.has_value();
                            if (!left.id) return;
                            --hearing.shots;
                            say("Left out: " + left.reason);
                          },
                          [&](const intake::ShotTakenBack&) {
                            ++hearing.shots;
                            changed = true;
                          },
                          [&](const intake::BlockEnded&) { changed = true; },
                          [&](const intake::ArmedChanged&) {},
                          [&](const intake::Remark& remark) { say(remark.finding.sentence, true); },
                          [&](const intake::Failed& failed) {
                            say(failed.sentence, true);
                            stop_listening();
                          }},
               event);
  }
  if (changed) {
    read_again();
    quick.post("reading the shot", [this](Ticket&) -> Lane::Result { return [this] { read_chosen(); }; });
  }
  return something;
}

void Desk::need_running(std::int64_t block) {
  if (!book) return;
  const RunningQuestion question{revision, block, preferences.main_number, preferences.words_first};
  if (question == running_question_) return;
  const bool hides_more = question.words_first && !running_question_.words_first;
  if (running && (running->block != block || hides_more)) running.reset();
  running_question_ = question;
  quick.post("reading the block", [this, question, sheet = book, number = ++sheets_](Ticket&) -> Lane::Result {
    auto read = running_sheet(*sheet, question, number);
    return [this, question, read] {
      if (running_question_ == question) running = read;
    };
  });
}

void Desk::play(std::vector<float> samples, double sample_rate_hz) {
  if (!sound_ || samples.empty()) return;
  playback_.reset();
  quick.post("playing", [this, sound = sound_, samples = std::move(samples), sample_rate_hz](Ticket&) -> Lane::Result {
    auto started = std::make_shared<std::unique_ptr<audio::Playback>>(sound->play(samples, sample_rate_hz));
    return [this, started] { playback_ = std::move(*started); };
  });
}

void Desk::stop_playing() { playback_.reset(); }

bool Desk::playing() const { return playback_ && !playback_->done(); }

}  // namespace ringfall::desk
