// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ringfall::desk {

/// The program: `ringfall-desk [LOGBOOK]`. Exit status 0 done, 2 the command line was wrong, 3 there is no display or a file can't
/// be used.
int run(int argc, char** argv);

}  // namespace ringfall::desk
