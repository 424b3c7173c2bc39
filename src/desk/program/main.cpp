// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/window/run.h"

int main(int argc, char** argv) { return ringfall::desk::run(argc, argv); }
