// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/command_line.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <cmath>
#include <sstream>
#include <system_error>

#include "base/failure.h"
#include "base/units.h"
#include "base/version.h"
#include "terminal/completion.h"
#include "terminal/exit_status.h"
#include "terminal/listen_options.h"
#include "compare/recordings_plan.h"
#include "terminal/logbook_options.h"
#include "terminal/option_words.h"
#include "terminal/planning_options.h"
#include "work/limits.h"

namespace ringfall::terminal {
namespace {

constexpr const char* kCautions =
    "Never loose the string without an arrow. Nobody and no microphone forward of the shooting line.\n"
    "Inspect the bow after every change. Your range's rules come first.";

/// Texts that still need their units understood, kept until the command line is read.
struct Typed {
  std::string distance;
  std::string arrow_speed;
  std::string temperature;
  bool json = false;
  bool csv = false;
};

/// A difference of 0 is found by no number of shots; NaN is none.
std::string refuse_no_difference(const std::string& typed) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(typed.data(), typed.data() + typed.size(), value);
  const bool number = error == std::errc() && end == typed.data() + typed.size() && std::isfinite(value);
  return number && value != 0.0 && std::abs(value) <= 1e6 ? std::string() : fmt::format("'{}' must be a number and not 0", typed);
}

void add_hearing(CLI::App& verb, HearRequest& hear, Typed& typed) {
  verb.add_option("--channel", hear.channel, "Channel to measure, from 1 (else the loudest live one)")
      ->check(whole_number(1, 1024))->type_name("N");
  verb.add_option("--expect", hear.settings.find.expect, "Keep the N most shot-like events of each recording")
      ->check(whole_number(1, 1000000))->type_name("N");
  verb.add_option("--distance", typed.distance, "Grip to target face: 18m, 20yd (sharpens the impact search)")
      ->type_name("LENGTH");
  verb.add_option("--arrow-speed", typed.arrow_speed, "Arrow speed, if known: 60m/s, 197ft/s")
      ->type_name("SPEED");
  verb.add_option("--temperature", typed.temperature, "Air temperature for the speed of sound: 15C, 59F (else 20C)")
      ->type_name("DEGREES");
  auto* full_scale =
      verb.add_option("--full-scale-spl", hear.full_scale_db_spl, "Level of a full-scale peak, if known")
          ->check(number_between(60, 200))->type_name("DB");
  auto* file = verb.add_option("--calibrate", hear.calibration_file,
                               "Recording of a sound calibrator through the same chain and gain")
                   ->type_name("FILE")->excludes(full_scale);
  verb.add_option("--calibrator", hear.calibrator_db, "The calibrator's level")->capture_default_str()
      ->check(number_between(60, 140))->type_name("DB")->needs(file);
  verb.add_option("--jobs", hear.jobs, "Cores to use, over recordings and inside one (else all)")
      ->check(whole_number(1, 1024))->type_name("N");
}

void add_form(CLI::App& verb, Typed& typed) {
  auto* json = verb.add_flag("--json", typed.json, "One JSON object on standard output");
  verb.add_flag("--csv", typed.csv, "One line a shot, for a spreadsheet")->excludes(json);
}

Form form_of(const Typed& typed) {
  return typed.json ? Form::json : typed.csv ? Form::csv : Form::text;
}

void need_within(double value, work::Limits limits, const char* option, const char* unit) {
  if (!limits.hold(value)) throw RequestFailure(fmt::format("{} must be between {:g} and {:g} {}", option, limits.low, limits.high, unit));
}

void understand_units(const Typed& typed, HearRequest& hear) {
  auto& find = hear.settings.find;
  if (!typed.distance.empty()) {
    find.distance_m = parse_distance_m(typed.distance);
    need_within(*find.distance_m, work::kTargetDistance_m, "--distance", "m");
  }
  if (!typed.arrow_speed.empty()) {
    find.arrow_speed_m_s = parse_speed_m_s(typed.arrow_speed);
    need_within(*find.arrow_speed_m_s, work::kArrowSpeed_m_s, "--arrow-speed", "m/s");
  }
  if (!typed.temperature.empty()) {
    find.temperature_c = parse_temperature_c(typed.temperature);
    need_within(find.temperature_c, work::kAir_c, "--temperature", "C");
  }
}

/// Everything one reading of the command line fills.
struct Reading {
  MeasureRequest measure;
  DemoRequest demo;
  CompareRequest compare;
  ReportRequest report;
  PlanningReading planning;
  std::vector<std::pair<CLI::App*, Understand>> logbook;
  SoundReading sound;
  Typed typed;
};

CLI::App* add_measure(CLI::App& app, Reading& reading) {
  auto* verb = app.add_subcommand("measure", "Find the shots in recordings and put numbers on them");
  verb->footer("Example: ringfall measure evening.wav --distance 18m --plot pictures\n\n" + std::string(kCautions));
  verb->add_option("recording", reading.measure.recordings, "Sound files (also a phone's or a video's)")
      ->required()->type_name("FILE");
  add_hearing(*verb, reading.measure.hear, reading.typed);
  add_form(*verb, reading.typed);
  verb->add_option("--plot", reading.measure.picture_folder, "Write pictures of every shot into this folder")
      ->type_name("FOLDER");
  return verb;
}

/// Which of add_hearing()'s options were given.
std::vector<std::string> given_hearing(const CLI::App& verb) {
  std::vector<std::string> given;
  for (const char* name : {"--channel", "--expect", "--distance", "--arrow-speed", "--temperature", "--full-scale-spl", "--calibrate",
                           "--calibrator", "--jobs"}) {
    if (verb.get_option(name)->count() > 0) given.emplace_back(name);
  }
  return given;
}

CLI::App* add_demo(CLI::App& app, Reading& reading) {
  auto* verb = app.add_subcommand("demo", "Write made-up recordings, set-ups and comments to try things with");
  verb->footer("Example: ringfall demo demo && ringfall compare demo\n\nEverything in it is invented, the sound is synthetic.");
  verb->add_option("folder", reading.demo.folder, "Folder to write into")->required()->type_name("FOLDER");
  return verb;
}

void add_comparison(CLI::App& verb, CompareRequest& compare, Typed& typed) {
  verb.add_option("source", compare.recordings, "A logbook; a folder with a setups.csv, or with a sub-folder of recordings for each set-up; such a "
                                                "table; or recordings: BEFORE.m4a AFTER.m4a, NAME=FILE,FILE")
      ->required()->type_name("WHAT");
  verb.add_option("--bow", compare.bow, "One bow of a logbook (needed when it holds shots of several)")->type_name("NAME");
  verb.add_option("--baseline", compare.baseline, "The set-up the others are held against (else the first)")
      ->type_name("SETUP");
  verb.add_option("--main", compare.main_number, "The one number named beforehand (below)")->capture_default_str()->type_name("NUMBER");
  verb.add_option("--difference", compare.wanted_difference,
                  "Say how many shots or blocks a true difference of this size of the main number needs")
      ->check(CLI::Validator(refuse_no_difference, ""))->type_name("VALUE");
  add_hearing(verb, compare.hear, typed);
}

CLI::App* add_compare(CLI::App& app, Reading& reading) {
  auto* verb = app.add_subcommand("compare", "Hold set-ups against each other: how much, how sure");
  verb->footer("Example: ringfall compare before.m4a after.m4a\n"
               "         ringfall compare bare=one.wav,four.wav cuff=two.wav,three.wav     (in the order they were shot, as far as that goes)\n"
               "         ringfall compare demo --main hum --all\n\n"
               "The table has the columns file, setup, block [, added_mass_g, note, drop].\n" + numbers_there_are());
  add_comparison(*verb, reading.compare, reading.typed);
  auto* source = verb->get_option("source")->required(false);
  verb->add_flag("--all", reading.compare.all, "Every number with its interval, tones, words and doubts, not the answer alone");
  verb->add_option("--table", reading.compare.table,
                   "Numbers measured elsewhere instead: columns setup, block, shot, then one a number")
      ->type_name("FILE.csv")->excludes(source);
  add_form(*verb, reading.typed);
  return verb;
}

CLI::App* add_report(CLI::App& app, Reading& reading) {
  auto* verb = app.add_subcommand("report", "Write a comparison as one self-contained page, a paper, or its numbers");
  verb->footer("Example: ringfall report demo -o demo.html -o demo.pdf -o demo.csv\n\n" + numbers_there_are());
  add_comparison(*verb, reading.report.compare, reading.typed);
  verb->add_option("-o,--output", reading.report.outputs, "What to write: a page (.html), a paper (.pdf) or the numbers (.csv, .json); may be repeated")
      ->required()
      ->type_name("FILE")
      ->allow_extra_args(false);
  return verb;
}

/// One word that names no recording is a folder, a table or a logbook.
void understand_source(CompareRequest& compare) {
  if (std::ranges::find(compare.recordings, "") != compare.recordings.end()) throw RequestFailure("a name of what to compare is empty");
  if (compare.recordings.size() != 1 || compare::names_recordings(compare.recordings.front())) return;
  compare.source = compare.recordings.front();
  compare.recordings.clear();
}

Request request_of(const CLI::App& app, Reading& reading) {
  const Form form = form_of(reading.typed);
  if (app.got_subcommand("measure")) {
    understand_units(reading.typed, reading.measure.hear);
    reading.measure.form = form;
    return reading.measure;
  }
  if (app.got_subcommand("demo")) return reading.demo;
  if (app.got_subcommand("compare")) {
    understand_units(reading.typed, reading.compare.hear);
    reading.compare.form = form;
    reading.compare.hear.given = given_hearing(*app.get_subcommand("compare"));
    const bool table = !reading.compare.table.empty();
    understand_source(reading.compare);
    if (table == !(reading.compare.source.empty() && reading.compare.recordings.empty())) {
      throw RequestFailure("say what to compare: recordings (before.m4a after.m4a), a folder of them, a logbook, or --table FILE.csv");
    }
    if (table && app.get_subcommand("compare")->get_option("--main")->count() == 0) reading.compare.main_number.clear();
    return reading.compare;
  }
  if (app.got_subcommand("report")) {
    understand_units(reading.typed, reading.report.compare.hear);
    reading.report.compare.hear.given = given_hearing(*app.get_subcommand("report"));
    understand_source(reading.report.compare);
    return reading.report;
  }
  if (is_planning(app)) return planning_request(app, reading.planning);
  if (const auto sound = sound_request(app, reading.sound)) return *sound;
  return logbook_request(reading.logbook);
}

}  // namespace

