// SPDX-License-Identifier: GPL-3.0-or-later
// The command line of the verbs that describe: start, session, bow, set-up, block.
#include <CLI/CLI.hpp>
#include <memory>

#include "base/failure.h"
#include "base/units.h"
#include "terminal/logbook_options.h"
#include "terminal/option_words.h"
#include "terminal/typed_units.h"

namespace ringfall::terminal {
namespace {

using Verbs = std::vector<std::pair<CLI::App*, Understand>>;
using TypedText = std::optional<std::string>;

struct TypedFittings {
  TypedText draw_weight;
  TypedText brace_height;
  TypedText arrow_mass;
  TypedText string;
  TypedText silencers;
  std::vector<std::string> parts;

  void add_to(CLI::App& verb) {
    verb.add_option("--draw-weight", draw_weight, "On the fingers: 40lb, 18kg, 178N")->type_name("FORCE");
    verb.add_option("--brace", brace_height, "Brace height: 216mm, 8.5in")->type_name("LENGTH");
    verb.add_option("--arrow-mass", arrow_mass, "Whole arrow: 412gr, 26.7g")->type_name("MASS");
    verb.add_option("--string", string, "Material, strands")->type_name("WORDS");
    verb.add_option("--silencers", silencers, "On the string")->type_name("WORDS");
    verb.add_option("--part", parts, "On the bow, may be repeated: \"damper, rubber, upper limb, 12g\" "
                                     "(mass, damper, silencer or other; what; place; mass)")
        ->allow_extra_args(false)->type_name("PART");
  }

  FittingsChange understood() const {
    FittingsChange change;
    change.draw_weight_n = typed_change(draw_weight, parse_force_n, work::kDrawWeight_n, "N", "--draw-weight");
    change.brace_height_m = typed_change(brace_height, parse_length_m, work::kBraceHeight_m, "m", "--brace");
    change.arrow_mass_kg = typed_change(arrow_mass, parse_mass_kg, work::kArrowMass_kg, "kg", "--arrow-mass");
    change.string = string;
    change.silencers = silencers;
    if (parts.size() == 1 && parts.front() == "none") {
      change.parts.emplace();
    } else if (!parts.empty()) {
      change.parts.emplace();
      for (const auto& part : parts) change.parts->push_back(parse_part(part));
    }
    return change;
  }
};

struct TypedSession {
  SessionChange plain;
  TypedText date;
  TypedText distance;
  TypedText temperature;
  TypedText humidity;
  TypedText full_scale;
  TypedText check_tone;
  bool blind = false;
  bool seeing = false;

  void add_to(CLI::App& verb) {
    verb.add_option("--date", date, "When it was shot: 2026-10-03, or 2026-10-03T18:30 by your clock (else now)")->type_name("DATE");
    verb.add_option("--place", plain.place, "Where you shoot")->type_name("WORDS");
    verb.add_option("--distance", distance, "Grip to target face: 18m, 20yd")->type_name("LENGTH");
    verb.add_option("--temperature", temperature, "Of the air: 15C, 59F (else not said, and 20 C is assumed)")->type_name("DEGREES");
    verb.add_option("--humidity", humidity, "Of the air, in percent")->type_name("PERCENT");
    verb.add_option("--microphone", plain.microphone, "Which one")->type_name("WORDS");
    verb.add_option("--device", plain.device, "What records it")->type_name("WORDS");
    verb.add_option("--chain", plain.chain, "Gain, placing, what else matters")->type_name("WORDS");
    auto* level = verb.add_option("--full-scale-spl", full_scale, "Level of a full-scale peak, if known")->type_name("DB");
    auto* file = verb.add_option("--calibrate", plain.calibration.file,
                                 "Recording of a sound calibrator through the same chain and gain")
                     ->type_name("FILE")->excludes(level);
    verb.add_option("--calibrator", plain.calibration.calibrator_db, "The calibrator's level")
        ->capture_default_str()->check(number_between(60, 140))->type_name("DB")->needs(file);
    verb.add_option("--check-tone", check_tone, "Level at which your check tone comes out")->type_name("DB");
    auto* closed = verb.add_flag("--blind", blind, "Hide each shot's numbers until a comment on it is in");
    verb.add_flag("--not-blind", seeing, "Show them at once")->excludes(closed);
    verb.add_option("--note", plain.note, "A remark")->type_name("WORDS");
  }

