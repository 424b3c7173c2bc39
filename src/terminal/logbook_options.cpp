// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/logbook_options.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <memory>
#include <string_view>

#include "base/failure.h"
#include "base/units.h"
#include "terminal/option_words.h"
#include "terminal/typed_units.h"

namespace ringfall::terminal {
namespace {

// In the order of Units.
constexpr std::array<std::string_view, 2> kUnits = {"metric", "archers"};

using Verbs = std::vector<std::pair<CLI::App*, Understand>>;

std::string joined_words(const std::vector<std::string>& words) { return fmt::format("{}", fmt::join(words, " ")); }

void add_add(CLI::App& app, Verbs& verbs) {
  auto asked = std::make_shared<AddRequest>();
  auto mass = std::make_shared<std::optional<std::string>>();
  auto fresh = std::make_shared<bool>(false);
  auto& addition = asked->addition;
  auto* verb = add_logbook_verb(app, "add", "Measure recordings and keep their shots in a logbook",
                                "add evening.ringfall first.wav --setup bare --expect 5", asked->logbook);
  verb->add_option("recording", asked->recordings, "Sound files in shooting order, each one block")->required()->type_name("FILE");
  verb->add_option("--setup", addition.place.setup, "The set-up they were shot with; the first one is the baseline")
      ->required()->type_name("NAME");
  verb->add_option("--bow", asked->bow, "The bow, to be sure that the session is about it")->type_name("NAME");
  verb->add_flag("--new", *fresh, "This set-up is new, though its name is near another's");
  verb->add_option("--changed", addition.changed, "What a new set-up changes")->type_name("WORDS");
  verb->add_option("--added-mass", *mass, "What a new set-up adds to the bow: 180g, 6.3oz, 412gr (bare: grams)")->type_name("MASS");
  verb->add_option("--session", addition.place.session, "The session they belong to (else the last)")
      ->type_name("N");
  verb->add_option("--note", addition.place.note, "A remark on these blocks")->type_name("WORDS");
  verb->add_option("--drop", addition.place.dropped, "Keep them, but leave them out of comparisons, for this reason")
      ->type_name("REASON");
  verb->add_option("--channel", asked->channel, "Channel to measure, from 1 (else the loudest live one)")
      ->check(whole_number(1, 1024))->type_name("N");
  verb->add_option("--expect", asked->expect, "Keep the N most shot-like events of each recording")
      ->check(whole_number(1, 1000000))->type_name("N");
  verb->add_flag("--json", asked->json, "One JSON object on standard output");
  verbs.emplace_back(verb, [asked, mass, fresh] {
    if (*fresh) asked->addition.new_setup = work::NewSetUp::meant;
    if (const auto given = typed_change(*mass, parse_mass_kg, work::kAddedMass_kg, "kg", "--added-mass")) asked->addition.added_mass_kg = *given;
    return *asked;
  });
}

void add_reading(CLI::App& app, Verbs& verbs) {
  auto list = std::make_shared<ListRequest>();
  auto* verb = add_logbook_verb(app, "list", "Show what a logbook holds: bows, set-ups, sessions, blocks, shots, what was said",
                                "list evening.ringfall", list->logbook);
  add_units(*verb, list->units);
  verb->add_flag("--json", list->json, "One JSON object on standard output");
  verb->add_flag("--check", list->check, "First read the whole file to see that nothing in it is damaged");
  verbs.emplace_back(verb, [list] { return *list; });

  auto show = std::make_shared<ShowRequest>();
  verb = add_logbook_verb(app, "show", "Show all that is known of one shot", "show evening.ringfall 7 --plot pictures", show->logbook);
  verb->add_option("shot", show->shot, "The shot's number in the logbook (see list)")->required()->type_name("SHOT");
  add_units(*verb, show->units);
  verb->add_flag("--json", show->json, "One JSON object on standard output");
  verb->add_option("--plot", show->picture_folder, "Write its pictures into this folder")->type_name("FOLDER");
  verbs.emplace_back(verb, [show] { return *show; });
}

CommentRequest understood(CommentRequest asked, const std::vector<std::string>& words) {
  auto& said = asked.comment;
  said.words = joined_words(words);
  const bool nothing = said.words.empty() && !said.loud && !said.hum && !said.ping && !said.feel;
  if (nothing && !asked.remove) throw RequestFailure("nothing was said: give words or a rating");
  return asked;
}

void add_comment(CLI::App& app, Verbs& verbs) {
  auto asked = std::make_shared<CommentRequest>();
  auto words = std::make_shared<std::vector<std::string>>();
  auto* verb = add_logbook_verb(app, "comment", "Keep what you say of a shot or a block, best before you see its numbers",
                                "comment evening.ringfall 7 --hum 2 --feel 8 dead and dull", asked->logbook);
  verb->add_option("number", asked->number, "The shot's number in the logbook (see list)")->required()->type_name("SHOT");
  verb->add_option("words", *words, "Free words")->type_name("WORDS");
  auto& said = asked->comment;
  verb->add_option("--loud", said.loud, "0 quiet to 10 loud")->check(number_between(0, 10))->type_name("0-10");
  verb->add_option("--hum", said.hum, "0 none to 10")->check(number_between(0, 10))->type_name("0-10");
  verb->add_option("--ping", said.ping, "0 none to 10")->check(number_between(0, 10))->type_name("0-10");
  verb->add_option("--feel", said.feel, "In the hand, 0 bad to 10 good")->check(number_between(0, 10))->type_name("0-10");
  auto* block = verb->add_flag("--block", asked->block, "The number is a block's: said of all its shots");
  auto* edit = verb->add_flag("--edit", asked->edit, "The number is a comment's (see list): say this instead")->excludes(block);
  verb->add_flag("--remove", asked->remove, "The number is a comment's: take it away")->excludes(block)->excludes(edit);
  verbs.emplace_back(verb, [asked, words] { return understood(*asked, *words); });
}

void add_dropping(CLI::App& app, Verbs& verbs) {
  const auto verb_of = [&](const char* name, const char* what, const char* example, DropRequest& asked) {
    auto* verb = add_logbook_verb(app, name, what, example, asked.logbook);
    verb->add_option("number", asked.number, "The shot's number in the logbook (see list), or the block's")
        ->required()->type_name("SHOT");
    verb->add_flag("--block", asked.block, "The number is a block's");
    return verb;
  };
  auto drop = std::make_shared<DropRequest>();
  auto words = std::make_shared<std::vector<std::string>>();
  auto* verb = verb_of("drop", "Leave a shot or block out of comparisons; nothing is deleted",
                       "drop evening.ringfall 7 plucked string", *drop);
  verb->add_option("reason", *words, "Why")->required()->type_name("REASON");
  verbs.emplace_back(verb, [drop, words] {
    drop->reason = joined_words(*words);
    if (drop->reason.empty()) throw RequestFailure("drop needs a reason");
    return *drop;
  });
  auto restore = std::make_shared<DropRequest>();
  verb = verb_of("restore", "Take a dropped shot or block in again", "restore evening.ringfall 3 --block", *restore);
  verbs.emplace_back(verb, [restore] { return *restore; });
}

void add_correct(CLI::App& app, Verbs& verbs) {
  auto asked = std::make_shared<CorrectRequest>();
  auto edge = std::make_shared<std::string>();
  auto missed = std::make_shared<std::string>();
  auto* verb = add_logbook_verb(app, "correct", "Say where the finder was wrong; the shot is measured again",
                                "correct evening.ringfall 7 --not-a-shot", asked->logbook);
  verb->add_option("number", asked->number, "The shot's number in the logbook; with --missed the block's")
      ->required()->type_name("SHOT");
  auto* ways = verb->add_option_group("what is wrong");
  ways->add_flag("--not-a-shot", asked->not_a_shot, "This was something else");
  ways->add_option("--edge", *edge, "The loud edge is here in the recording: 0:12.345")->type_name("TIME");
  ways->add_option("--missed", *missed, "A shot was missed, with its loud edge here")->type_name("TIME");
  ways->add_flag("--undo", asked->undo, "Take the last correction of this shot back; one said to be missed is taken out, if nothing was said of it");
  ways->require_option(1);
  verb->add_option("--recording", asked->recording, "With --missed: where the block's recording is now")->type_name("FILE");
  verbs.emplace_back(verb, [asked, edge, missed] {
    if (!edge->empty()) asked->edge_s = parse_clock_s(*edge);
    if (!missed->empty()) asked->missed_s = parse_clock_s(*missed);
    return *asked;
  });
}

void add_keeping(CLI::App& app, Verbs& verbs) {
  auto copy = std::make_shared<CopyRequest>();
  auto* verb = add_logbook_verb(app, "copy", "Write a whole, compact copy of a logbook, also while it is in use",
                                "copy evening.ringfall evening-copy.ringfall", copy->logbook);
  verb->add_option("copy", copy->copy, "The copy's name; it must not be there yet")->required()->type_name("FILE");
  verbs.emplace_back(verb, [copy] { return *copy; });
  auto check = std::make_shared<CheckRequest>();
  verb = add_logbook_verb(app, "check", "Read the whole logbook, every shot's sound too, to see that nothing in it is damaged",
                          "check evening.ringfall", check->logbook);
  verb->add_flag("--json", check->json, "One JSON object on standard output");
  verbs.emplace_back(verb, [check] { return *check; });
  auto out = std::make_shared<ExportRequest>();
  verb = add_logbook_verb(app, "export", "Write everything in a logbook as tables and sound files",
                          "export evening.ringfall evening-open", out->logbook);
  verb->add_option("folder", out->folder, "A new folder")->required()->type_name("FOLDER");
  verbs.emplace_back(verb, [out] { return *out; });
  auto in = std::make_shared<ImportRequest>();
  verb = app.add_subcommand("import", "Make a logbook from such a folder, without loss");
  verb->footer("Example: ringfall import evening-open evening-again.ringfall");
  verb->add_option("folder", in->folder, "What `ringfall export` wrote")->required()->type_name("FOLDER");
  verb->add_option("logbook", in->logbook, "The new logbook's file")->required()->type_name("LOGBOOK");
  verbs.emplace_back(verb, [in] { return *in; });
  auto again = std::make_shared<RemeasureRequest>();
  verb = add_logbook_verb(app, "remeasure", "Put numbers on all kept shots again, from their sound in the logbook",
                          "remeasure evening.ringfall", again->logbook);
  verbs.emplace_back(verb, [again] { return *again; });
}

}  // namespace

CLI::App* add_logbook_verb(CLI::App& app, const char* name, const char* what, const char* example, std::string& logbook) {
  auto* verb = app.add_subcommand(name, what);
  verb->footer(fmt::format("Example: ringfall {}", example));
  verb->add_option("logbook", logbook, "The logbook's file")->required()->type_name("LOGBOOK");
  return verb;
}

void add_units(CLI::App& verb, Units& units) {
  verb.add_option("--units", units, "Units to show: metric, or archers (yd, ft/s, gr, oz, lb, in)")
      ->transform(CLI::Validator([](std::string& typed) {
        const auto known = std::ranges::find(kUnits, typed);
        if (known == kUnits.end()) return fmt::format("'{}' is not known; metric or archers is", typed);
        typed = std::to_string(known - kUnits.begin());  // CLI11 reads an enumeration as its number
        return std::string();
      }, ""))
      ->type_name("metric|archers");
}

void add_logbook_verbs(CLI::App& app, Verbs& verbs) {
  add_describing_verbs(app, verbs);
  add_add(app, verbs);
  add_reading(app, verbs);
  add_comment(app, verbs);
  add_dropping(app, verbs);
  add_correct(app, verbs);
  add_keeping(app, verbs);
}

LogbookRequest logbook_request(const Verbs& verbs) {
  for (const auto& [verb, understand] : verbs) {
    if (verb->parsed()) return understand();
  }
  throw RequestFailure("say what to do; `ringfall --help` has more");
}

}  // namespace ringfall::terminal