std::variant<Request, Answer> read_command_line(std::vector<std::string> arguments) {
  CLI::App app("Ringfall: how a bow sounds, measured with one microphone", "ringfall");
  app.footer(kCautions);
  app.set_version_flag("--version", std::string("ringfall ") + kVersion);
  app.require_subcommand(1);
  Reading reading;
  add_measure(app, reading);
  add_demo(app, reading);
  add_compare(app, reading);
  add_report(app, reading);
  add_planning_verbs(app, reading.planning);
  add_logbook_verbs(app, reading.logbook);
  auto* completion = app.add_subcommand("completion", "Write a script that completes verbs and options in bash");
  completion->footer("Example: source <(ringfall completion)");
  add_sound_verbs(app, reading.sound);
  check_kinds_of_values(app);
  use_plain_help(app);
  try {
    refuse_unknown_words(app, arguments);
    std::ranges::reverse(arguments);  // CLI11 takes its vector from the back
    app.parse(arguments);
    if (completion->parsed()) return Answer{kDone, bash_completion(app)};
    return request_of(app, reading);
  } catch (const CLI::ParseError& stop) {
    std::ostringstream out;
    std::ostringstream ignored;
    if (app.exit(stop, out, ignored) == 0) return Answer{kDone, out.str()};
    return Answer{kBadCommand, fmt::format("ringfall: {}\n", sentence_of(stop, app))};
  } catch (const RequestFailure& refused) {
    return Answer{kBadCommand, fmt::format("ringfall: {}\n", refused.what())};
  }
}

}  // namespace ringfall::terminal
