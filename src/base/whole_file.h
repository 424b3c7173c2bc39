// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>

namespace ringfall {

/// Is a symbolic link at the end of a path followed?
enum class Links { followed, refused };

/// The bytes of a file. FileFailure: it can't be read; it is a folder, pipe or device (which could hang the program or never end);
/// it holds more than `most_bytes`; it is a link and links are refused. Tested: base.WholeFile.*
std::string whole_file(const std::string& path, std::size_t most_bytes, Links links = Links::followed);

}  // namespace ringfall