  SessionChange understood() const {
    SessionChange change = plain;
    if (date) change.started_at = parse_date(*date);
    change.distance_m = typed_change(distance, parse_distance_m, work::kTargetDistance_m, "m", "--distance");
    change.temperature_c = typed_change(temperature, parse_temperature_c, work::kAir_c, "C", "--temperature");
    change.humidity_percent = typed_change(humidity, parse_plain, work::kHumidity_percent, "%", "--humidity");
    change.full_scale_db_spl = typed_change(full_scale, parse_plain, work::kFullScale_db_spl, "dB", "--full-scale-spl");
    change.check_tone_db = typed_change(check_tone, parse_plain, work::kCheckTone_db, "dB", "--check-tone");
    if (blind) change.blind = true;
    if (seeing) change.blind = false;
    return change;
  }
};

void add_start(CLI::App& app, Verbs& verbs) {
  auto asked = std::make_shared<StartRequest>();
  auto session = std::make_shared<TypedSession>();
  auto fittings = std::make_shared<TypedFittings>();
  auto* verb = add_logbook_verb(app, "start", "Make a logbook: one file that keeps set-ups, shots, sound and comments",
                                "start evening.ringfall --bow recurve --place hall --distance 18m", asked->logbook);
  verb->add_option("--bow", asked->bow, "The bow's name")->capture_default_str()->type_name("NAME");
  session->add_to(*verb);
  fittings->add_to(*verb);
  verbs.emplace_back(verb, [asked, session, fittings] {
    asked->session = session->understood();
    asked->fittings = fittings->understood();
    return *asked;
  });
}

void add_session(CLI::App& app, Verbs& verbs) {
  auto asked = std::make_shared<SessionRequest>();
  auto session = std::make_shared<TypedSession>();
  auto* verb = add_logbook_verb(app, "session", "Start a new session in a logbook (another day, place, bow or chain), or change one",
                                "session evening.ringfall --place wood --distance 30yd --blind", asked->logbook);
  auto* changed = verb->add_option("--change", asked->changed, "Change this session instead of starting one")->type_name("N");
  verb->add_option("--bow", asked->bow, "The bow that is shot (else the one before)")->type_name("NAME")->excludes(changed);
  session->add_to(*verb);
  verb->footer("Example: ringfall session evening.ringfall --place wood --distance 30yd --blind\n\n"
               "A new session takes over from the last what is not given: bow, place, distance, microphone, device, chain, full-scale\n"
               "level, blind or not. Date, temperature, humidity, check tone and remark are its own.");
  verbs.emplace_back(verb, [asked, session, verb] {
    asked->change = session->understood();
    const auto others = verb->get_options([](const CLI::Option* option) {
      return !option->get_positional() && option->count() > 0 && option->get_name() != "--change";
    });
    if (asked->changed && others.empty()) throw RequestFailure("say what is right of the session: --place WORDS, --temperature 15C and so on");
    return *asked;
  });
}

void add_since(CLI::App& verb, std::optional<std::string>& since, bool& always) {
  auto* day = verb.add_option("--since", since, "When it was changed: 2026-06-03, or with the time 2026-06-03T18:30 (else now); sessions before keep "
                                                "what was there then")->type_name("DATE");
  verb.add_flag("--always", always, "It was like that all the time and said wrongly: earlier sessions too")->excludes(day);
}

void add_bow(CLI::App& app, Verbs& verbs) {
  auto* bow = app.add_subcommand("bow", "The bows of a logbook and what is on them");
  bow->footer("Example: ringfall bow change evening.ringfall recurve --draw-weight 40lb --brace 8.5in --arrow-mass 412gr");
  bow->require_subcommand(1);
  const auto with_name = [&](const char* name, const char* what, const char* example, BowRequest::Task task) {
    auto asked = std::make_shared<BowRequest>();
    auto fittings = std::make_shared<TypedFittings>();
    asked->task = task;
    auto* verb = add_logbook_verb(*bow, name, what, example, asked->logbook);
    verb->add_option("name", asked->name, "The bow's name")->required()->type_name("NAME");
    if (task == BowRequest::Task::change) {
      verb->add_option("--name", asked->new_name, "Its new name")->type_name("NAME");
      add_since(*verb, asked->since, asked->always);
    }
    fittings->add_to(*verb);
    verb->add_option("--note", asked->note, "A remark")->type_name("WORDS");
    add_units(*verb, asked->units);
    verbs.emplace_back(verb, [asked, fittings] {
      asked->fittings = fittings->understood();
      if (asked->since) asked->since = parse_date(*asked->since);
      return *asked;
    });
  };
  with_name("add", "A new bow", "bow add evening.ringfall longbow --draw-weight 45lb", BowRequest::Task::add);
  with_name("change", "What is given changes, the rest stays; \"none\" takes a value away",
            "bow change evening.ringfall recurve --brace 8.5in", BowRequest::Task::change);
  auto asked = std::make_shared<BowRequest>();
  auto* verb = add_logbook_verb(*bow, "list", "All bows", "bow list evening.ringfall --units archers", asked->logbook);
  add_units(*verb, asked->units);
  verb->add_flag("--json", asked->json, "One JSON object on standard output");
  verbs.emplace_back(verb, [asked] { return *asked; });
}

void add_setup(CLI::App& app, Verbs& verbs) {
  auto* setup = app.add_subcommand("set-up", "The set-ups of a bow: what differs from the baseline");
  setup->footer("Example: ringfall set-up add evening.ringfall damper --changed \"rubber on both limbs\" --added-mass 24g");
  setup->require_subcommand(1);
  const auto with_name = [&](const char* name, const char* what, const char* example, SetUpRequest::Task task) {
    auto asked = std::make_shared<SetUpRequest>();
    auto fittings = std::make_shared<TypedFittings>();
    auto mass = std::make_shared<TypedText>();
    asked->task = task;
    auto* verb = add_logbook_verb(*setup, name, what, example, asked->logbook);
    verb->add_option("name", asked->name, "The set-up's name")->required()->type_name("NAME");
    if (task == SetUpRequest::Task::change) {
      verb->add_option("--name", asked->new_name, "Its new name")->type_name("NAME");
      add_since(*verb, asked->since, asked->always);
    }
    verb->add_option("--bow", asked->bow, "Of this bow (else that of the last session)")->type_name("NAME");
    verb->add_option("--changed", asked->changed, "What differs from the baseline")->type_name("WORDS");
    verb->add_option("--added-mass", *mass, "What it adds to the bow: 180g, 6.3oz (else the sum of its parts)")->type_name("MASS");
    verb->add_flag("--baseline", asked->baseline, "The others are held against this one");
    fittings->add_to(*verb);
    verb->add_option("--note", asked->note, "A remark")->type_name("WORDS");
    add_units(*verb, asked->units);
    verbs.emplace_back(verb, [asked, fittings, mass] {
      asked->fittings = fittings->understood();
      if (asked->since) asked->since = parse_date(*asked->since);
      asked->added_mass_kg = typed_change(*mass, parse_mass_kg, work::kAddedMass_kg, "kg", "--added-mass");
      return *asked;
    });
  };
  with_name("add", "A new set-up; the bow's first one is the baseline",
            "set-up add evening.ringfall damper --part \"damper, rubber, upper limb, 12g\"", SetUpRequest::Task::add);
  with_name("change", "What is given changes, the rest stays; \"none\" takes a value away",
            "set-up change evening.ringfall damper --brace 8.75in", SetUpRequest::Task::change);
  auto gone = std::make_shared<SetUpRequest>();
  gone->task = SetUpRequest::Task::remove;
  auto* verb = add_logbook_verb(*setup, "remove", "Take away a set-up that has no blocks", "set-up remove evening.ringfall dampr",
                                gone->logbook);
  verb->add_option("name", gone->name, "The set-up's name")->required()->type_name("NAME");
  verb->add_option("--bow", gone->bow, "Of this bow (else that of the last session)")->type_name("NAME");
  verbs.emplace_back(verb, [gone] { return *gone; });
  auto asked = std::make_shared<SetUpRequest>();
  verb = add_logbook_verb(*setup, "list", "All set-ups", "set-up list evening.ringfall", asked->logbook);
  verb->add_option("--bow", asked->bow, "Of this bow only")->type_name("NAME");
  add_units(*verb, asked->units);
  verb->add_flag("--json", asked->json, "One JSON object on standard output");
  verbs.emplace_back(verb, [asked] { return *asked; });
}

void add_block(CLI::App& app, Verbs& verbs) {
  auto asked = std::make_shared<BlockRequest>();
  auto* verb = add_logbook_verb(app, "block", "Put a block right that was kept with the wrong set-up or remark",
                                "block evening.ringfall 3 --setup damper", asked->logbook);
  verb->add_option("number", asked->number, "The block's number in the logbook (see list)")->required()->type_name("BLOCK");
  verb->add_option("--setup", asked->setup, "It was shot with this one, of the same bow")->type_name("NAME");
  verb->add_option("--note", asked->note, "A remark, instead of the one there is")->type_name("WORDS");
  verbs.emplace_back(verb, [asked] {
    if (!asked->setup && !asked->note) throw RequestFailure("say what is right: --setup NAME, --note WORDS or both");
    return *asked;
  });
}

}  // namespace

void add_describing_verbs(CLI::App& app, Verbs& verbs) {
  add_start(app, verbs);
  add_session(app, verbs);
  add_bow(app, verbs);
  add_setup(app, verbs);
  add_block(app, verbs);
}

}  // namespace ringfall::terminal
