// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <exception>
#include <filesystem>

#include "base/failure.h"
#include "desk/desk.h"
#include "plot/write.h"
#include "report/page.h"
#include "report/paper.h"
#include "report/session_document.h"

namespace ringfall::desk {

void Desk::need_comparison() {
  if (!book || (compared_revision_ == revision && compared_number_ == preferences.main_number)) return;
  compare_again();
}

void Desk::compare_again() {
  if (!book) return;
  compared_revision_ = revision;
  compared_number_ = preferences.main_number;
  compare_trouble.clear();
  slow.cancel();
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
  slow.post("listening to every shot", [this, fresh, path = book->path, main = preferences.main_number,
                                       number = ++sheets_](Ticket& ticket) -> Lane::Result {
    std::shared_ptr<const CompareSheet> sheet;
    try {
      sheet = compare_sounds(logbook::Logbook(path), main, number, ticket);
    } catch (const RequestFailure&) {
      return {};  // the first look has said so already
    }
    return [this, fresh, sheet] {
      if (fresh() && sheet) comparison = sheet;
    };
  });
}

void Desk::need_season() {
  if (!book || season_revision_ == revision) return;
  season_revision_ = revision;
  slow.post("reading the season", [this, path = book->path, of = revision](Ticket& ticket) -> Lane::Result {
    auto sheet = read_season(logbook::Logbook(path), ticket);
    return [this, sheet, of] {
      if (sheet && season_revision_ == of) season = sheet;
    };
  });
}

void Desk::write_report(const std::string& path) {
  if (!book) return;
  need_comparison();
  slow.post("writing " + std::filesystem::path(path).filename().string(),
            [this, path, from = book->path, main = preferences.main_number, number = ++sheets_,
             ready = comparison](Ticket& ticket) -> Lane::Result {
              auto sheet = ready;
              if (!sheet || !sheet->with_sound) sheet = compare_sounds(logbook::Logbook(from), main, number, ticket);
              if (!sheet) return [this] { say("Stopped; no report was written."); };
              const auto document = report::session_document(sheet->report);
              const bool paper = std::filesystem::path(path).extension() == ".pdf";
              plot::write_whole_file(path, paper ? plot::pdf_bytes(report::paper_sheets(document), plot::Theme::light, document.title)
                                                 : report::html_page(document));
              return [this, path] { say("Written: " + path, false, path); };
            });
}

}  // namespace ringfall::desk
