#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs what is missing, builds and runs every test:   sh tests/run.sh [--quick]
#   1. Release, warnings as errors, all tests
#   2. address and undefined-behaviour sanitizers, all tests but those labelled slow_under_sanitizer
#   3. thread sanitizer, the tests labelled threads
# --quick stops after the first. The last lines are ctest's summary.
set -eu
cd "$(dirname "$0")/.."
case "${1:-}" in
  "") quick=no ;;
  --quick) quick=yes ;;
  *)
    echo "usage: sh tests/run.sh [--quick]" >&2
    exit 2
    ;;
esac

step() { printf '\n== %s\n' "$*"; }

# configure FOLDER OPTION...
configure() {
  folder=$1
  shift
  # Every option, since a folder remembers what another script said in it; the last word counts.
  cmake -S . -B "$folder" -G Ninja -DRINGFALL_TESTS=ON -DRINGFALL_DESK=ON -DRINGFALL_BENCHMARKS=OFF -DRINGFALL_BUILD_ONCE=ON \
    -DRINGFALL_ASAN_UBSAN=OFF -DRINGFALL_TSAN=OFF "$@"
}

# run_tests FOLDER CTEST-OPTION...
run_tests() {
  folder=$1
  shift
  ctest --test-dir "$folder" -j2 --output-on-failure --no-tests=error "$@"
}

step "Packages"
sh third_party/install.sh test

# Real recordings that packages carry; where they can't be had their tests are skipped and say so.
step "Recordings"
sh tests/reference/fetch_recordings.sh build/recordings
RINGFALL_RECORDINGS=$PWD/build/recordings
export RINGFALL_RECORDINGS

step "Release build"
configure build -DCMAKE_BUILD_TYPE=Release -DRINGFALL_WERROR=ON
cmake --build build
step "Release tests"
python3 tests/house/check_labels.py build
run_tests build
[ "$quick" = no ] || exit 0

# Sanitizers make GCC warn about its own inserted code, so warnings are errors only above.
sanitized="-DCMAKE_BUILD_TYPE=RelWithDebInfo -DRINGFALL_WERROR=OFF"
flags="-O1 -g1 -D_GLIBCXX_ASSERTIONS"

step "Address and undefined-behaviour sanitizers: build"
# shellcheck disable=SC2086  # options are meant to be split
configure build-asan $sanitized "-DCMAKE_CXX_FLAGS_RELWITHDEBINFO=$flags" -DRINGFALL_ASAN_UBSAN=ON
cmake --build build-asan
step "Address and undefined-behaviour sanitizers: tests"
LSAN_OPTIONS="suppressions=$PWD/tests/leak_suppressions.txt:print_suppressions=0"
export LSAN_OPTIONS
run_tests build-asan -LE slow_under_sanitizer

# Only the programs that hold a case with Threads in its name (tests/CMakeLists.txt gives those the label).
targets=$(grep -lE '^TEST.*Threads' tests/*/*.cpp | sed 's|tests/\([^/]*\)/.*|test_\1|' | sort -u)
[ -n "$targets" ] || exit 0
step "Thread sanitizer: build"
# shellcheck disable=SC2086
configure build-tsan $sanitized "-DCMAKE_CXX_FLAGS_RELWITHDEBINFO=$flags" -DRINGFALL_TSAN=ON
# shellcheck disable=SC2086
cmake --build build-tsan --target $targets
step "Thread sanitizer: tests"
run_tests build-tsan -L threads
