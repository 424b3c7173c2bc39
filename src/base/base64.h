// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace ringfall {

/// Bytes as base64 text with padding, without line breaks (RFC 4648 section 4), for data URIs. Tests: base.Base64.*
std::string base64_text(std::string_view bytes);

}  // namespace ringfall
