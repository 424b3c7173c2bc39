// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/logbook_options.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>

#include "base/failure.h"
#include "base/units.h"

namespace ringfall::terminal {
namespace {

CLI::App* logbook_verb(CLI::App& app, const char* name, const char* what, const char* example, std::string& logbook) {
  auto* verb = app.add_subcommand(name, what);
  verb->footer(fmt::format("Example: ringfall {}", example));
  verb->add_option("logbook", logbook, "The logbook's file")->required()->type_name("LOGBOOK");
  return verb;
}

void add_start(CLI::App& app, LogbookReading& reading) {
  auto& asked = reading.start.conditions;
  auto* verb = logbook_verb(app, "start", "Make a logbook: one file that keeps set-ups, shots, sound and comments",
                            "start evening.ringfall --bow recurve --place hall --distance 18m", reading.start.logbook);
  asked.bow = "bow";
  verb->add_option("--bow", asked.bow, "The bow's name")->capture_default_str()->type_name("NAME");
  verb->add_option("--place", asked.place, "Where you shoot")->type_name("WORDS");
  verb->add_option("--chain", asked.chain, "Microphone, recorder, gain")->type_name("WORDS");
  verb->add_option("--distance", reading.distance, "Grip to target face: 18m, 20yd")->type_name("LENGTH");
  verb->add_option("--temperature", reading.temperature, "Of the air: 15C, 59F (else 20C)")->type_name("DEGREES");
  verb->add_option("--full-scale-spl", asked.full_scale_db_spl, "Level of a full-scale peak, if known")->type_name("DB");
}

void add_add(CLI::App& app, LogbookReading& reading) {
  auto& asked = reading.add;
  auto* verb = logbook_verb(app, "add", "Measure recordings and keep their shots in a logbook",
                            "add evening.ringfall first.wav --setup bare --expect 5", asked.logbook);
  verb->add_option("recording", asked.recordings, "Sound files in shooting order, each one block")->required()->type_name("FILE");
  verb->add_option("--setup", asked.place.setup, "The set-up they were shot with; the first one is the baseline")
      ->required()->type_name("NAME");
  verb->add_flag("--new", asked.new_setup, "This set-up is new, though its name is near another's");
  verb->add_option("--changed", asked.changed, "What a new set-up changes")->type_name("WORDS");
  verb->add_option("--added-mass", asked.added_mass_g, "What a new set-up adds to the bow, in grams")->type_name("GRAMS");
  verb->add_option("--note", asked.place.note, "A remark on these blocks")->type_name("WORDS");
  verb->add_option("--drop", asked.place.dropped, "Keep them, but leave them out of comparisons, for this reason")
      ->type_name("REASON");
  verb->add_option("--channel", asked.channel, "Channel to measure, from 1 (else the loudest live one)")
      ->check(CLI::PositiveNumber);
  verb->add_option("--expect", asked.expect, "Keep the N most shot-like events of each recording")
      ->check(CLI::PositiveNumber)->type_name("N");
}

void add_comment(CLI::App& app, LogbookReading& reading) {
  auto& said = reading.comment.comment;
  auto* verb = logbook_verb(app, "comment", "Keep what you say of a shot, best before you see its numbers",
                            "comment evening.ringfall 7 --hum 2 --feel 8 dead and dull", reading.comment.logbook);
  verb->add_option("shot", reading.comment.shot, "The shot's number in the logbook (see list)")->required()->type_name("SHOT");
  verb->add_option("words", reading.words, "Free words")->type_name("WORDS");
  verb->add_option("--loud", said.loud, "0 quiet to 10 loud");
  verb->add_option("--hum", said.hum, "0 none to 10");
  verb->add_option("--ping", said.ping, "0 none to 10");
  verb->add_option("--feel", said.feel, "In the hand, 0 bad to 10 good");
}

CLI::App* add_dropping(CLI::App& app, const char* name, const char* what, const char* example, DropRequest& asked) {
  auto* verb = logbook_verb(app, name, what, example, asked.logbook);
  verb->add_option("number", asked.number, "The shot's number in the logbook (see list), or the block's")
      ->required()->type_name("SHOT");
  verb->add_flag("--block", asked.block, "The number is a block's");
  return verb;
}

std::string joined(const std::vector<std::string>& words) { return fmt::format("{}", fmt::join(words, " ")); }

// Written so that NaN is refused too.
void need_range(std::optional<double> value, double low, double high, const char* name) {
  if (value && !(*value >= low && *value <= high)) {
    throw RequestFailure(fmt::format("{} must be a number from {:g} to {:g}", name, low, high));
  }
}

void understand(LogbookReading& reading) {
  auto& conditions = reading.start.conditions;
  if (!reading.distance.empty()) conditions.distance_m = parse_distance_m(reading.distance);
  if (!reading.temperature.empty()) conditions.temperature_c = parse_temperature_c(reading.temperature);
  need_range(conditions.distance_m, 1.0, 150.0, "--distance (in metres)");
  need_range(conditions.temperature_c, -40.0, 60.0, "--temperature (in Celsius)");
  need_range(conditions.full_scale_db_spl, 60.0, 200.0, "--full-scale-spl");
  need_range(reading.add.added_mass_g, 0.0, 10000.0, "--added-mass");
  auto& said = reading.comment.comment;
  need_range(said.loud, 0.0, 10.0, "--loud");
  need_range(said.hum, 0.0, 10.0, "--hum");
  need_range(said.ping, 0.0, 10.0, "--ping");
  need_range(said.feel, 0.0, 10.0, "--feel");
}

}  // namespace

void add_logbook_verbs(CLI::App& app, LogbookReading& reading) {
  add_start(app, reading);
  add_add(app, reading);
  auto* list = logbook_verb(app, "list", "Show what a logbook holds: set-ups, blocks, shots, what was said and dropped",
                            "list evening.ringfall", reading.list.logbook);
  list->add_flag("--json", reading.list.json, "One JSON object on standard output");
  list->add_flag("--check", reading.list.check, "First read the whole file to see that nothing in it is damaged");
  add_comment(app, reading);
  add_dropping(app, "drop", "Leave a shot or block out of comparisons; nothing is deleted",
               "drop evening.ringfall 7 plucked string", reading.drop)
      ->add_option("reason", reading.words, "Why")->required()->type_name("REASON");
  add_dropping(app, "restore", "Take a dropped shot or block in again", "restore evening.ringfall 3 --block", reading.restore);
  logbook_verb(app, "remeasure", "Put numbers on all kept shots again, from their sound in the logbook",
               "remeasure evening.ringfall", reading.remeasure.logbook);
}

Request logbook_request(const CLI::App& app, LogbookReading& reading) {
  understand(reading);
  if (app.got_subcommand("start")) return reading.start;
  if (app.got_subcommand("add")) return reading.add;
  if (app.got_subcommand("list")) return reading.list;
  if (app.got_subcommand("comment")) {
    auto& said = reading.comment.comment;
    said.words = joined(reading.words);
    if (said.words.empty() && !said.loud && !said.hum && !said.ping && !said.feel) {
      throw RequestFailure("nothing was said: give words or a rating");
    }
    return reading.comment;
  }
  if (app.got_subcommand("drop")) {
    reading.drop.reason = joined(reading.words);
    if (reading.drop.reason.empty()) throw RequestFailure("drop needs a reason");
    return reading.drop;
  }
  if (app.got_subcommand("restore")) return reading.restore;
  return reading.remeasure;
}

}  // namespace ringfall::terminal
