#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Fetches real recordings that packages carry, by package name, into a folder outside the repository:
#   sh tests/reference/fetch_recordings.sh BUILD_FOLDER/recordings
#   RINGFALL_RECORDINGS=BUILD_FOLDER/recordings ctest ...
# Tests that need them skip with the reason when they are not there. Nothing fetched is ever committed.
#   xylophone/   npm tonejs-instrument-xylophone-wav 1.1.1 (samples CC-BY-3.0)
#   hydrogen/    Debian hydrogen-data (GPL)
set -u
if [ $# -ne 1 ]; then
  echo "usage: fetch_recordings.sh FOLDER" >&2
  exit 2
fi
mkdir -p "$1" || exit 1
cd "$1" || exit 1

fetch_xylophone() {
  command -v npm >/dev/null 2>&1 || return 1
  npm pack --silent tonejs-instrument-xylophone-wav@1.1.1 >/dev/null 2>&1 || return 1
  mkdir -p xylophone.part && tar -xzf tonejs-instrument-xylophone-wav-1.1.1.tgz -C xylophone.part || return 1
  mv xylophone.part xylophone && rm -f tonejs-instrument-xylophone-wav-1.1.1.tgz
}

fetch_hydrogen() {
  command -v apt-get >/dev/null 2>&1 && command -v dpkg-deb >/dev/null 2>&1 || return 1
  apt-get download -qq hydrogen-data >/dev/null 2>&1 || return 1
  dpkg-deb -x hydrogen-data_*.deb hydrogen.part || return 1
  mv hydrogen.part hydrogen && rm -f hydrogen-data_*.deb
}

for name in xylophone hydrogen; do
  if [ -d "$name" ]; then
    echo "$name: already here"
  elif "fetch_$name"; then
    echo "$name: fetched"
  else
    rm -rf "$name.part"
    echo "$name: not available (registry or tool out of reach); its tests will be skipped"
  fi
done
