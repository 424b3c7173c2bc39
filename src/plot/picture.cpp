// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/picture.h"

namespace ringfall::plot {

std::vector<Point> outline_of(const Rect& place) {
  return {{place.left, place.top},
          {place.right, place.top},
          {place.right, place.bottom},
          {place.left, place.bottom}};
}

}  // namespace ringfall::plot
