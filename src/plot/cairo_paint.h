// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "plot/picture.h"

namespace ringfall::plot {

/// An Image mark alone as a PNG of its own pixels, for embedding.
std::string image_png(const Image& image, Theme theme);

}  // namespace ringfall::plot
