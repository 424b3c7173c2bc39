// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/buzz.h"
namespace ringfall::shot { std::optional<Buzz> buzz_of(std::span<const double>, double, double, double){return {};} std::optional<BuzzClaim> buzz_claimed(std::span<const BuzzEvidence>){return {};} }
