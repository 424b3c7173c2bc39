// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "audio/channel_reader.h"
#include "audio/sound_writer.h"
#include "terminal/exit_status.h"
#include "terminal/program.h"

namespace ringfall::terminal {
namespace {

using Json = nlohmann::json;

std::string bare_block() { return fives_folder() + "/block1-bare.wav"; }

/// Every field of docs/output.md, by the object that holds it.
void expect_fields(const Json& object, const std::vector<std::string>& fields, const std::string& where) {
  for (const auto& field : fields) EXPECT_TRUE(object.contains(field)) << where << " lacks " << field;
}

std::vector<float> first_seconds(const std::string& path, double seconds) {
  audio::ChannelReader reader(audio::open_sound(path), 0);
  std::vector<float> samples(static_cast<std::size_t>(seconds * 48000.0));
  EXPECT_EQ(reader.read(samples), samples.size());
  return samples;
}

TEST(MeasureOutput, JsonKeepsItsContract) {
  const auto ran = run_program({"measure", "--json", "--distance", "18m", bare_block()});
  EXPECT_EQ(ran.status, kDone) << ran.error;
  const Json all = Json::parse(ran.out);
  expect_fields(all, {"tool", "settings", "recordings"}, "the object");
  EXPECT_EQ(all["tool"]["name"], "ringfall");
  EXPECT_DOUBLE_EQ(all["settings"]["shot_window_s"].get<double>(), 0.3);
  ASSERT_EQ(all["recordings"].size(), 1U);
  const Json& recording = all["recordings"][0];
  expect_fields(recording,
                {"file", "format", "sample_rate_hz", "channels", "channel", "duration_s", "level_reference",
                 "full_scale_db_spl", "findings", "shots"},
                "a recording");
  EXPECT_EQ(recording["level_reference"], "re full scale");
  EXPECT_TRUE(recording["full_scale_db_spl"].is_null());
  ASSERT_EQ(recording["shots"].size(), 5U);
  for (const Json& shot : recording["shots"]) {
    expect_fields(shot,
                  {"number", "onset_s", "tail_end_s", "impact_lag_s", "arrow_speed_m_s", "hits", "levels", "ring_down",
                   "tones", "hum", "ping", "buzz", "findings"},
                  "a shot");
    expect_fields(shot["levels"],
                  {"peak_db", "exposure_db", "exposure_z_db", "exposure_high_db", "fast_max_db", "loudness_sone",
                   "sharpness_acum", "floor_db"},
                  "levels");
    expect_fields(shot["ring_down"],
                  {"early_s", "late_s", "early_z_s", "late_z_s", "range_db", "to_20_db_s", "bands"}, "ring_down");
    ASSERT_FALSE(shot["tones"].empty());
    expect_fields(shot["tones"][0], {"frequency_hz", "level_db", "ring_time_s", "damping_ratio", "family"}, "a tone");
    expect_fields(shot["hits"][0], {"lag_s", "level_db"}, "a hit");
    // The demo's arrows fly at about 57 m/s over 18 m.
    EXPECT_NEAR(shot["arrow_speed_m_s"].get<double>(), 57.0, 1.0);
  }
  for (const Json& finding : recording["findings"]) {
    expect_fields(finding, {"code", "severity", "voids", "sentence"}, "a finding");
  }
}

TEST(MeasureOutput, LevelsFollowTheFullScale) {
  const auto plain = Json::parse(run_program({"measure", "--json", bare_block()}).out);
  const auto known = Json::parse(run_program({"measure", "--json", "--full-scale-spl", "118", bare_block()}).out);
  const double low = plain["recordings"][0]["shots"][0]["levels"]["exposure_db"];
  const double high = known["recordings"][0]["shots"][0]["levels"]["exposure_db"];
  EXPECT_NEAR(high - low, 118.0, 1e-6);
  EXPECT_EQ(known["recordings"][0]["level_reference"], "re 20 uPa");
}

TEST(MeasureOutput, AVoidedNumberIsNullWithAFindingAndStatusOne) {
  const auto ran = run_program({"measure", "--json", demo_folder() + "/block13-gain-too-high.wav"});
  EXPECT_EQ(ran.status, kNotMeasured);
  const Json all = Json::parse(ran.out);
  for (const Json& shot : all["recordings"][0]["shots"]) {
    EXPECT_TRUE(shot["levels"]["peak_db"].is_null());
    const auto& findings = shot["findings"];
    EXPECT_TRUE(std::any_of(findings.begin(), findings.end(), [](const Json& finding) {
      return finding["code"] == "clipped" && finding["severity"] == "void";
    }));
  }
}

TEST(MeasureOutput, RecordingsComeInTheOrderAskedHoweverManyJobs) {
  const std::vector<std::string> files = {fives_folder() + "/block3-felt-cuff.wav", bare_block(),
                                          fives_folder() + "/block2-clay-ring.wav"};
  const auto one = run_program({"measure", "--json", "--jobs", "1", files[0], files[1], files[2]});
  const auto three = run_program({"measure", "--json", "--jobs", "3", files[0], files[1], files[2]});
  EXPECT_EQ(one.out, three.out);
  const Json all = Json::parse(one.out);
  for (std::size_t k = 0; k < files.size(); ++k) EXPECT_EQ(all["recordings"][k]["file"], files[k]);
}

TEST(MeasureOutput, OneBadRecordingDoesNotStopTheOthers) {
  const auto ran = run_program({"measure", "--json", "gone.wav", bare_block()});
  EXPECT_EQ(ran.status, kUnusable);
  EXPECT_EQ(Json::parse(ran.out)["recordings"].size(), 1U);
  EXPECT_NE(ran.error.find("gone.wav"), std::string::npos);
}

TEST(MeasureOutput, AChannelThatIsNotThereIsSaidWithTheFilesName) {
  const auto ran = run_program({"measure", "--channel", "9", bare_block()});
  EXPECT_EQ(ran.status, kUnusable);
  EXPECT_NE(ran.error.find("block1-bare.wav"), std::string::npos) << ran.error;
}

TEST(MeasureOutput, CsvHasALineAShot) {
  const auto ran = run_program({"measure", "--csv", bare_block()});
  EXPECT_EQ(std::count(ran.out.begin(), ran.out.end(), '\n'), 6);
  EXPECT_EQ(ran.out.substr(0, 15), "file,shot,onset");
}

TEST(MeasureOutput, TextIsPlainWithoutATerminal) {
  const auto ran = run_program({"measure", bare_block()});
  EXPECT_EQ(ran.out.find('\x1b'), std::string::npos);
  EXPECT_NE(ran.out.find("exposure"), std::string::npos);
  EXPECT_NE(ran.out.find("Tones in the tail"), std::string::npos);
  EXPECT_TRUE(ran.error.empty()) << ran.error;
}

TEST(MeasureOutput, HumAndPingAreEachExcused) {
  const TestFolder folder;
  auto sound = first_seconds(bare_block(), 2.04);  // the first shot is at 2.0 s
  audio::write_wav(folder.path("cut.wav"), sound, 48000.0);
  const auto text = run_program({"measure", folder.path("cut.wav")}).out;
  EXPECT_NE(text.find("void, shot 1: Hum needs"), std::string::npos) << text;
  EXPECT_NE(text.find("void, shot 1: Ping needs"), std::string::npos) << text;
}

TEST(MeasureOutput, NoShotIsSaidSo) {
  const TestFolder folder;
  audio::write_wav(folder.path("silence.wav"), std::vector<float>(96000, 0.0F), 48000.0);
  const auto ran = run_program({"measure", folder.path("silence.wav")});
  EXPECT_EQ(ran.status, kNotMeasured);
  EXPECT_NE(ran.out.find("No shot was found."), std::string::npos);
}

TEST(MeasureOutput, PicturesAreWrittenForEveryShot) {
  const TestFolder folder;
  const auto ran = run_program({"measure", bare_block(), "--expect", "2", "--plot", folder.path("p")});
  std::size_t pictures = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path("p"))) {
    EXPECT_GT(entry.file_size(), 2000U) << entry.path();
    ++pictures;
  }
  EXPECT_EQ(pictures, 2U * 4U * 2U);  // two shots, four pictures, SVG and PNG
  EXPECT_EQ(ran.status, kDone);
}

