// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <vector>

#include "base/base64.h"
#include "base/text.h"
#include "plot/text_width.h"
#include "report/html.h"
#include "report/page_parts.h"
#include "report/sentences.h"
#include "report/setup_figures.h"

namespace ringfall::report {
namespace {

std::string pictures(const std::string& figures) {
  return figures.empty() ? figures : "<div class=\"pictures\">\n" + figures + "</div>\n";
}

std::string one_picture(const std::string& figure) { return "<div class=\"one\">\n" + figure + "</div>\n"; }

/// Main number, hum, ping, A exposure; each once.
std::vector<const shot::Number*> dotted_numbers(const SessionReport& report) {
  std::vector<const shot::Number*> numbers = {report.main_number};
  for (const std::string_view id : {"hum", "ping", "exposure_db"}) {
    const auto* number = shot::find_number(id);
    if (std::ranges::find(numbers, number) == numbers.end()) numbers.push_back(number);
  }
  return numbers;
}

/// For people who can't see the dots: the means.
std::string dots_description(const SessionReport& report, const shot::Number& number) {
  std::string text = fmt::format("Every shot's {} in {} as a dot.", number.label, number.unit);
  for (const auto& setup : report.setups) {
    double sum = 0.0;
    std::size_t n = 0;
    for (const auto& block : compare::values_of(report.source.session, setup.name, number)) {
      for (const double value : block) sum += value;
      n += block.size();
    }
    const auto mean = n > 0 ? std::optional(sum / static_cast<double>(n)) : std::nullopt;
    text += fmt::format(" {}: {} shots, mean {}.", setup.name, n, plain_number(mean, number.decimals));
  }
  return text;
}

std::string tone_table(const SessionReport& report, std::size_t k) {
  const auto& against = report.source.comparison.against[k];
  HtmlTable table(fmt::format("Tones of '{}' beside those of '{}', found in all their tails together. Levels at the start of "
                              "the tail, {}; change with its 95 % interval over shots.",
                              against.setup, report.source.comparison.baseline, report.level_reference));
  table.add_column("Tone", false);
  table.add_column("Family", false);
  table.add_column("Baseline: level [dB]", true);
  table.add_column("ring time", true);
  table.add_column("Set-up: level [dB]", true);
  table.add_column("ring time", true);
  table.add_column("Level change [dB]", true);
  table.add_column("Match", false);
  const auto level = [](const std::optional<SetUpTone>& entry) {
    return entry ? plain_number(entry->tone.level_db, 1) : "-";
  };
  const auto ring = [](const std::optional<SetUpTone>& entry) {
    return entry ? duration_text(entry->tone.ring_time_s) : "-";
  };
  for (const auto& change : report.tone_changes[k]) {
    const auto& tone = change.baseline ? change.baseline->tone : change.setup->tone;
    std::string place = frequency_text(tone.frequency_hz);
    if (change.baseline && change.setup) place += " / " + frequency_text(change.setup->tone.frequency_hz);
    const char* family = tone.family == shot::ToneFamily::hum   ? "hum"
                         : tone.family == shot::ToneFamily::ping ? "ping"
                                                                 : "between";
    std::string by = "-";
    if (change.level_db) {
      by = fmt::format("{} ({})", signed_number(change.level_db->difference, 1), interval_text(change.level_db->interval, 1));
    } else if (change.baseline && change.setup) {
      by = signed_number(change.setup->tone.level_db - change.baseline->tone.level_db, 1);
    }
    table.add_row({place, family, level(change.baseline), ring(change.baseline), level(change.setup), ring(change.setup), by,
                   match_words(change)});
  }
  return table.html();
}

}  // namespace

std::string shots_part(const SessionReport& report) {
  std::string dots;
  for (const auto* number : dotted_numbers(report)) {
    dots += html_figure(dots_figure(report, *number), fmt::format("dots-{}", number->id), dots_description(report, *number),
                        "Every shot a dot; beside them their mean with its 95 % interval.");
  }
  std::string body = pictures(dots);
  if (const auto differences = differences_figure(report)) {
    body += one_picture(html_figure(
        *differences, "differences",
        fmt::format("Differences of every set-up to {} with 95 % intervals. {}", report.source.comparison.baseline,
                    listed(report.verdicts)),
        "A bar that crosses zero is not settled, unless it lies within the shaded band: that holds what a person would not "
        "notice. Where there is no band, "
        "nobody knows what is noticeable."));
  }
  return html_section("shots", "Every shot, and the differences", body);
}

std::string sound_part(const SessionReport& report) {
  std::string body = html_list(report.sound_sentences);
  std::string decays;
  for (const bool a_weighted : {true, false}) {
    if (const auto figure = decays_figure(report, a_weighted)) {
      decays += html_figure(*figure, a_weighted ? "decay-a" : "decay-z",
                            "Decay curves of the set-ups laid over each other, median over shots.",
                            "Median of the shots' decay curves, each from its own start.");
    }
  }
  body += pictures(decays);
  if (const auto figure = tails_figure(report)) {
    body += one_picture(html_figure(*figure, "tails", "Spectra of the tails of the set-ups laid over each other.",
                                    "All tails of a set-up together, after the thump and before the arrow strikes. Marked: "
                                    "the tones that ring. Shaded: where hum (60 to 400 Hz) and ping (0.8 to 8 kHz) lie."));
  }
  for (std::size_t k = 0; k < report.tone_changes.size(); ++k) {
    if (!report.tone_changes[k].empty()) body += tone_table(report, k);
  }
  std::string spectrograms;
  for (std::size_t k = 0; k < report.source.sounds.size(); ++k) {
    const auto figure = typical_figure(report, k);
    if (!figure) continue;
    const auto& sound = report.source.sounds[k];
    spectrograms += html_figure(
        *figure, fmt::format("spectrogram-{}", k + 1), fmt::format("Spectrogram of a typical shot with {}.", sound.setup),
        fmt::format("{}: {}, shot {}, the one nearest the set-up's mean of {}. The same shades mean the same levels in all of "
                    "these.",
                    sound.setup, sound.typical_file, sound.typical_shot->number, report.main_number->label));
  }
  body += pictures(spectrograms);
  return body.empty() ? body : html_section("sound", "Which part of the sound changed", body);
}

std::string listening_part(const SessionReport& report) {
  if (report.source.clips.empty()) return {};
  std::string sounds;
  for (const auto& clip : report.source.clips) {
    const auto label = plot::xml_text(fmt::format("{}: {}, shot {}", clip.setup, clip.file, clip.shot));
    sounds += fmt::format(
        "<figure class=\"sound\">\n<figcaption>{0}</figcaption>\n<audio controls=\"controls\" preload=\"none\" "
        "aria-label=\"{0}\" src=\"data:audio/wav;base64,{1}\"></audio>\n</figure>\n",
        label, base64_text(clip.wav));
  }
  return html_section(
      "listen", "Listen",
      html_paragraph(fmt::format("The typical shots, all with the same gain of {} dB: what is quieter here was quieter. Small "
                                 "loudspeakers do not play the hum; use headphones, and mind the volume.",
                                 signed_number(report.source.clip_gain_db, 1))) +
          pictures(sounds));
}

}  // namespace ringfall::report
