// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/page.h"

#include <fmt/format.h>

#include "plot/text_width.h"
#include "report/html.h"
#include "report/page_style.h"

namespace ringfall::report {

std::string html_page(const Document& document) {
  const std::string title = plot::xml_text(document.title);
  std::string page = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>{}</title>\n<style>{}</style>\n"
      "</head>\n<body>\n<main>\n<h1>{}</h1>\n",
      title, kPageStyle, title);
  for (const auto& piece : document.opening) page += html_piece(piece);
  for (const auto& section : document.sections) page += html_section(section);
  return page + "</main>\n</body>\n</html>\n";
}

}  // namespace ringfall::report
