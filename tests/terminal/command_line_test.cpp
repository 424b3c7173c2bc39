// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/command_line.h"

#include <gtest/gtest.h>

#include "shot/numbers.h"
#include "terminal/exit_status.h"
#include "terminal/program.h"

namespace ringfall::terminal {
namespace {

MeasureRequest measure_request(std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), "measure");
  const auto reading = read_command_line(std::move(arguments));
  if (const auto* answer = std::get_if<Answer>(&reading)) {
    ADD_FAILURE() << answer->text;
    return {};
  }
  return std::get<MeasureRequest>(std::get<Request>(reading));
}

int status_of(const std::vector<std::string>& arguments) {
  const auto reading = read_command_line(arguments);
  const auto* answer = std::get_if<Answer>(&reading);
  return answer == nullptr ? -1 : answer->status;
}

TEST(CommandLine, UnderstandsUnits) {
  const auto request = measure_request({"a.wav", "--distance", "20yd", "--arrow-speed", "197fps", "--temperature", "59F"});
  // By the international yard and foot: 20 yd = 18.288 m, 197 ft/s = 60.0456 m/s; 59 F = 15 C.
  EXPECT_NEAR(request.hear.settings.find.distance_m.value(), 18.288, 1e-9);
  EXPECT_NEAR(request.hear.settings.find.arrow_speed_m_s.value(), 60.0456, 1e-9);
  EXPECT_NEAR(request.hear.settings.find.temperature_c, 15.0, 1e-9);
}

TEST(CommandLine, KeepsWhatIsAsked) {
  const auto request = measure_request({"a.wav", "b.wav", "--json", "--expect", "6", "--channel", "2", "--jobs", "1"});
  EXPECT_EQ(request.recordings.size(), 2U);
  EXPECT_EQ(request.form, Form::json);
  EXPECT_EQ(request.hear.settings.find.expect, 6);
  EXPECT_EQ(request.hear.channel, 2);
  EXPECT_FALSE(request.picture_folder.has_value());
}

TEST(CommandLine, RefusesNonsense) {
  EXPECT_EQ(status_of({}), kBadCommand);
  EXPECT_EQ(status_of({"meassure", "a.wav"}), kBadCommand);
  EXPECT_EQ(status_of({"measure"}), kBadCommand);
  EXPECT_EQ(status_of({"measure", "a.wav", "--json", "--csv"}), kBadCommand);
  EXPECT_EQ(status_of({"measure", "a.wav", "--distance", "20 furlongs"}), kBadCommand);
  EXPECT_EQ(status_of({"measure", "a.wav", "--distance", "0.2m"}), kBadCommand);
  EXPECT_EQ(status_of({"measure", "a.wav", "--expect", "0"}), kBadCommand);
  EXPECT_EQ(status_of({"measure", "a.wav", "--calibrator", "94"}), kBadCommand);
  EXPECT_EQ(status_of({"measure", "a.wav", "--full-scale-spl", "120", "--calibrate", "c.wav"}), kBadCommand);
  EXPECT_EQ(status_of({"report", "demo"}), kBadCommand);
}

std::string complaint_of(const std::vector<std::string>& arguments) {
  const auto reading = read_command_line(arguments);
  const auto* answer = std::get_if<Answer>(&reading);
  return answer == nullptr ? "" : answer->text;
}

TEST(CommandLine, SaysWhatIsWrong) {
  EXPECT_NE(complaint_of({"mesure", "a.wav"}).find("did you mean 'measure'?"), std::string::npos);
  EXPECT_NE(complaint_of({}).find("measure, "), std::string::npos);
  // The second word of a verb too.
  EXPECT_NE(complaint_of({"set-up", "ad", "book"}).find("there is no verb 'set-up ad'; did you mean 'add'?"), std::string::npos)
      << complaint_of({"set-up", "ad", "book"});
  EXPECT_NE(complaint_of({"bow"}).find("say what to do: add, change, list; `ringfall bow --help`"), std::string::npos)
      << complaint_of({"bow"});
  EXPECT_EQ(status_of({"bow", "lst"}), kBadCommand);
  for (const char* channel : {"0", "x", "-1"}) {
    const std::string text = complaint_of({"measure", "a.wav", "--channel", channel});
    EXPECT_NE(text.find("from 1"), std::string::npos) << text;
    EXPECT_LT(text.size(), 150U) << text;
  }
  for (const char* no_number : {"nan", "inf", "59", "201"}) {
    EXPECT_EQ(status_of({"measure", "a.wav", "--full-scale-spl", no_number}), kBadCommand) << no_number;
  }
}

