// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/verbs.h"

int main(int argc, char** argv) { return ringfall::terminal::run(argc, argv); }
