// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/sheets/overview.h"

#include <algorithm>
#include <cmath>

#include "audio/sound_file.h"
#include "base/failure.h"
#include "base/units.h"

namespace ringfall::desk {
namespace {

constexpr double kPictureFoot_db = -90.0;
constexpr double kReach_s = 0.050;
constexpr double kSilent_db = -100.0;
constexpr std::size_t kFramesARead = 8192;

}  // namespace

std::shared_ptr<const Overview> read_overview(std::int64_t block, const std::string& file, std::optional<int> channel,
                                              std::uint64_t number, Ticket& ticket) {
  auto overview = std::make_shared<Overview>();
  overview->block = block;
  overview->file = file;
  overview->number = number;
  try {
    const auto reader = audio::open_sound(file);
    const audio::SoundFormat format = reader->format();
    const auto channels = static_cast<std::size_t>(format.channels);
    const auto wanted = static_cast<std::size_t>(channel ? *channel - 1 : audio::loudest_channel(file));
    const double frames_a_step = overview->step_s * format.sample_rate_hz;
    std::vector<float> samples(kFramesARead * channels);
    double step_ends = frames_a_step;
    double done = 0.0;
    double peak = 0.0;
    while (const std::size_t got = reader->read(samples)) {
      if (ticket.cancelled()) return nullptr;
      for (std::size_t frame = 0; frame < got; ++frame) {
        peak = std::max(peak, static_cast<double>(std::abs(samples[frame * channels + std::min(wanted, channels - 1)])));
        done += 1.0;
        if (done < step_ends) continue;
        overview->peak_db.push_back(static_cast<float>(std::max(kSilent_db, amplitude_to_db(std::max(peak, 1e-9)))));
        peak = 0.0;
        step_ends += frames_a_step;
      }
      if (format.frames && *format.frames > 0) ticket.report(std::min(1.0, done / static_cast<double>(*format.frames)));
    }
  } catch (const Failure& failure) {
    overview->trouble = failure.what();
  }
  return overview;
}

plot::Figure overview_figure(const Overview& overview, const std::vector<logbook::KeptShot>& shots) {
  plot::Panel panel;
  panel.x = plot::time_axis_s();
  panel.x.low = 0.0;
  panel.x.high = overview.length_s();
  panel.y = plot::level_axis("Peak", "re full scale");
  panel.y.low = kPictureFoot_db;
  panel.y.high = 0.0;
  panel.legend = plot::LegendPlace::none;
  panel.series.emplace_back(plot::sampled_trace(0.0, overview.step_s, {overview.peak_db.begin(), overview.peak_db.end()}, plot::Ink::trace1, ""));
  for (const auto& shot : shots) {
    const bool counts = shot.dropped.empty();
    panel.series.emplace_back(plot::Rule{plot::Along::x, shot.shot.onset_s, std::to_string(shot.id), counts ? plot::Ink::accent : plot::Ink::warning,
                                         counts ? plot::Dash::solid : plot::Dash::dashed});
  }
  plot::Figure figure;
  figure.panels = {panel};
  return figure;
}

double steepest_near(const Overview& overview, double near_s) {
  const auto last = static_cast<std::ptrdiff_t>(overview.peak_db.size()) - 1;
  const auto middle = static_cast<std::ptrdiff_t>(std::llround(near_s / overview.step_s));
  const auto reach = static_cast<std::ptrdiff_t>(std::llround(kReach_s / overview.step_s));
  double best_s = std::clamp(near_s, 0.0, overview.length_s());
  float best_rise = 0.0F;
  for (std::ptrdiff_t k = std::max<std::ptrdiff_t>(1, middle - reach); k <= std::min(last, middle + reach); ++k) {
    const float rise = overview.peak_db[static_cast<std::size_t>(k)] - overview.peak_db[static_cast<std::size_t>(k - 1)];
    if (rise <= best_rise) continue;
    best_rise = rise;
    best_s = overview.step_s * static_cast<double>(k);
  }
  return best_s;
}

}  // namespace ringfall::desk