TEST(CommandLine, AnUnknownOptionGetsTheNearest) {
  EXPECT_NE(complaint_of({"comment", "book", "1", "--humm", "3"}).find("there is no option '--humm'; did you mean '--hum'?"),
            std::string::npos) << complaint_of({"comment", "book", "1", "--humm", "3"});
  EXPECT_NE(complaint_of({"measure", "--jsn", "a.wav"}).find("did you mean '--json'?"), std::string::npos);
  EXPECT_NE(complaint_of({"correct", "b", "1", "--mised=3"}).find("did you mean '--missed'?"), std::string::npos) << "in a group too";
  EXPECT_NE(complaint_of({"set-up", "add", "b", "n", "--bse"}).find("there is no option '--bse'"), std::string::npos);
  EXPECT_NE(complaint_of({"--jason", "measure"}).find("there is no option '--jason'"), std::string::npos);
  EXPECT_EQ(complaint_of({"comment", "book", "1", "--", "--humm"}), "") << "words after -- are words";
}

TEST(CommandLine, ComplaintsAreForPeople) {
  EXPECT_NE(complaint_of({"measure"}).find("the recording is missing; `ringfall measure --help`"), std::string::npos) << complaint_of({"measure"});
  EXPECT_NE(complaint_of({"add", "b", "a.wav"}).find("--setup is needed"), std::string::npos) << complaint_of({"add", "b", "a.wav"});
  EXPECT_NE(complaint_of({"add", "b", "a.wav", "--setup"}).find("--setup wants a value (NAME)"), std::string::npos)
      << complaint_of({"add", "b", "a.wav", "--setup"});
  EXPECT_NE(complaint_of({"measure", "a.wav", "--json", "--csv"}).find("can't both be given"), std::string::npos);
  EXPECT_NE(complaint_of({"measure", "a.wav", "--calibrator", "94"}).find("--calibrator goes with --calibrate"), std::string::npos);
  EXPECT_NE(complaint_of({"list", "b", "c"}).find("'c' is too much here"), std::string::npos) << complaint_of({"list", "b", "c"});
  EXPECT_NE(complaint_of({"list", "b", "--units", "imperial"}).find("'imperial' is not known; metric or archers is"), std::string::npos);
  EXPECT_NE(complaint_of({"show", "b", "x"}).find("'x' must be a whole number from 1"), std::string::npos) << complaint_of({"show", "b", "x"});
  EXPECT_NE(complaint_of({"session", "b", "--check-tone", "x"}).find("'x' is not a number"), std::string::npos);
  EXPECT_NE(complaint_of({"session", "b", "--calibrate", "f", "--calibrator", "20"}).find("must be a number from 60 to 140"), std::string::npos);
  EXPECT_NE(complaint_of({"plan", "a", "a"}).find("'a' is named twice"), std::string::npos);
  EXPECT_NE(complaint_of({"plan", "a"}).find("setup wants 2 values at the least"), std::string::npos) << complaint_of({"plan", "a"});
  for (const auto& words : {std::vector<std::string>{"measure"}, {"plan", "a"}, {"set-up", "add"}, {"correct", "b", "1"}, {"report", "d"},
                            {"play", "b", "1", "2", "3"}, {"bow", "add", "b"}, {"list", "b", "--units"},
                            {"measure", "a", "--channel", "1", "--channel", "2"}}) {
    const std::string said = complaint_of(words);
    EXPECT_FALSE(said.empty()) << words[0];
    for (const char* internal : {"subcommand", "required", "excludes", "argument", "Option", "TEXT", "At Most", "At least", "Run with", "{"}) {
      EXPECT_EQ(said.find(internal), std::string::npos) << said;
    }
  }
}

