// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/paper.h"

#include <algorithm>

#include "plot/layout.h"
#include "plot/text_fit.h"
#include "plot/text_width.h"
#include "report/paper_flow.h"
#include "report/paper_table.h"

namespace ringfall::report {
namespace {

constexpr double kTitle_pt = 16.0;
constexpr double kHeading_pt = 12.0;
constexpr double kVerdict_pt = 10.5;
constexpr double kBody_pt = 9.0;
constexpr double kSmall_pt = 8.0;
constexpr double kTable_pt = 7.2;
constexpr double kBetween_pt = 6.0;
constexpr double kColumnGap_pt = 18.0;
/// A figure alone on its row may grow this much.
constexpr double kLargest = 1.25;
/// A single row of figures that does not quite fit is made this much smaller rather than leave a sheet half empty.
constexpr double kSmallest = 0.62;
/// A heading stays with this much of a table, or of a list.
constexpr double kTableBegins_pt = 75.0;
constexpr double kPointsBegin_pt = 30.0;

void put(PaperFlow& flow, const Words& words) {
  const bool small = words.style == WordsStyle::small;
  const double size_pt = words.style == WordsStyle::verdict ? kVerdict_pt : small ? kSmall_pt : kBody_pt;
  flow.text(words.text, size_pt, small ? plot::Ink::muted : plot::Ink::text);
}

void put(PaperFlow& flow, const Points& points) {
  for (const auto& item : points.items) {
    flow.need(kBody_pt * plot::kLineSpacing);
    flow.line("\xe2\x80\xa2", 2.0, 0.0, kBody_pt, plot::Ink::text, plot::Anchor::start);
    flow.text(item, kBody_pt, plot::Ink::text, 12.0);
    flow.skip(1.5);
  }
}

void put_row(PaperFlow& flow, const PaperTable& laid, const std::vector<PaperTable::Cell>& row, const Table& table, bool head) {
  constexpr double kLine_pt = kTable_pt * plot::kLineSpacing;
  const std::size_t lines = PaperTable::lines_of(row);
  for (std::size_t k = 0; k < row.size(); ++k) {
    const bool number = table.columns[k].number;
    const double x_pt = laid.left_pt[k] + (number ? laid.width_pt[k] : 0.0);
    // Heads stand on the line they share.
    const std::size_t above = head ? lines - row[k].size() : 0;
    for (std::size_t n = 0; n < row[k].size(); ++n) {
      flow.line(row[k][n], x_pt, 1.5 + static_cast<double>(above + n) * kLine_pt, kTable_pt,
                head ? plot::Ink::muted : plot::Ink::text, number ? plot::Anchor::end : plot::Anchor::start);
    }
  }
  flow.advance(static_cast<double>(lines) * kLine_pt + 3.0);
  flow.rule(0.0, PaperFlow::kWidth_pt, head ? 0.8 : 0.4, head ? plot::Ink::frame : plot::Ink::grid);
}

void put(PaperFlow& flow, const Table& table) {
  const auto laid = paper_table(table, PaperFlow::kWidth_pt, kTable_pt);
  const auto height = [](const std::vector<PaperTable::Cell>& row) {
    return static_cast<double>(PaperTable::lines_of(row)) * kTable_pt * plot::kLineSpacing + 3.0;
  };
  const double begin_pt = height(laid.head) + (laid.rows.empty() ? 0.0 : height(laid.rows.front()));
  flow.need(begin_pt + 3.0 * kSmall_pt);
  flow.text(table.caption, kSmall_pt, plot::Ink::muted);
  flow.need(begin_pt);
  put_row(flow, laid, laid.head, table, true);
  for (const auto& row : laid.rows) {
    if (height(row) > flow.room_pt()) {
      flow.new_sheet();
      put_row(flow, laid, laid.head, table, true);
    }
    put_row(flow, laid, row, table, false);
  }
}

/// A figure laid out, with its scale and caption.
struct SetFigure {
  plot::Picture picture;
  double scale = 1.0;
  std::vector<std::string> caption;
  double height_pt() const {
    return scale * picture.height_pt + static_cast<double>(caption.size()) * kSmall_pt * plot::kLineSpacing + 2.0;
  }
};

SetFigure set_figure(const Drawn& drawn, double width_pt) {
  SetFigure set;
  set.picture = plot::layout(drawn.figure).picture;
  const double most_height_pt = 0.24 * PaperFlow::kHeight_pt;
  set.scale = std::min({kLargest, width_pt / set.picture.width_pt, most_height_pt / set.picture.height_pt});
  set.caption = plot::wrapped(drawn.caption, width_pt, kSmall_pt, 10, plot::text_width);
  return set;
}

std::size_t columns_of(const Drawings& drawings) {
  const std::size_t most = drawings.across == Across::one ? 1 : drawings.across == Across::two ? 2 : 3;
  return std::min(most, std::max<std::size_t>(1, drawings.figures.size()));
}

double width_of(const Drawings& drawings) {
  const auto columns = static_cast<double>(columns_of(drawings));
  return (PaperFlow::kWidth_pt - (columns - 1.0) * kColumnGap_pt) / columns;
}

/// The figures from `first` on that stand side by side.
std::vector<SetFigure> set_row(const Drawings& drawings, std::size_t first) {
  std::vector<SetFigure> row;
  for (std::size_t k = first; k < std::min(first + columns_of(drawings), drawings.figures.size()); ++k) {
    row.push_back(set_figure(drawings.figures[k], width_of(drawings)));
  }
  return row;
}

double height_of(const std::vector<SetFigure>& row) {
  double height_pt = 0.0;
  for (const SetFigure& set : row) height_pt = std::max(height_pt, set.height_pt());
  return height_pt;
}

void put(PaperFlow& flow, const Drawings& drawings) {
  const std::size_t columns = columns_of(drawings);
  const double width_pt = width_of(drawings);
  for (std::size_t first = 0; first < drawings.figures.size(); first += columns) {
    auto row = set_row(drawings, first);
    double height_pt = height_of(row);
    // Rows that belong together keep one size, to be held against each other.
    const bool alone = drawings.figures.size() <= columns;
    if (alone && height_pt > flow.room_pt() && kSmallest * height_pt <= flow.room_pt()) {
      // The captions keep their size, so that the pictures give way a little more.
      const double smaller = (flow.room_pt() - 1.0) / height_pt;
      for (SetFigure& set : row) {
        const double caption_pt = set.height_pt() - set.scale * set.picture.height_pt;
        set.scale = std::min(set.scale, std::max(0.5 * set.scale, (smaller * height_pt - caption_pt) / set.picture.height_pt));
      }
      height_pt = height_of(row);
    }
    flow.need(height_pt);
    for (std::size_t k = 0; k < row.size(); ++k) {
      const double x_pt = static_cast<double>(k) * (width_pt + kColumnGap_pt);
      flow.picture(row[k].picture, x_pt, 0.0, row[k].scale);
      double down_pt = row[k].scale * row[k].picture.height_pt;
      for (const auto& line : row[k].caption) {
        flow.line(line, x_pt, down_pt, kSmall_pt, plot::Ink::muted, plot::Anchor::start);
        down_pt += kSmall_pt * plot::kLineSpacing;
      }
    }
    flow.advance(height_pt);
    flow.skip(kBetween_pt);
  }
}

void put(PaperFlow&, const Sounds&) {}

/// How much of a section must stand under its heading: its leading words and the beginning of what comes then.
double begins_pt(const Section& section) {
  double height_pt = 0.0;
  for (const auto& piece : section.pieces) {
    if (const auto* words = std::get_if<Words>(&piece)) {
      constexpr std::size_t kMostLines = 12;
      const double size_pt = words->style == WordsStyle::small ? kSmall_pt : kBody_pt;
      const auto lines = plot::wrapped(words->text, PaperFlow::kWidth_pt, size_pt, kMostLines, plot::text_width);
      height_pt += static_cast<double>(lines.size()) * size_pt * plot::kLineSpacing + kBetween_pt;
      continue;
    }
    if (std::holds_alternative<Table>(piece)) return height_pt + kTableBegins_pt;
    if (const auto* drawings = std::get_if<Drawings>(&piece)) return height_pt + kSmallest * height_of(set_row(*drawings, 0));
    return height_pt + kPointsBegin_pt;
  }
  return height_pt;
}

bool on_paper(const Piece& piece) {
  if (const auto* points = std::get_if<Points>(&piece)) return points->faces == Faces::all;
  if (const auto* table = std::get_if<Table>(&piece)) return table->faces == Faces::all;
  if (const auto* drawings = std::get_if<Drawings>(&piece)) return drawings->faces == Faces::all;
  return !std::holds_alternative<Sounds>(piece);
}

/// Something of it is on paper, and it is not about what only sounds.
bool printable(const Section& section) {
  return std::ranges::any_of(section.pieces, on_paper) &&
         std::ranges::none_of(section.pieces, [](const Piece& piece) { return std::holds_alternative<Sounds>(piece); });
}

void put_all(PaperFlow& flow, const std::vector<Piece>& pieces) {
  for (const auto& piece : pieces) {
    if (!on_paper(piece)) continue;
    std::visit([&](const auto& kind) { put(flow, kind); }, piece);
    flow.skip(kBetween_pt);
  }
}

}  // namespace

std::vector<plot::Picture> paper_sheets(const Document& document) {
  PaperFlow flow;
  flow.text(document.title, kTitle_pt);
  flow.skip(kBetween_pt);
  put_all(flow, document.opening);
  for (const auto& section : document.sections) {
    if (!printable(section)) continue;
    flow.skip(kBetween_pt);
    flow.need(kHeading_pt * plot::kLineSpacing + 4.0 + begins_pt(section));
    flow.text(section.heading, kHeading_pt);
    flow.rule(0.0, PaperFlow::kWidth_pt, 0.8, plot::Ink::frame);
    flow.advance(4.0);
    put_all(flow, section.pieces);
  }
  const bool short_of = std::ranges::any_of(document.sections, [](const Section& section) { return !std::ranges::all_of(section.pieces, on_paper); });
  if (short_of) {
    flow.skip(kBetween_pt);
    flow.text("The page (.html) of this report has more: spectrograms, every shot with what was said of it, sounds.", kSmall_pt, plot::Ink::muted);
  }
  return std::move(flow).finished(document.title);
}

}  // namespace ringfall::report
