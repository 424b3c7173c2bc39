// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "desk/sheets/book_sheet.h"
#include "plot/figure.h"

namespace ringfall::desk {

/// The four pictures of a shot.
enum class ShotPicture { wave, spectrogram, decay, tail };
inline constexpr int kShotPictures = 4;

/// One shot, ready to be looked into and listened to.
struct ShotSheet {
  std::int64_t id = 0;
  std::uint64_t number = 0;       ///< tells one reading of it from the next
  std::array<plot::Figure, kShotPictures> figures;
  std::vector<float> samples;     ///< the kept clip
  double sample_rate_hz = 0.0;
  double edge_s = 0.0;            ///< of the loud edge in `samples`
  double tail_begin_s = 0.0;      ///< of the tail in `samples`, to listen to
  double tail_end_s = 0.0;
};

/// Takes the kept sound apart again, for the pictures; the numbers are those the logbook keeps. Some 50 ms a shot.
std::shared_ptr<const ShotSheet> read_shot(const logbook::Logbook& logbook, const BookSheet& book, const ShotAt& at,
                                           std::uint64_t number);

}  // namespace ringfall::desk
