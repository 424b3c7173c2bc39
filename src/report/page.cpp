// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/page.h"

#include <fmt/format.h>

#include "plot/text_width.h"
#include "report/html.h"
#include "report/page_parts.h"
#include "report/page_style.h"

namespace ringfall::report {

std::string html_page(const SessionReport& report) {
  const std::string title = plot::xml_text(report.title);
  std::string page = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>{}</title>\n<style>{}</style>\n"
      "</head>\n<body>\n<main>\n<h1>{}</h1>\n",
      title, kPageStyle, title);
  for (const auto& verdict : report.verdicts) page += html_paragraph(verdict, "verdict");
  page += html_paragraph("What one microphone heard of the bow, shot by shot. Negative differences mean less of it than with "
                         "the baseline.",
                         "small");
  page += setups_part(report);
  page += shots_part(report);
  page += numbers_part(report);
  page += sound_part(report);
  page += listening_part(report);
  page += words_part(report);
  page += doubts_part(report);
  page += limits_part(report);
  page += chain_part(report);
  page += cautions_part();
  return page + "</main>\n</body>\n</html>\n";
}

}  // namespace ringfall::report
