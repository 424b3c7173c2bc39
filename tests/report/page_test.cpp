// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/page.h"

#include <gtest/gtest.h>

#include <regex>

#include "base/local_time.h"
#include "report/example_report.h"
#include "report/session_document.h"

namespace ringfall::report {
namespace {

bool holds(const std::string& page, const std::string& words) { return page.find(words) != std::string::npos; }

/// Without what a phone shows before each value, which has a test of its own.
std::string page_of(compare::Session session) {
  const std::string page = html_page(session_document(session_report(source_of(std::move(session)))));
  return std::regex_replace(page, std::regex(" data-head=\"[^\"]*\""), "");
}

TEST(Page, IsWellFormedLoadsNothingAndNamesTheSetUps) {
  const std::string page = page_of(example_session());
  EXPECT_EQ(verdict_of_readers(page), "fine");
  EXPECT_TRUE(holds(page, "<h1>Hum: does &#39;plug&#39; differ from &#39;bare&#39;?</h1>"));
  EXPECT_TRUE(holds(page, ">bare</th>"));
  EXPECT_TRUE(holds(page, ">plug</th>"));
}

// The readers themselves must see what is wrong.
TEST(Page, ReadersFindFaults) {
  EXPECT_NE(verdict_of_readers("<html lang=\"en\"><body><p>open</body></html>"), "fine");
  EXPECT_TRUE(holds(verdict_of_readers("<html lang=\"en\"><main><title>t</title><h1>a</h1><h2>b</h2>"
                                       "<img src=\"http://example.org/a.png\"/></main></html>"),
                    "loads http"));
}

TEST(Page, SameReportSameBytes) { EXPECT_EQ(page_of(example_session()), page_of(example_session())); }

TEST(Page, ForeignTextsComeOutEscaped) {
  auto session = example_session();
  const std::string evil = "<script>alert(\"x\")</script> & 'y'";
  for (auto& block : session.blocks) {
    block.note = "note " + evil;
    block.file = "file " + evil;
    if (block.setup == "plug") block.setup = "plug " + evil;
    for (auto& entry : block.shots) entry.said.words = "said " + evil;
    block.findings.push_back({"odd", Severity::caution, {}, "finding " + evil});
  }
  const std::string page = page_of(std::move(session));
  EXPECT_EQ(verdict_of_readers(page), "fine");
  EXPECT_FALSE(holds(page, "<script"));
  const std::string safe = "&lt;script&gt;alert(&quot;x&quot;)&lt;/script&gt; &amp; &#39;y&#39;";
  for (const char* where : {"note ", "file ", "plug ", "said ", "finding "}) {
    EXPECT_TRUE(holds(page, where + safe)) << where;
  }
}

TEST(Page, AValueThatIsNotThereIsADash) {
  auto session = example_session();
  session.blocks[0].shots[0].shot.ping.reset();
  const std::string page = page_of(std::move(session));
  // Row of the first shot: feel 3, hum said 6, hum 6.0, ping said and ping missing, loud said and loudness too.
  EXPECT_TRUE(holds(page,
                    "<th scope=\"row\">block1.wav, 1</th><td>bare</td><td>hums</td><td class=\"number\">3</td>"
                    "<td class=\"number\">6</td><td class=\"number\">6.0</td><td class=\"number\">-</td>"
                    "<td class=\"number\">-</td><td class=\"number\">-</td><td class=\"number\">-</td>"));
  EXPECT_FALSE(holds(page, "nan"));
}

TEST(Page, TellsHowSureItIsAndWhereWordsDisagree) {
  auto session = example_session();
  session.blocks[1].shots[0].said.words = "hums";  // the plug's hum is a third of the other's
  session.blocks[1].shots[0].id = 77;
  const std::string page = page_of(std::move(session));
  EXPECT_TRUE(holds(page, ">How sure</h2>"));
  EXPECT_TRUE(holds(page, "plug: Shooting order A B B A (A &#39;bare&#39;, B &#39;plug&#39;): a steady drift cancels"));
  EXPECT_TRUE(holds(page, "shot 77 (&#39;plug&#39;), &#39;hums&#39; (hum)"));
}

TEST(Page, WithoutCommentsSaysSo) {
  auto session = example_session();
  for (auto& block : session.blocks) {
    for (auto& entry : block.shots) entry.said = {};
  }
  const std::string page = page_of(std::move(session));
  EXPECT_EQ(verdict_of_readers(page), "fine");
  EXPECT_TRUE(holds(page, "Nothing was said of any shot."));
}

TEST(Page, OneShotEachIsTooFewToCompare) {
  auto session = example_session(1);
  session.blocks.resize(2);
  const std::string page = page_of(std::move(session));
  EXPECT_EQ(verdict_of_readers(page), "fine");
  EXPECT_TRUE(holds(page, "Hum: no answer, too few values, or all alike"));
  EXPECT_TRUE(holds(page, "too few, or all alike"));
}

TEST(Page, ARecordingWithoutShotsIsNamed) {
  auto session = example_session();
  session.blocks[1].shots.clear();
  const std::string page = page_of(std::move(session));
  EXPECT_EQ(verdict_of_readers(page), "fine");
  EXPECT_TRUE(holds(page, "block2.wav: no shot was found in it."));
}

TEST(Page, ADroppedShotIsNamedWithItsReason) {
  auto session = example_session();
  session.blocks[1].left_out = {"Shot 9 of 'plug' is left out: arm hit."};
  const std::string page = page_of(std::move(session));
  // Two blocks of four shots with "plug" and the dropped one.
  EXPECT_TRUE(holds(page, "<td class=\"number\">9</td><td class=\"number\">8</td>"));
  EXPECT_TRUE(holds(page, "<td class=\"words\">Shot 9 of &#39;plug&#39; is left out: arm hit.</td>"));
}

// On a phone the right of a table is out of sight: what came out, then its interval, then where it comes from. Short entries take no room of sentences.
TEST(Page, TheAnswerStandsFirstInTheTableOfNumbers) {
  const std::string page = page_of(example_session());
  EXPECT_TRUE(holds(page, "<th scope=\"col\">Number</th><th scope=\"col\" class=\"number\">Difference</th><th scope=\"col\">Unit</th>"
                          "<th scope=\"col\">Verdict</th><th scope=\"col\" class=\"number\">95 % interval</th>"));
  EXPECT_TRUE(holds(page, "</td><td>dB</td><td class=\"words\">")) << "a unit is short, a verdict has words";
}

// A phone shows a row as a list: each value tells its column, nothing lies to the side.
TEST(Page, EveryValueTellsItsColumn) {
  const std::string page = html_page(session_document(session_report(source_of(example_session()))));
  EXPECT_TRUE(holds(page, "<td data-head=\"Verdict\" class=\"words\">"));
  EXPECT_FALSE(holds(page, "<td>"));
  EXPECT_FALSE(holds(page, "<td class"));
  EXPECT_TRUE(holds(page, "td::before { content: attr(data-head)"));
  EXPECT_EQ(verdict_of_readers(page), "fine");
}

// Question, answer, a picture each for quiet, hum and ping, how sure, doubts, what next, date and chain: before the first heading.
TEST(Page, TheAnswerIsTheFirstPage) {
  auto session = example_session();
  session.blocks[1].left_out = {"Shot 9 of 'plug' is left out: arm hit."};
  const std::string page = page_of(std::move(session));
  const std::string first = page.substr(0, page.find("<h2"));
  for (const char* what : {"Hum: less with &#39;plug&#39;", "Much less hum (6.", "dots-exposure_db", "dots-hum", "dots-ping", "It rests on 2 blocks a set-up",
                           "Doubt: Shot 9", "Next: ", "Date, bow and chain were not stated"}) {
    EXPECT_TRUE(holds(first, what)) << what << first.substr(0, 3000);
  }
  for (const char* term : {"Holm", "tau", "p value"}) EXPECT_FALSE(holds(first, term)) << term;
}

TEST(Page, ALogbooksBowChainAndSetUpsAreTold) {
  auto session = example_session();
  logbook::Conditions evening;
  evening.bow = "recurve";
  evening.started_at = "2026-10-03T17:30:00Z";
  evening.place = "hall";
  evening.distance_m = 18.0;
  evening.microphone = "made-up capsule";
  evening.chain = "gain at 3";
  evening.session = 1;
  session.logbook.sessions = {evening};
  logbook::Bow bow;
  bow.name = "recurve";
  bow.fittings.draw_weight_n = 178.0;
  session.logbook.bows = {bow};
  logbook::SetUp plug;
  plug.name = "plug";
  plug.changed = "rubber in the riser";
  plug.added_mass_kg = 0.030;
  session.logbook.setups = {plug};
  session.blocks[1].said.words = "all dull";
  const std::string page = page_of(std::move(session));
  EXPECT_EQ(verdict_of_readers(page), "fine");
  EXPECT_TRUE(holds(page, "Session 1: recurve, " + local_time_text(evening.started_at) + ", hall, 18 m"));
  EXPECT_TRUE(holds(page, "made-up capsule, gain at 3"));
  EXPECT_TRUE(holds(page, "Bow recurve: 178 N on the fingers."));
  EXPECT_TRUE(holds(page, "rubber in the riser, adds 30 g"));
  EXPECT_TRUE(holds(page, "<th scope=\"row\">block2.wav, all</th><td>plug</td><td>all dull</td>"));
}

TEST(Page, ADroppedBlockIsNamedWithItsReasonAndNotCounted) {
  auto session = example_session();
  session.blocks[1].dropped = "gain moved";
  const std::string page = page_of(std::move(session));
  EXPECT_TRUE(holds(page, "block2.wav (block 2) is left out: gain moved."));
  EXPECT_TRUE(holds(page, "<li>block2.wav (&#39;plug&#39;, 4 shots) is left out: gain moved.</li>")) << "once among the doubts";
  // Two blocks of four shots with "plug", one dropped: 8 shots, 4 kept.
  EXPECT_TRUE(holds(page, "<td class=\"number\">8</td><td class=\"number\">4</td>"));
}

TEST(Page, PlaysTheClipsFromWithin) {
  auto source = source_of(example_session());
  source.clips.push_back({"bare", "block1.wav", 1, "RIFF"});
  const std::string page = html_page(session_document(session_report(std::move(source))));
  EXPECT_EQ(verdict_of_readers(page), "fine");
  // "RIFF" in base64 (RFC 4648), by Python's base64 module.
  EXPECT_TRUE(holds(page, "src=\"data:audio/flac;base64,UklGRg==\""));
}

TEST(Page, NeverPromisesAScoreAndPrintsTheCautions) {
  const std::string page = page_of(example_session());
  EXPECT_TRUE(holds(page, "Nothing here says that anybody will score better"));
  EXPECT_TRUE(holds(page, "Never loose the string without an arrow"));
  EXPECT_TRUE(holds(page, "forward of the shooting line"));
}

}  // namespace
}  // namespace ringfall::report
