// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <string_view>
#include <utility>
#include <vector>

#include "base/text.h"
#include "report/document_parts.h"
#include "report/sentences.h"
#include "report/setup_figures.h"
#include "report/tone_change.h"

namespace ringfall::report {
namespace {

/// Nothing when there is no figure.
void add_drawings(Section& section, Drawings drawings) {
  if (!drawings.figures.empty()) section.pieces.emplace_back(std::move(drawings));
}

/// Quiet, hum, ping, and the number that was asked for; each once.
std::vector<const shot::Number*> dotted_numbers(const SessionReport& report) {
  std::vector<const shot::Number*> numbers;
  for (const std::string_view id : {"exposure_db", "hum", "ping"}) numbers.push_back(shot::find_number(id));
  if (std::ranges::find(numbers, report.main_number) == numbers.end()) numbers.push_back(report.main_number);
  return numbers;
}

/// "bare -43.4, cuff -44.6 dB".
std::string means_text(const SessionReport& report, const shot::Number& number) {
  std::string text;
  for (std::size_t k = 0; k < report.setups.size(); ++k) {
    const auto* spread = spread_of_setup(report, k, number);
    text += fmt::format("{}{} {}", text.empty() ? "" : ", ", report.setups[k].name, plain_number(spread ? spread->mean : std::nullopt, number.decimals));
  }
  return number.unit == "points" ? text : text + " " + std::string(number.unit);
}

/// For people who can't see the dots: the means.
std::string dots_description(const SessionReport& report, const shot::Number& number) {
  std::string text = fmt::format("Every shot's {} in {} as a dot.", number.label, number.unit);
  for (std::size_t k = 0; k < report.setups.size(); ++k) {
    if (const auto* spread = spread_of_setup(report, k, number)) {
      text += fmt::format(" {}: {}, mean {}.", report.setups[k].name, counted(spread->n, "shot"), plain_number(spread->mean, number.decimals));
    }
  }
  return text;
}

/// "-11.3 (-13.1 to -9.6)".
std::string change_text(const std::optional<stats::Difference>& change, int decimals) {
  if (!change) return "-";
  return fmt::format("{} ({})", signed_number(change->difference, decimals), interval_text(change->interval, decimals));
}

std::string level_change_text(const ToneChange& change) {
  if (change.level_db || !change.baseline || !change.setup) return change_text(change.level_db, 1);
  return signed_number(change.setup->tone.level_db - change.baseline->tone.level_db, 1);
}

Table tone_table(const SessionReport& report, std::size_t k) {
  const auto& against = report.source.comparison.against[k];
  Table table;
  table.caption = fmt::format("Tones of '{}' beside those of '{}', found in all their tails together. Levels at the start of "
                              "the tail, {}; changes with their 95 % intervals, over blocks where both have several with the tone.",
                              against.setup, report.source.comparison.baseline, report.level_reference);
  table.columns.push_back({"Tone", false});
  table.columns.push_back({"What became of it", false});
  table.columns.push_back({"Level change [dB]", true});
  table.columns.push_back({"Ring time change [s]", true});
  table.columns.push_back({"Family", false});
  table.columns.push_back({"Baseline [dB]", true});
  table.columns.push_back({"ring time [s]", true});
  table.columns.push_back({"Set-up [dB]", true});
  table.columns.push_back({"ring time [s]", true});
  const auto level = [](const std::optional<SetUpTone>& entry) {
    return entry ? plain_number(entry->tone.level_db, 1) : "-";
  };
  const auto ring = [](const std::optional<SetUpTone>& entry) {
    return entry ? plain_number(entry->tone.ring_time_s, 3) : "-";
  };
  for (const auto& change : report.tone_changes[k]) {
    const auto& tone = change.baseline ? change.baseline->tone : change.setup->tone;
    std::string place = frequency_text(tone.frequency_hz);
    if (change.baseline && change.setup) place += " / " + frequency_text(change.setup->tone.frequency_hz);
    table.rows.push_back({place, match_words(change), level_change_text(change), change_text(change.ring_time_s, 3),
                          family_word(tone.family), level(change.baseline), ring(change.baseline), level(change.setup), ring(change.setup)});
  }
  return table;
}

}  // namespace

Drawings answer_pictures(const SessionReport& report) {
  Drawings dots;
  dots.across = Across::three;
  for (const auto* number : dotted_numbers(report)) {
    auto figure = dots_figure(report, *number);
    figure.title = number->id == "exposure_db" ? "Loudness (lower is quieter)" : std::string(number->label) + " (lower is deader)";
    if (number->id != "exposure_db" && number->id != "hum" && number->id != "ping") figure.title = number->label;
    if (!figure.title.empty()) figure.title[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(figure.title[0])));
    figure.width_pt = 250.0;
    figure.height_pt = 200.0;
    dots.figures.push_back({fmt::format("dots-{}", number->id), std::move(figure), dots_description(report, *number),
                            "Means: " + means_text(report, *number) + "."});
  }
  return dots;
}

