// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/window/run.h"

#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>
#include <exception>
#include <string_view>
#include <vector>

#include "base/version.h"
#include "desk/window/window.h"

namespace ringfall::desk {
namespace {

constexpr int kWrongCommand = 2;
constexpr int kOutOfReach = 3;

constexpr const char* kHelp =
    "ringfall-desk [LOGBOOK]\n"
    "  A window to see, hear and compare how a bow sounds.\n"
    "  LOGBOOK: a logbook to open, or a recording to put into one.\n"
    "  --size WxH         size of the window\n"
    "  --shoot FOLDER     write a picture of every place into FOLDER and end\n"
    "  --help, --version\n";

/// "1440x900".
bool read_size(const char* text, WindowRequest& request) {
  char* end = nullptr;
  request.width = static_cast<int>(std::strtol(text, &end, 10));
  if (*end != 'x') return false;
  request.height = static_cast<int>(std::strtol(end + 1, &end, 10));
  return *end == '\0' && request.width >= 400 && request.height >= 300 && request.width <= 8000 && request.height <= 8000;
}

}  // namespace

int run(int argc, char** argv) {
  const std::vector<const char*> words(argv + 1, argv + argc);
  WindowRequest request;
  for (std::size_t k = 0; k < words.size(); ++k) {
    const std::string_view word = words[k];
    const bool more = k + 1 < words.size();
    if (word == "--help") {
      fmt::print("{}", kHelp);
      return 0;
    }
    if (word == "--version") {
      fmt::print("ringfall-desk {}\n", kVersion);
      return 0;
    }
    if (word == "--size" && more && read_size(words[k + 1], request)) ++k;
    else if (word == "--shoot" && more) request.shoot_folder = words[++k];
    else if (!word.starts_with("-") && !request.logbook) request.logbook = word;
    else {
      fmt::print(stderr, "ringfall-desk: '{}' is not understood here; see ringfall-desk --help\n", word);
      return kWrongCommand;
    }
  }
  try {
    return serve_window(request);
  } catch (const std::exception& failure) {
    fmt::print(stderr, "ringfall-desk: {}\n", failure.what());
    return kOutOfReach;
  }
}

}  // namespace ringfall::desk
