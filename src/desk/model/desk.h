// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <deque>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "audio/sound_source.h"
#include "desk/sheets/book_sheet.h"
#include "desk/sheets/compare_sheet.h"
#include "desk/sheets/lane.h"
#include "desk/sheets/overview.h"
#include "desk/model/preferences.h"
#include "desk/sheets/running_sheet.h"
#include "desk/sheets/season_sheet.h"
#include "desk/sheets/shot_sheet.h"
#include "desk/model/sound_port.h"
#include "intake/listening.h"
#include "intake/logbook_intake.h"

namespace ringfall::desk {

/// The places of the window, in the order people need them.
enum class Place { book, range, shot, compare, ears, season, plan, page };
inline constexpr int kPlaces = 8;
const char* place_name(Place place);

/// One sentence to the person; gone after a while or when pressed.
struct Notice {
  std::string words;
  bool trouble = false;
  std::string link;  ///< a file it is about; may be empty
  double seen_s = -1.0;  ///< when it was first shown, by the window's clock
};

/// Shooting with the microphone open.
struct Hearing {
  std::shared_ptr<intake::Listening> ears;   ///< null: not listening
  std::string setup;
  std::string source;                        ///< its name, once it is open
  std::int64_t block = 0;                    ///< the one being shot; 0: not begun yet
  std::string trouble;                       ///< what stands in the way now; empty: nothing
  std::optional<intake::ShotMeasured> last;  ///< the newest numbers
  std::optional<double> peak_db;             ///< highest |sample| of the newest shot, re full scale
  int shots = 0;                             ///< kept since listening began that count
  bool stopping = false;
};

/// What the window is about, without any drawing: views show it and call it. Everything slow happens on two lanes, each with
/// its own connection to the logbook: `quick` for what a person waits for, `slow` for long work. All members belong to the
/// window's thread. Tests: desk.Desk.*
class Desk {
 public:
  /// `sound` null: no devices (tests).
  Desk(Preferences kept, std::function<void()> wake, std::shared_ptr<SoundPort> sound = nullptr);
  ~Desk();

  Preferences preferences;
  Place place = Place::book;
  std::shared_ptr<const BookSheet> book;  ///< null: none is open
  std::shared_ptr<const ShotSheet> shot;  ///< of `chosen`, once it is read
  std::optional<std::int64_t> chosen;     ///< the shot looked at
  std::deque<Notice> notices;

  /// Takes over what the lanes have finished; true when something changed.
  bool tick();
  void say(std::string words, bool trouble = false, std::string link = {});

  /// Opens a logbook; a sound file is kept for add_recording instead (`dropped_sound`).
  void open(const std::string& path);
  void start(const std::string& path, const logbook::Conditions& conditions);
  /// An invented evening as a logbook of its own at `path`, opened when it is there.
  void make_demo(const std::string& path);
  void close();
  /// Not while something is heard into it: that is said, and false.
  bool may_leave_book();
  std::optional<std::string> dropped_sound;
  std::string damaged;  ///< the logbook that could not be read whole when it was opened last; empty: it could
  /// Makes a logbook beside a damaged one of all that can be read of it, and opens that; the damaged one stays as it is.
  void rescue(const std::string& path);

  void add_setup(const logbook::SetUp& setup);
  /// What is added from now on belongs to a new session.
  void start_session(const logbook::Conditions& conditions);
  /// Measures a recording and keeps it as a block; a set-up that is not there is made.
  void add_recording(const std::string& file, const intake::BlockPlace& where, const std::string& changed = {});

  void choose(std::optional<std::int64_t> shot_id);
  /// The next (+1) or the one before (-1) in shooting order.
  void step(int by);
  std::optional<ShotAt> chosen_at() const;