Section shots_part(const SessionReport& report) {
  Section section{"shots", "The differences", {}};
  if (auto differences = differences_figure(report)) {
    Drawn drawn{"differences", std::move(*differences),
                fmt::format("Differences of every set-up to {} with 95 % intervals. {}", report.source.comparison.baseline,
                            listed(report.verdicts)),
                "A bar that crosses zero is not settled, unless it lies within the shaded band: that holds what a person would "
                "not notice. Where there is no band, nobody knows what is noticeable."};
    add_drawings(section, {{std::move(drawn)}, Across::one, Faces::page});
  }
  return section;
}

Section sound_part(const SessionReport& report) {
  Section section{"sound", "Which part of the sound changed", {}};
  if (!report.sound_sentences.empty()) section.pieces.emplace_back(Points{report.sound_sentences});
  Drawings decays;
  for (const bool a_weighted : {true, false}) {
    if (auto figure = decays_figure(report, a_weighted)) {
      decays.figures.push_back({a_weighted ? "decay-a" : "decay-z", std::move(*figure),
                                "Decay curves of the set-ups laid over each other, median over shots.",
                                "Median of the shots' decay curves, each from its own start."});
    }
  }
  add_drawings(section, std::move(decays));
  if (auto figure = tails_figure(report)) {
    Drawn drawn{"tails", std::move(*figure), "Spectra of the tails of the set-ups laid over each other.",
                "All tails of a set-up together, after the thump and before the arrow strikes. Marked: the tones that ring. "
                "Shaded: where hum (60 to 400 Hz) and ping (0.8 to 8 kHz) lie."};
    add_drawings(section, {{std::move(drawn)}, Across::one});
  }
  for (std::size_t k = 0; k < report.tone_changes.size(); ++k) {
    if (!report.tone_changes[k].empty()) section.pieces.emplace_back(tone_table(report, k));
  }
  Drawings spectrograms;
  spectrograms.faces = Faces::page;
  for (std::size_t k = 0; k < report.source.sounds.size(); ++k) {
    auto figure = typical_figure(report, k);
    if (!figure) continue;
    const auto& sound = report.source.sounds[k];
    spectrograms.figures.push_back(
        {fmt::format("spectrogram-{}", k + 1), std::move(*figure), fmt::format("Spectrogram of a typical shot with {}.", sound.setup),
         fmt::format("{}: {}, shot {}, the one nearest the set-up's mean of {}. The same shades mean the same levels in all of "
                     "these.",
                     sound.setup, sound.typical_file, sound.typical_shot->number, report.main_number->label)});
  }
  add_drawings(section, std::move(spectrograms));
  return section;
}

Section listening_part(const SessionReport& report) {
  Section section{"listen", "Listen", {}};
  if (report.source.clips.empty()) return section;
  section.pieces.emplace_back(
      Words{fmt::format("The typical shots, all with the same gain of {} dB: what is quieter here was quieter. Small loudspeakers "
                        "do not play the hum; use headphones, and mind the volume.",
                        signed_number(report.source.clip_gain_db, 1)),
            WordsStyle::plain});
  Sounds sounds;
  for (const auto& clip : report.source.clips) {
    sounds.sounds.push_back({fmt::format("{}: {}, shot {}", clip.setup, clip.file, clip.shot), "audio/flac", clip.flac});
  }
  section.pieces.emplace_back(std::move(sounds));
  return section;
}

}  // namespace ringfall::report
