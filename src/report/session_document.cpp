// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/session_document.h"

#include <utility>

#include "report/document_parts.h"

namespace ringfall::report {

Document session_document(const SessionReport& report) {
  Document document;
  document.title = report.title;
  for (const auto& verdict : report.verdicts) document.opening.emplace_back(Words{verdict, WordsStyle::verdict});
  document.opening.emplace_back(Words{"What one microphone heard of the bow, shot by shot. Negative differences mean less of it "
                                      "than with the baseline.",
                                      WordsStyle::small});
  Section parts[] = {setups_part(report), shots_part(report), numbers_part(report), sure_part(report),  sound_part(report),
                     listening_part(report), words_part(report), doubts_part(report),  limits_part(report), chain_part(report),
                     cautions_part()};
  for (auto& part : parts) {
    if (!part.pieces.empty()) document.sections.push_back(std::move(part));
  }
  return document;
}

}  // namespace ringfall::report