TEST(MeasureOutput, PicturesOfNamesakesStayApart) {
  const TestFolder folder;
  for (const char* place : {"a", "b"}) {
    std::filesystem::create_directories(folder.path(place));
    audio::write_wav(folder.path(place) + "/same.wav", first_seconds(bare_block(), 4.0), 48000.0);
  }
  const auto ran = run_program({"measure", folder.path("a") + "/same.wav", folder.path("b") + "/same.wav", "--plot", folder.path("p")});
  std::size_t pictures = 0;
  for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(folder.path("p"))) ++pictures;
  EXPECT_EQ(pictures, 2U * 4U * 2U) << ran.error;  // one shot each, four pictures, SVG and PNG
}

TEST(MeasureOutput, ANameCanNotSteerTheTerminal) {
  const TestFolder folder;
  const std::string path = folder.path("a\nb\x1b[31m.wav");
  audio::write_wav(path, std::vector<float>(48000, 0.0F), 48000.0);
  const auto ran = run_program({"measure", path});
  EXPECT_NE(ran.out.find("a?b?[31m.wav"), std::string::npos) << ran.out;
}

TEST(CompareOutput, DemoComesOutAsItWasMade) {
  const auto ran = run_program({"compare", demo_folder(), "--main", "hum", "--json"});
  EXPECT_EQ(ran.status, kDone) << ran.error;
  const Json all = Json::parse(ran.out);
  EXPECT_EQ(all["baseline"], "bare");
  ASSERT_EQ(all["against"].size(), 2U);
  for (const Json& against : all["against"]) {
    const Json& main = against["numbers"][0];
    EXPECT_EQ(main["number"], "hum");
    EXPECT_EQ(against["unit"], "block");
  }
  EXPECT_EQ(run_program({"compare", demo_folder(), "--csv"}).status, kDone);
}

TEST(CompareOutput, WrongNamesAreAnsweredWithTheNearest) {
  const auto number = run_program({"compare", demo_folder(), "--main", "humm"});
  EXPECT_EQ(number.status, kBadCommand);
  EXPECT_NE(number.error.find("did you mean 'hum'?"), std::string::npos);
  const auto setup = run_program({"compare", demo_folder(), "--baseline", "bar"});
  EXPECT_NE(setup.error.find("did you mean 'bare'?"), std::string::npos);
  EXPECT_EQ(run_program({"compare", "no-such-folder"}).status, kUnusable);
}

}  // namespace
}  // namespace ringfall::terminal