TEST(CommandLine, AValueThatCantBeIsNamedWithItsOptionAndUnit) {
  const auto said = [](const char* option, const char* value) { return complaint_of({"start", "b", option, value}); };
  EXPECT_NE(said("--temperature", "300").find("--temperature: '300' can't be; it must lie between -40 and 60 C"), std::string::npos)
      << said("--temperature", "300");
  EXPECT_NE(said("--humidity", "120").find("--humidity: '120' can't be; it must lie between 0 and 100 %"), std::string::npos);
  EXPECT_NE(said("--arrow-mass", "9lb").find("between 0.005 and 0.2 kg"), std::string::npos) << said("--arrow-mass", "9lb");
  EXPECT_NE(said("--brace", "8").find("--brace: '8' has no unit; write mm, cm, in or m behind it"), std::string::npos) << said("--brace", "8");
  EXPECT_NE(said("--temperature", "20K").find("--temperature: '20K': the unit 'K' is not known here"), std::string::npos);
  EXPECT_NE(complaint_of({"session", "b", "--change", "1"}).find("say what is right of the session"), std::string::npos);
  EXPECT_EQ(complaint_of({"session", "b", "--change", "1", "--not-blind"}), "");
  EXPECT_EQ(complaint_of({"session", "b"}), "");
  EXPECT_NE(complaint_of({"help"}).find("completion, listen, devices, play, chain; `ringfall --help` says what they do"), std::string::npos)
      << complaint_of({"help"});
  EXPECT_NE(complaint_of({"bow", "shwo"}).find("there is no verb 'bow shwo'; there are: add, change, list; `ringfall bow --help`"), std::string::npos)
      << complaint_of({"bow", "shwo"});
}

TEST(CommandLine, HelpIsInPlainWords) {
  // Every verb there is, those of two words too.
  std::vector<std::vector<std::string>> verbs;
  for (const char* one : {"measure", "demo", "compare", "report", "plan", "season", "hunting", "start", "session", "block", "add", "list", "show",
                          "comment", "drop", "restore", "correct", "copy", "check", "export", "import", "remeasure", "listen", "devices", "play",
                          "chain", "completion"}) {
    verbs.push_back({one, "--help"});
  }
  for (const char* thing : {"bow", "set-up"}) {
    for (const char* task : {"add", "change", "list"}) verbs.push_back({thing, task, "--help"});
  }
  verbs.push_back({"set-up", "remove", "--help"});
  verbs.push_back({"--help"});
  for (const auto& words : verbs) {
    const std::string help = complaint_of(words);
    EXPECT_NE(help.find("Usage"), std::string::npos) << words[0];
    for (const char* internal : {"POSITIVE", "FLOAT", "INT", "TEXT", "UINT", "(2x)", " x 2", "REQUIRED", "Needs:", "Excludes:", "{", "SUBCOMMAND", "Option Group",
                                 "metric|archers:"}) {
      EXPECT_EQ(help.find(internal), std::string::npos) << words[0] << " shows " << internal << "\n" << help;
    }
  }
  EXPECT_EQ(complaint_of({"report", "--help"}).find("FILE ..."), std::string::npos) << "one name after each -o";
  EXPECT_NE(complaint_of({"measure", "--help"}).find("FILE ..."), std::string::npos) << "several recordings";
}

TEST(CommandLine, HelpNamesTheNumbersThatThereAre) {
  for (const char* verb : {"compare", "report", "plan"}) {
    const std::string help = complaint_of({verb, "--help"});
    const auto numbers = help.find("Numbers: hum, ");
    ASSERT_NE(numbers, std::string::npos) << help;
    for (const auto& number : shot::numbers()) EXPECT_NE(help.find(number.id, numbers), std::string::npos) << verb << number.id;
    for (std::size_t begin = numbers; begin != std::string::npos;) {
      const auto end = help.find('\n', begin);
      EXPECT_LE((end == std::string::npos ? help.size() : end) - begin, 100U) << help;
      begin = end == std::string::npos ? end : end + 1;
    }
  }
}

TEST(CommandLine, HelpAndVersionAnswer) {
  EXPECT_EQ(status_of({"--help"}), kDone);
  EXPECT_EQ(status_of({"--version"}), kDone);
  for (const char* verb : {"measure", "demo", "compare", "report"}) {
    const auto reading = read_command_line({verb, "--help"});
    const auto* answer = std::get_if<Answer>(&reading);
    ASSERT_NE(answer, nullptr) << verb;
    EXPECT_EQ(answer->status, kDone) << verb;
    EXPECT_NE(answer->text.find("Example:"), std::string::npos) << verb;
  }
}

TEST(Program, ExitStatusSaysWhatHappened) {
  EXPECT_EQ(run_program({"--help"}).status, kDone);
  EXPECT_EQ(run_program({"nonsense"}).status, kBadCommand);
  const auto missing = run_program({"measure", "no-such-file.wav"});
  EXPECT_EQ(missing.status, kUnusable);
  EXPECT_NE(missing.error.find("no-such-file.wav"), std::string::npos);
  EXPECT_TRUE(missing.out.empty());
}

}  // namespace
}  // namespace ringfall::terminal
