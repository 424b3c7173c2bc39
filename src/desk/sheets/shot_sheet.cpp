// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/sheets/shot_sheet.h"

#include <fmt/format.h>

#include <algorithm>

#include "intake/kept_clip.h"
#include "report/shot_figures.h"
#include "shot/portrait.h"
#include "shot/settings.h"

namespace ringfall::desk {

std::shared_ptr<const ShotSheet> read_shot(const logbook::Logbook& logbook, const BookSheet& book, const ShotAt& at,
                                           std::uint64_t number) {
  const logbook::KeptShot& kept = book.shot(at);
  const shot::Clip clip = intake::kept_clip(logbook, kept.id);
  const shot::Scale scale{book.conditions_of(book.block(at)).full_scale_db_spl};
  const shot::MeasureSettings settings;
  const auto portrait = shot::portrait_of(clip, scale, settings);
  auto sheet = std::make_shared<ShotSheet>();
  sheet->number = number;
  sheet->id = kept.id;
  const std::string reference = book.level_reference(book.block(at));
  const auto set = [&](ShotPicture picture, plot::Figure figure) {
    figure.title.clear();  // the window says whose it is
    sheet->figures[static_cast<std::size_t>(picture)] = std::move(figure);
  };
  set(ShotPicture::wave, report::wave_figure(portrait, kept.shot, ""));
  set(ShotPicture::spectrogram, report::spectrogram_figure(portrait, kept.shot, "", reference));
  set(ShotPicture::decay, report::decay_figure(portrait, kept.shot, ""));
  set(ShotPicture::tail, report::tail_figure(portrait, kept.shot, "", reference));
  sheet->samples = clip.samples;
  sheet->sample_rate_hz = clip.sample_rate_hz;
  sheet->edge_s = static_cast<double>(clip.onset_sample - clip.first_sample) / clip.sample_rate_hz;
  const double length_s = static_cast<double>(clip.samples.size()) / clip.sample_rate_hz;
  sheet->tail_begin_s = std::min(length_s, sheet->edge_s + settings.hum_tail_start_s);
  const double tail_s = kept.shot.tail_end_s.value_or(kept.shot.onset_s) - kept.shot.onset_s;  // not measured: nothing to listen to
  sheet->tail_end_s = std::clamp(sheet->edge_s + tail_s, sheet->tail_begin_s, length_s);
  return sheet;
}

}  // namespace ringfall::desk
