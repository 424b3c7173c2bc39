// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "audio/sound_source.h"
#include "intake/heard_events.h"
#include "intake/listening_events.h"
#include "logbook/logbook.h"

namespace ringfall::intake {

/// One block while it is being shot: keeps its shots in the logbook, and judges it at the end. The logbook's block is made with
/// the first shot; a block without shots leaves no trace.
class LiveBlock {
 public:
  using Tell = std::function<void(ListeningEvent)>;

  /// `file`: where the sound comes from, for the logbook.
  LiveBlock(logbook::Logbook& logbook, const RecordingOptions& options, logbook::NewBlock block, Tell tell);

  /// Keeps the sound of what looks like a shot, at once.
  void keep(const shot::Clip& clip);
  void first_look(const shot::Clip& clip);
  /// The finder's verdict on what was kept under `onset`: measured, and counted or not as things stand.
  void measure(std::int64_t onset, const shot::FoundEvent& found);
  void refute(std::int64_t onset, bool kept);
  /// Sound was lost between these samples: shots there are marked.
  void mark_lost(std::int64_t begin, std::int64_t end);
  /// Judges all and writes what is final. `findings`: about the source, in this block.
  void end(std::vector<Finding> findings, std::optional<std::string> take);

  bool empty() const { return number_ == 0; }

 private:
  struct Kept {
    std::int64_t id = 0;
    bool left_out = false;
    bool again = false;  ///< a sound that is kept already: never taken in, whatever the finder says
  };
  struct Span {
    std::int64_t begin;
    std::int64_t end;
  };

  double seconds(std::int64_t sample) const { return static_cast<double>(sample) / block_.sample_rate_hz; }
  void leave_out(Kept& kept, std::int64_t onset, const std::string& reason);
  void count_anew();
  void add_lost_finding(shot::Shot& shot) const;

  logbook::Logbook& logbook_;
  RecordingOptions options_;
  logbook::NewBlock block_;
  Tell tell_;
  std::int64_t number_ = 0;
  HeardEvents heard_;
  std::map<std::int64_t, Kept> kept_;        ///< by onset, those without a verdict
  std::vector<Kept> measured_;               ///< in the order of heard_'s events
  std::vector<Span> lost_;
};

}  // namespace ringfall::intake
