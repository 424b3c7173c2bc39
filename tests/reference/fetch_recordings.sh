#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Fetches real recordings that packages carry, by package name, into a folder outside the repository:
#   sh tests/reference/fetch_recordings.sh BUILD_FOLDER/recordings
#   RINGFALL_RECORDINGS=BUILD_FOLDER/recordings ctest ...
# Tests that need them skip with the reason when they are not there. Nothing fetched is ever committed.
#   xylophone/   npm tonejs-instrument-xylophone-wav 1.1.1 (samples CC-BY-3.0)
#   hydrogen/    Debian hydrogen-data (GPL)
#   speech/      Debian alsa-utils (GPL-2+): spoken channel names and noise
#   knocks/      Debian orage-data (GPL-2+): five knocks on wood
#   bell/        Debian klick (GPL-2+): bell strokes at 48 kHz
#   keys/        Debian bucklespring-data (GPL-2+): single key strokes
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

# fetch_debian FOLDER PACKAGE
fetch_debian() {
  command -v apt-get >/dev/null 2>&1 && command -v dpkg-deb >/dev/null 2>&1 || return 1
  apt-get download -qq "$2" >/dev/null 2>&1 || return 1
  dpkg-deb -x "$2"_*.deb "$1.part" || return 1
  mv "$1.part" "$1" && rm -f "$2"_*.deb
}

fetch_hydrogen() { fetch_debian hydrogen hydrogen-data; }
fetch_speech() { fetch_debian speech alsa-utils; }
fetch_knocks() { fetch_debian knocks orage-data; }
fetch_bell() { fetch_debian bell klick; }
fetch_keys() { fetch_debian keys bucklespring-data; }

for name in xylophone hydrogen speech knocks bell keys; do
  if [ -d "$name" ]; then
    echo "$name: already here"
  elif "fetch_$name"; then
    echo "$name: fetched"
  else
    rm -rf "$name.part"
    echo "$name: not available (registry or tool out of reach); its tests will be skipped"
  fi
done
