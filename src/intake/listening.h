// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "audio/sound_source.h"
#include "intake/level_meter.h"
#include "intake/listening_events.h"
#include "shot/settings.h"

namespace ringfall::intake {

struct ListeningOptions {
  std::string logbook;       ///< its file; it must exist
  std::string setup;         ///< of the first block; it must be in the logbook
  std::string note;          ///< of the first block
  bool armed = true;
  shot::MeasureSettings measure;
  std::optional<double> arrow_speed_m_s;   ///< distance, temperature and full scale are the logbook's
  std::optional<std::string> take_folder;  ///< where whole takes are recorded, one a block; nullopt: they are not
};

/// Hears shots from a source, keeps each one's sound in a logbook before anything else, then measures it, with the finder and
/// the measuring that files go through. Runs on a thread of its own with a connection of its own to the logbook; all calls may
/// come from any one other thread and return at once (stop excepted). A block ends, and is judged as a whole, at next_block,
/// next_setup, stop and when the source is lost; the next one begins with the next sound. Never throws because of the
/// source or the logbook: that comes as an event.
/// Memory: the last seconds of sound and some kB a shot of the running block; it does not grow with time.
/// A shot's sound is on the disk 1.2 s after its loud edge (a second later when a louder sound came just before it).
/// Figures: docs/measures/listening.md.
/// Tested: intake.Listening*.*
class Listening {
 public:
  Listening(ListeningOptions options, audio::OpenSource open);
  ~Listening();  ///< as stop()
  Listening(const Listening&) = delete;
  Listening& operator=(const Listening&) = delete;

  /// Shots are looked for from now on (with what sounded just before as their floor).
  void arm();
  /// Nothing is kept from now on; the meter goes on.
  void pause();
  bool armed() const;
  void next_block(std::string note = {});
  /// `setup` must be in the logbook (Logbook::add_setup from the face's own connection), else a Remark says so and the
  /// present one stays.
  void next_setup(std::string setup, std::string note = {});
  /// Ends the take well: what was heard is found, kept, measured and judged. Waits for that.
  void stop();
  /// Has the listening thread come to its end, after stop, Failed or SourceEnded?
  bool stopped() const;

  MeterReading meter() const;
  void wipe_clip_mark();
  /// What has happened since the last call, in order.
  std::vector<ListeningEvent> take_events();

 private:
  struct Part;
  std::unique_ptr<Part> part_;
};

}  // namespace ringfall::intake
