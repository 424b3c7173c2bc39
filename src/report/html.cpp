// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/html.h"

#include <fmt/format.h>

#include "base/check.h"
#include "plot/layout.h"
#include "plot/text_width.h"
#include "plot/write.h"

namespace ringfall::report {

using plot::xml_text;

std::string html_paragraph(std::string_view text, std::string_view style_class) {
  if (style_class.empty()) return fmt::format("<p>{}</p>\n", xml_text(text));
  return fmt::format("<p class=\"{}\">{}</p>\n", style_class, xml_text(text));
}

std::string html_list(const std::vector<std::string>& items) {
  if (items.empty()) return {};
  std::string html = "<ul>\n";
  for (const auto& item : items) html += fmt::format("<li>{}</li>\n", xml_text(item));
  return html + "</ul>\n";
}

std::string html_section(std::string_view id, std::string_view heading, std::string_view body) {
  return fmt::format("<section id=\"{0}\" aria-labelledby=\"{0}-head\">\n<h2 id=\"{0}-head\">{1}</h2>\n{2}</section>\n", id,
                     xml_text(heading), body);
}

std::string html_figure(const plot::Figure& figure, std::string_view id, std::string_view description,
                        std::string_view caption) {
  const auto picture = plot::layout(figure).picture;
  return fmt::format("<figure>\n{}<figcaption>{}</figcaption>\n</figure>\n",
                     plot::svg_text(picture, plot::Theme::light, id, description), xml_text(caption));
}

HtmlTable::HtmlTable(std::string_view caption) : caption_(caption) {}

void HtmlTable::add_column(std::string_view head, bool number) { columns_.push_back({std::string(head), number}); }

void HtmlTable::add_row(const std::vector<std::string>& cells) {
  check(cells.size() == columns_.size(), "a row has a cell for every column");
  rows_ += "<tr>";
  for (std::size_t k = 0; k < cells.size(); ++k) {
    const char* number = columns_[k].number ? " class=\"number\"" : "";
    rows_ += k == 0 ? fmt::format("<th scope=\"row\"{}>{}</th>", number, xml_text(cells[k]))
                    : fmt::format("<td{}>{}</td>", number, xml_text(cells[k]));
  }
  rows_ += "</tr>\n";
}

std::string HtmlTable::html() const {
  std::string html = fmt::format("<div class=\"wide\" tabindex=\"0\"><table>\n<caption><span>{}</span></caption>\n<thead><tr>",
                                 xml_text(caption_));
  for (const Column& column : columns_) {
    html += fmt::format("<th scope=\"col\"{}>{}</th>", column.number ? " class=\"number\"" : "", xml_text(column.head));
  }
  return html + "</tr></thead>\n<tbody>\n" + rows_ + "</tbody>\n</table></div>\n";
}

}  // namespace ringfall::report
