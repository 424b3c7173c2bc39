// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/planning_options.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "base/failure.h"
#include "base/units.h"
#include "terminal/logbook_options.h"
#include "terminal/option_words.h"
#include "work/limits.h"

namespace ringfall::terminal {
namespace {

void add_plan(CLI::App& app, PlanRequest& asked) {
  auto* verb = app.add_subcommand("plan", "How to shoot a fair comparison: order, number of shots, checklist, microphone");
  verb->footer("Example: ringfall plan bare rubber --difference 1 --spread 0.8\n\n" + numbers_there_are());
  verb->add_option("setup", asked.setups, "Set-ups to compare, the baseline first")->required()->expected(2, 8)->type_name("SETUP");
  verb->add_option("--difference", asked.wanted, "The smallest difference worth finding, in the number's unit")
      ->capture_default_str()->type_name("VALUE");
  verb->add_option("--number", asked.number, "The one main number (below)")->capture_default_str()->type_name("NUMBER");
  verb->add_option("--spread", asked.spread, "Standard deviation of shots within a block, if you know it")->type_name("VALUE");
  verb->add_option("--block-spread", asked.block_spread, "Standard deviation from block to block, if you know it")
      ->type_name("VALUE");
  verb->add_option("--from", asked.logbook, "Take the spreads from what this logbook shows")->type_name("LOGBOOK");
  verb->add_option("--power", asked.power, "Chance to find the difference")->capture_default_str()->type_name("0..1");
  verb->add_flag("--json", asked.json, "One JSON object on standard output");
}

void add_season(CLI::App& app, SeasonRequest& asked) {
  auto* verb = app.add_subcommand("season", "How each bow and set-up changed over the sessions of a logbook, and when to look at it");
  verb->footer("Example: ringfall season bows.ringfall --bow recurve");
  verb->add_option("logbook", asked.logbook, "The logbook's file")->required()->type_name("LOGBOOK");
  verb->add_option("--bow", asked.bow, "One bow only")->type_name("NAME");
  auto* json = verb->add_flag("--json", asked.json, "One JSON object on standard output");
  verb->add_flag("--csv", asked.csv, "One line a session of each set-up, for a spreadsheet")->excludes(json);
}

void add_hunting(CLI::App& app, PlanningReading& reading) {
  auto& asked = reading.hunting;
  auto* verb = app.add_subcommand("hunting", "How loud a set-up is at a distance, and when sound and arrow arrive");
  verb->footer("Example: ringfall hunting bows.ringfall quiver --distance 20yd --distance 30yd --temperature 5C\n\n"
               "An estimate for still air over open ground. It makes no distance safe.");
  verb->add_option("logbook", asked.logbook, "The logbook's file")->required()->type_name("LOGBOOK");
  verb->add_option("setup", asked.setup, "The set-up")->required()->type_name("SETUP");
  verb->add_option("--bow", asked.bow, "The bow (else the only one that has this set-up)")->type_name("NAME");
  verb->add_option("--distance", reading.distances, "Where to estimate: 20m, 30yd; may be repeated (else 10, 20, 30, 40 m)")
      ->type_name("LENGTH")->allow_extra_args(false);
  verb->add_option("--mark", reading.mark, "Grip to microphone (else 1 m)")->type_name("LENGTH");
  verb->add_option("--temperature", reading.temperature, "Air: 15C, 59F (else that of the set-up's last session, or 20C)")->type_name("DEGREES");
  verb->add_option("--humidity", asked.asked.humidity_percent, "Relative, in per cent (else that session's, or 50)")->type_name("PERCENT");
  verb->add_option("--pressure", asked.asked.pressure_kpa, "In kilopascal")->capture_default_str()->type_name("KPA");
  verb->add_option("--arrow-speed", reading.arrow_speed, "60m/s, 197ft/s (else the shots' own)")->type_name("SPEED");
  add_units(*verb, asked.units);
  verb->add_flag("--json", asked.json, "One JSON object on standard output");
}

// Written so that NaN is refused too.
void need_between(double value, double low, double high, const char* name) {
  if (!(value >= low && value <= high)) throw RequestFailure(fmt::format("{} must be a number from {:g} to {:g}", name, low, high));
}

void need_setup_names(const std::vector<std::string>& names) {
  for (std::size_t k = 0; k < names.size(); ++k) {
    if (std::find(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(k), names[k]) == names.begin() + static_cast<std::ptrdiff_t>(k)) {
      continue;
    }
    throw RequestFailure(fmt::format("the set-up '{}' is named twice; each is named once, however many blocks it gets", names[k]));
  }
}

Request plan_request(PlanRequest& asked) {
  need_setup_names(asked.setups);
  need_between(asked.wanted, 1e-6, 1e6, "--difference");
  need_between(asked.power, 0.5, 0.99, "--power");
  if (asked.spread) need_between(*asked.spread, 1e-6, 1e6, "--spread");
  if (asked.block_spread) need_between(*asked.block_spread, 0.0, 1e6, "--block-spread");
  if (asked.spread && !asked.logbook.empty()) throw RequestFailure("--spread and --from can't both be: which one is true?");
  return asked;
}

void need_within(double value, work::Limits limits, const char* name) { need_between(value, limits.low, limits.high, name); }

Request hunting_request(PlanningReading& reading) {
  auto& asked = reading.hunting.asked;
  if (!reading.mark.empty()) asked.mark_m = parse_distance_m(reading.mark);
  need_within(asked.mark_m, work::kMark_m, "--mark (in metres)");
  if (!reading.temperature.empty()) asked.temperature_c = parse_temperature_c(reading.temperature);
  if (asked.temperature_c) need_within(*asked.temperature_c, work::kAfarAir_c, "--temperature (in Celsius)");
  if (asked.humidity_percent) need_within(*asked.humidity_percent, work::kAfarHumidity_percent, "--humidity");
  need_within(asked.pressure_kpa, work::kAfarPressure_kpa, "--pressure");
  if (!reading.arrow_speed.empty()) {
    asked.arrow_speed_m_s = parse_speed_m_s(reading.arrow_speed);
    need_within(*asked.arrow_speed_m_s, work::kArrowSpeed_m_s, "--arrow-speed (in m/s)");
  }
  if (!reading.distances.empty()) asked.distances_m.clear();
  for (const auto& text : reading.distances) asked.distances_m.push_back(parse_distance_m(text));
  for (const double metres : asked.distances_m) {
    need_between(metres, asked.mark_m, work::kFarthest_m, "--distance (in metres, beyond the mark)");
  }
  return reading.hunting;
}

}  // namespace

void add_planning_verbs(CLI::App& app, PlanningReading& reading) {
  add_plan(app, reading.plan);
  add_season(app, reading.season);
  add_hunting(app, reading);
}

bool is_planning(const CLI::App& app) {
  return app.got_subcommand("plan") || app.got_subcommand("season") || app.got_subcommand("hunting");
}

Request planning_request(const CLI::App& app, PlanningReading& reading) {
  if (app.got_subcommand("plan")) return plan_request(reading.plan);
  if (app.got_subcommand("season")) return reading.season;
  return hunting_request(reading);
}

}  // namespace ringfall::terminal