  void comment(std::int64_t shot_id, const logbook::Comment& comment);
  /// Ratings and words of `now` in place of those of `was`.
  void change_comment(std::int64_t shot_id, const logbook::Comment& was, const logbook::Comment& now);
  void remove_comment(std::int64_t shot_id, const logbook::Comment& comment);
  void drop_shot(std::int64_t shot_id, const std::string& reason);
  void drop_block(std::int64_t block, const std::string& reason);
  /// The block was shot with another set-up than was said.
  void move_block(std::int64_t block, const std::string& setup);
  /// Corrections of the finder are kept in the logbook as such.
  void not_a_shot(std::int64_t shot_id);
  /// The loud edge is `by_s` later than found; the shot is measured again.
  void move_edge(std::int64_t shot_id, double by_s);
  /// The finder missed a shot with its edge at `edge_s` of the block's recording, which is in `file` now; it is kept and measured.
  void add_missed_shot(std::int64_t block, double edge_s, const std::string& file);
  bool adding = false;                       ///< the Book's sheet is for adding a recording
  std::optional<std::int64_t> looked_into;   ///< else the block that has it, if any
  std::shared_ptr<const Overview> overview;  ///< of the recording asked for last
  void look_over(const logbook::KeptBlock& block, const std::string& file);
  /// A recording that no block is made of yet.
  void look_into(const std::string& file);
  /// Measures those shots again that another version measured; all of them or, when it is stopped, none.
  void remeasure_older();
  void undo();
  /// What undo would take back; empty: nothing.
  std::string undo_words() const;

  std::shared_ptr<const CompareSheet> comparison;
  std::string compare_trouble;  ///< why there is none; empty while it is on its way
  bool compare_stopped = false;  ///< the shots were not all listened to: the comparison is a first look
  /// Compares when the logbook has changed since the last time.
  void need_comparison();
  void compare_again();
  /// Writes the comparison as a page (.html), a paper (.pdf), a table (.csv) or for programs (.json).
  void write_report(const std::string& path);
  /// Writes everything the logbook holds as open files into a new folder.
  void export_all(const std::string& folder);

  std::shared_ptr<const SeasonSheet> season;
  bool season_stopped = false;
  /// Reads the season when the logbook has changed since the last time.
  void need_season();
  void read_season_again();

  std::shared_ptr<const RunningSheet> running;  ///< of the block asked for last; null: it is not read yet
  /// What a block's shots said, read when it has changed since the last time.
  void need_running(std::int64_t block);

  Hearing hearing;
  std::vector<audio::Device> microphones;
  void look_for_microphones();
  /// Listens for shots of a set-up from now on; `open` is called on another thread, again after a loss.
  void listen(const std::string& setup, const std::string& note, audio::OpenSource open);
  /// From a microphone by its name; empty: the usual one.
  void listen_to_microphone(const std::string& setup, const std::string& note, const std::string& device);
  void stop_listening();
  /// Some seconds of quiet, a clap, quiet again: what the chain is good for, into `chain_lines`. Tells what to do in busy().what.
  void check_chain(const std::string& device);
  std::vector<std::string> chain_lines;

  void play(std::vector<float> samples, double sample_rate_hz);
  void stop_playing();
  bool playing() const;
  /// Does the picture change by itself: work, listening, playing?
  bool restless() const;

  /// Waits until both lanes are idle and everything is applied; for tests and for closing.
  void settle();

  using Change = std::function<void(logbook::Logbook&)>;
  /// Changes the open logbook on the quick lane and reads it again. `back` undoes it; `done` is said once it is done.
  void edit(std::string what, Change change, Change back = {}, std::string done = {});

  /// Counts up whenever `book` is another.
  int revision = 0;

 private:
  void show(std::shared_ptr<const BookSheet> sheet, bool newly_opened);
  void read_chosen();
  void read_recording(std::int64_t block, std::optional<int> channel, const std::string& file);
  bool hear();
  void read_again();
  /// What a person asks for goes first; the comparison begins anew when it is needed again.
  void put_off_comparison();
  /// What a person did on another lane than edit's can be undone too.
  void can_undo(const std::string& path, std::string what, Change back);
  /// Chooses a shot once what is being read has been read.
  void look_at(std::int64_t shot_id);

  struct Undo {
    std::string what;
    Change back;
  };
  std::vector<Undo> undo_;
  std::uint64_t sheets_ = 0;
  int compared_revision_ = -1;
  int season_revision_ = -1;
  std::string compared_number_;
  RunningQuestion running_question_;
  std::shared_ptr<SoundPort> sound_;
  std::unique_ptr<audio::Playback> playback_;

 public:
  // Last, so that they end first: what runs on them may still reach for the rest.
  Lane quick;
  Lane slow;
};

}  // namespace ringfall::desk
