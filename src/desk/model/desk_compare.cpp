// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <exception>
#include <filesystem>

#include "base/failure.h"
#include "base/text.h"
#include "desk/model/desk.h"
#include "logbook/export.h"
#include "plot/write.h"
#include "report/report_file.h"

namespace ringfall::desk {
namespace {

constexpr const char* kListening = "listening to every shot";
constexpr const char* kSeason = "reading the season";

}  // namespace

void Desk::need_comparison() {
  if (!book || !book->hidden.empty() || (compared_revision_ == revision && compared_number_ == preferences.main_number)) return;
  compare_again();
}

void Desk::compare_again() {
  if (!book || !book->hidden.empty()) return;
  compared_revision_ = revision;
  compared_number_ = preferences.main_number;
  compare_trouble.clear();
  compare_stopped = false;
  slow.cancel(kListening);
  const auto fresh = [this, of = revision, number = preferences.main_number] {
    return compared_revision_ == of && compared_number_ == number;
  };
  quick.post("comparing", [this, fresh, path = book->path, main = preferences.main_number, number = ++sheets_](Ticket&) -> Lane::Result {
    try {
      auto sheet = compare_numbers(logbook::Logbook(path), main, number);
      return [this, fresh, sheet] {
        if (fresh()) comparison = sheet;
      };
    } catch (const std::exception& failure) {
      return [this, fresh, words = std::string(failure.what())] {
        if (!fresh()) return;
        comparison.reset();
        compare_trouble = words;
      };
    }
  });
  slow.post(kListening, [this, fresh, path = book->path, main = preferences.main_number,
                                       number = ++sheets_](Ticket& ticket) -> Lane::Result {
    std::shared_ptr<const CompareSheet> sheet;
    try {
      sheet = compare_sounds(logbook::Logbook(path), main, number, ticket);
    } catch (const Failure&) {
      return {};  // the first look has said so already
    }
    return [this, fresh, sheet] {
      if (!fresh()) return;
      if (sheet) comparison = sheet;
      else compare_stopped = true;
    };
  });
}

void Desk::put_off_comparison() {
  slow.cancel(kListening);
  compared_revision_ = -1;
}

void Desk::need_season() {
  if (book && book->hidden.empty() && season_revision_ != revision) read_season_again();
}

void Desk::read_season_again() {
  season_revision_ = revision;
  season_stopped = false;
  slow.cancel(kSeason);
  slow.post(kSeason, [this, path = book->path, of = revision](Ticket& ticket) -> Lane::Result {
    auto sheet = read_season(logbook::Logbook(path), ticket);
    return [this, sheet, of] {
      if (season_revision_ != of) return;
      if (sheet) season = sheet;
      else season_stopped = true;
    };
  });
}

void Desk::write_report(const std::string& path) {
  if (!book || !book->hidden.empty()) return;
  need_comparison();
  slow.post("writing " + std::filesystem::path(path).filename().string(),
            [this, path, from = book->path, main = preferences.main_number, number = ++sheets_,
             ready = comparison](Ticket& ticket) -> Lane::Result {
              auto sheet = ready;
              if (!sheet || !sheet->with_sound) sheet = compare_sounds(logbook::Logbook(from), main, number, ticket);
              ticket.report(0.96);  // where a comparison read with its sound has got to
              double share = 0.96;
              const std::string bytes = !sheet ? std::string() : report::report_file(sheet->report, path, [&] {
                ticket.report(share += 0.01);
                return !ticket.cancelled();
              });
              if (ticket.cancelled()) return [this] { say("Stopped; nothing was written."); };
              plot::write_whole_file(path, bytes);
              return [this, path] { say("Written: " + path, false, path); };
            });
}

void Desk::export_all(const std::string& folder) {
  if (!book || !book->hidden.empty()) return;
  put_off_comparison();
  slow.post("writing everything out", [this, folder, from = book->path](Ticket& ticket) -> Lane::Result {
    const auto exported = logbook::export_folder(logbook::Logbook(from), folder, [&ticket](double share) {
      ticket.report(share);
      return !ticket.cancelled();
    });
    if (exported.stopped) return [this] { say("Stopped; what was written is taken away again."); };
    return [this, folder, exported] {
      if (!exported.lost.empty()) {
        say(fmt::format("The logbook is damaged: {} can't be read and {} left out (README.txt names them). What can be read is in {}: {}. Take a "
                        "backup if you have one; else `ringfall import` makes a whole logbook of that folder.",
                        counted(exported.lost.size(), "shot"), exported.lost.size() == 1 ? "is" : "are", folder, counted(exported.shots, "shot")),
            true, folder);
        return;
      }
      say(fmt::format("{} and {} files written to {}", counted(exported.shots, "sound"), exported.files - exported.shots, folder), false, folder);
    };
  });
}

}  // namespace ringfall::desk
