// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/answer_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "base/text.h"
#include "report/answer_words.h"
#include "report/sentences.h"
#include "terminal/text_table.h"

namespace ringfall::terminal {
namespace {

constexpr std::size_t kDoubtsAtFirst = 3;

std::string counted_session(const compare::Session& session) {
  std::size_t shots = 0;
  for (const auto* block : session.kept()) shots += block->shots.size();
  return fmt::format("{} in {}", counted(shots, "shot"), counted(session.kept().size(), "block"));
}

/// Lines of one kind under their heading; nothing without lines.
class Page {
 public:
  Page(std::size_t width, const Ink& ink) : width_(width), ink_(ink) {}

  void line(const std::string& text, std::size_t indent = 2) {
    out_ += std::string(indent, ' ') + wrapped(text, width_ - indent - 2, indent + 2) + "\n";
  }
  void heading(const std::string& text, const std::string& aside = "") {
    if (!out_.empty()) out_ += "\n";
    const bool fits = text.size() + aside.size() + 2 <= width_;
    out_ += ink_.strong(wrapped(text, width_ - 2, 2)) + (aside.empty() || !fits ? "" : "  " + ink_.quiet(aside)) + "\n";
    if (!aside.empty() && !fits) out_ += ink_.quiet("  " + wrapped(aside, width_ - 4, 2)) + "\n";
  }
  void part(const std::string& head, const std::vector<std::string>& lines) {
    if (lines.empty()) return;
    heading(head);
    for (const auto& text : lines) line(text);
  }
  std::string take() { return std::move(out_); }

 private:
  std::size_t width_;
  const Ink& ink_;
  std::string out_;
};

std::vector<std::string> what_else(const compare::Comparison& comparison) {
  std::vector<std::string> lines;
  for (std::size_t k = 0; k < comparison.against.size() && k < comparison.answers.size(); ++k) {
    const auto others = report::else_texts(comparison.answers[k]);
    if (!others.empty()) lines.push_back(fmt::format("{}: {}.", comparison.answers[k].setup, report::listed(others)));
  }
  return lines;
}

std::vector<std::string> doubts(const compare::Comparison& comparison, bool all) {
  auto texts = report::doubt_texts(comparison);
  if (all) {
    texts.clear();
    for (const auto& finding : comparison.findings) texts.push_back(finding.sentence);
  }
  if (all || texts.size() <= kDoubtsAtFirst + 1) return texts;
  const std::size_t more = texts.size() - kDoubtsAtFirst;
  texts.resize(kDoubtsAtFirst);
  texts.push_back(fmt::format("And {} more: see --all.", more));
  return texts;
}

}  // namespace

std::string answer_page(const compare::Comparison& comparison, const compare::Session& session, bool all, std::size_t width, const Ink& ink) {
  Page page(width, ink);
  page.heading(report::asked(comparison), fmt::format("({}; against '{}')", counted_session(session), comparison.baseline));
  page.line(ink.strong(report::headline(comparison)));
  page.line("", 0);
  for (const auto& answer : comparison.answers) {
    if (answer.against_control) continue;
    page.line(answer.setup + ": " + report::answer_text(answer));
    for (const auto& fair : comparison.answers) {
      if (!fair.against_control || fair.setup != answer.setup) continue;
      page.line(fmt::format("Against the same mass, '{}': {}", fair.against, report::answer_text(fair)), 4);
    }
  }
  std::vector<std::string> rankings;
  for (const auto& ranking : comparison.rankings) {
    if (auto text = report::ranking_text(ranking); !text.empty() && comparison.setups.size() > 2) rankings.push_back(std::move(text));
  }
  page.part("All of them", rankings);
  page.part("What else changed", what_else(comparison));
  page.part("How sure", {report::sureness_text(comparison)});
  auto next = report::next_texts(comparison);
  for (const auto& against : comparison.against) {
    if (comparison.wanted_difference) next.push_back(against.setup + ": " + report::wanted_sentence(comparison, against));
  }
  page.part("What next", next);
  page.part("Words against numbers", report::rating_texts(session, comparison.baseline));
  page.part("Doubts", doubts(comparison, all));
  return page.take();
}

}  // namespace ringfall::terminal
