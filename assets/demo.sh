#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# From a fresh clone to a report: installs what is missing, builds, makes a synthetic day of shooting, compares it and says
# what came out.   sh assets/demo.sh [FOLDER]     (default: build/demo, made anew; seen from the
# project's folder)
set -eu
cd "$(dirname "$0")/.."
folder=${1:-build/demo}
program=build/ringfall

# Exit status 1 means: done, but something asked for could not be measured, which the output says. No reason to stop.
ringfall() { "$program" "$@" || [ $? -eq 1 ]; }
step() { printf '\n== %s\n' "$*"; }

step "Packages"
sh third_party/install.sh run

step "Build (Release, in build/)"
cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DRINGFALL_TESTS=OFF -DRINGFALL_BENCHMARKS=OFF -DRINGFALL_DESK=OFF \
  -DRINGFALL_BUILD_ONCE=ON -DRINGFALL_WERROR=OFF -DRINGFALL_ASAN_UBSAN=OFF -DRINGFALL_TSAN=OFF
cmake --build build --target ringfall

step "ringfall demo $folder   (invented set-ups, synthetic sound)"
# What this script wrote before may go; a folder of yours that holds something is refused by the program.
if [ $# -eq 0 ]; then rm -rf build/demo; fi
ringfall demo "$folder"

step "ringfall compare $folder   (which set-up is quieter and deader, and how sure is that)"
ringfall compare "$folder"

step "ringfall report $folder"
ringfall report "$folder" -o "$folder/report.html" -o "$folder/report.pdf"

printf '\nThe report is %s/report.html: open it in a browser.\nEvery number: %s compare %s --all\nShot by shot: %s measure %s/block1-bare.wav\n' "$folder" "$program" "$folder" "$program" "$folder"
