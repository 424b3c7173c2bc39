// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <cstdint>
#include <deque>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "audio/sound_source.h"
#include "audio/take_writer.h"
#include "intake/level_meter.h"
#include "intake/listening.h"
#include "intake/listening_board.h"
#include "intake/live_block.h"
#include "intake/shot_hearing.h"
#include "intake/take_packing.h"
#include "logbook/logbook.h"
#include "shot/sample_ring.h"

namespace ringfall::intake {

/// What the listening thread does: source -> meter, take, hearing -> block in the logbook. Keeping a shot's sound comes before
/// all measuring; measuring is done while no sound waits.
class ListeningWorker {
 public:
  ListeningWorker(ListeningOptions options, audio::OpenSource open, ListeningBoard& board);
  /// Until stop is ordered, the source has ended or nothing goes any more. Throws nothing; failures are told.
  void run();

 private:
  using Clock = std::chrono::steady_clock;
  struct FirstLook {
    shot::Clip clip;
  };
  struct Verdict {
    std::int64_t onset;
    shot::FoundEvent found;
  };
  struct Refuted {
    std::int64_t onset;
    bool kept;
  };
  using Work = std::variant<FirstLook, Verdict, Refuted>;

  void loop();
  void obey();
  void obey(const Order& order);
  void try_to_open();
  void read_source();
  void look_at_health();
  void follow_arming();
  void start_hearing();
  void stop_hearing();
  void work_off_one();
  void start_block();
  void end_block();
  void lose_source(const std::string& sentence);
  void start_take();
  void close_take();
  bool has_setup(const std::string& name) const;

  ListeningOptions options_;
  audio::OpenSource open_;
  ListeningBoard& board_;
  std::optional<logbook::Logbook> logbook_;
  std::unique_ptr<audio::SoundSource> source_;
  audio::SourceHealth health_;           ///< as last seen
  audio::SourceHealth health_at_start_;  ///< of the block
  Clock::time_point next_try_{};
  bool opened_once_ = false;
  bool armed_ = false;
  bool stop_ = false;
  bool stalled_ = false;
  std::deque<Order> orders_;
  std::vector<float> buffer_;
  std::optional<LevelMeter> meter_;
  std::optional<shot::SampleRing> recent_;
  std::optional<RecordingOptions> recording_options_;
  std::unique_ptr<LiveBlock> block_;
  std::unique_ptr<ShotHearing> hearing_;
  std::int64_t position_ = 0;      ///< of the next sample in the block
  std::int64_t hearing_base_ = 0;  ///< the hearing's first sample in the block
  std::int64_t heard_from_ = 0;    ///< events before it belong to what was before
  std::deque<Work> work_;
  std::unique_ptr<audio::TakeWriter> take_;
  std::int64_t unsynced_ = 0;
  TakePacking packing_;
};

}  // namespace ringfall::intake
