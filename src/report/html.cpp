// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/html.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "base/base64.h"
#include "base/check.h"
#include "plot/layout.h"
#include "plot/text_width.h"
#include "plot/write.h"

namespace ringfall::report {
namespace {

using plot::xml_text;

std::string html_of(const Words& words) {
  switch (words.style) {
    case WordsStyle::plain: return fmt::format("<p>{}</p>\n", xml_text(words.text));
    case WordsStyle::verdict: return fmt::format("<p class=\"verdict\">{}</p>\n", xml_text(words.text));
    case WordsStyle::small: return fmt::format("<p class=\"small\">{}</p>\n", xml_text(words.text));
  }
  check(false, "a style of words is one of the list");
  return {};
}

std::string html_of(const Points& points) {
  std::string html = "<ul>\n";
  for (const auto& item : points.items) html += fmt::format("<li>{}</li>\n", xml_text(item));
  return html + "</ul>\n";
}

/// A column of sentences needs room; one of short entries must not take it.
const char* class_of(const Table& table, std::size_t column) {
  constexpr std::size_t kShort = 16;
  if (table.columns[column].number) return " class=\"number\"";
  const bool wordy = std::ranges::any_of(table.rows, [&](const auto& row) { return row[column].size() > kShort; });
  return wordy ? " class=\"words\"" : "";
}

std::string html_of(const Table& table) {
  std::string html = fmt::format("<div class=\"wide\" tabindex=\"0\"><table>\n<caption><span>{}</span></caption>\n<thead><tr>",
                                 xml_text(table.caption));
  for (const auto& column : table.columns) {
    html += fmt::format("<th scope=\"col\"{}>{}</th>", column.number ? " class=\"number\"" : "", xml_text(column.head));
  }
  html += "</tr></thead>\n<tbody>\n";
  for (const auto& cells : table.rows) check(cells.size() == table.columns.size(), "a row has a cell for every column");
  std::vector<const char*> classes;
  for (std::size_t k = 0; k < table.columns.size(); ++k) classes.push_back(class_of(table, k));
  for (const auto& cells : table.rows) {
    html += "<tr>";
    for (std::size_t k = 0; k < cells.size(); ++k) {
      html += k == 0 ? fmt::format("<th scope=\"row\"{}>{}</th>", classes[k], xml_text(cells[k]))
                     : fmt::format("<td data-head=\"{}\"{}>{}</td>", xml_text(table.columns[k].head), classes[k], xml_text(cells[k]));
    }
    html += "</tr>\n";
  }
  return html + "</tbody>\n</table></div>\n";
}

std::string html_of(const Drawings& drawings) {
  std::string html = fmt::format("<div class=\"{}\">\n", drawings.across == Across::one ? "one" : drawings.across == Across::two ? "pictures" : "three");
  for (const auto& drawn : drawings.figures) {
    const auto picture = plot::layout(drawn.figure).picture;
    html += fmt::format("<figure>\n{}<figcaption>{}</figcaption>\n</figure>\n",
                        plot::svg_text(picture, plot::Theme::light, drawn.id, drawn.description), xml_text(drawn.caption));
  }
  return html + "</div>\n";
}

std::string html_of(const Sounds& sounds) {
  std::string html = "<div class=\"pictures\">\n";
  for (const auto& played : sounds.sounds) {
    html += fmt::format(
        "<figure class=\"sound\">\n<figcaption>{0}</figcaption>\n<audio controls=\"controls\" preload=\"none\" "
        "aria-label=\"{0}\" src=\"data:{1};base64,{2}\"></audio>\n</figure>\n",
        xml_text(played.label), played.media_type, base64_text(played.bytes));
  }
  return html + "</div>\n";
}

}  // namespace

std::string html_piece(const Piece& piece) {
  return std::visit([](const auto& kind) { return html_of(kind); }, piece);
}

std::string html_section(const Section& section) {
  std::string html = fmt::format("<section id=\"{0}\" aria-labelledby=\"{0}-head\">\n<h2 id=\"{0}-head\">{1}</h2>\n", section.id,
                                 xml_text(section.heading));
  for (const auto& piece : section.pieces) html += html_piece(piece);
  return html + "</section>\n";
}

}  // namespace ringfall::report
