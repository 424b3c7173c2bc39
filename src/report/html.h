// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "plot/figure.h"

namespace ringfall::report {

/// Pieces of an HTML page that is also well-formed XML. Every text given here is foreign and comes out escaped.
/// Tests: report.Page.*

std::string html_paragraph(std::string_view text, std::string_view style_class = {});
std::string html_list(const std::vector<std::string>& items);

/// A section under a heading of the second rank; `body` is HTML already.
std::string html_section(std::string_view id, std::string_view heading, std::string_view body);

/// A figure with its caption. `id` is unique in the page; `description` is for people who can't see it.
std::string html_figure(const plot::Figure& figure, std::string_view id, std::string_view description,
                        std::string_view caption);

/// A table with a caption; the first column heads its row.
class HtmlTable {
 public:
  explicit HtmlTable(std::string_view caption);
  void add_column(std::string_view head, bool number);
  void add_row(const std::vector<std::string>& cells);
  std::string html() const;

 private:
  struct Column {
    std::string head;
    bool number;
  };
  std::string caption_;
  std::vector<Column> columns_;
  std::string rows_;
};

}  // namespace ringfall::report
