// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/session_document.h"

#include <utility>

#include "report/document_parts.h"

namespace ringfall::report {

Document session_document(const SessionReport& report) {
  Document document;
  document.title = report.title;
  document.opening = opening_part(report);
  Section parts[] = {setups_part(report), shots_part(report), numbers_part(report), sure_part(report),  sound_part(report),
                     listening_part(report), words_part(report), doubts_part(report),  limits_part(report), chain_part(report),
                     cautions_part()};
  for (auto& part : parts) {
    if (!part.pieces.empty()) document.sections.push_back(std::move(part));
  }
  return document;
}

}  // namespace ringfall::report
