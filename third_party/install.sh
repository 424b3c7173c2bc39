#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs what a bare Debian 12 lacks to build and run Ringfall (`run`), its window too (`desk`), or to test all of it (`test`):
#   sh third_party/install.sh run|desk|test
# Asks apt-get only for what is missing, so a second run does nothing and needs neither root nor network.
set -eu

# set   package           how to tell that it is there when the package manager can't be used:
#                         cmd:PROGRAM, pc:PKG-CONFIG-MODULE, or - (nice to have)
packages() {
  cat <<'END'
run     g++               cmd:g++
run     cmake             cmd:cmake
run     ninja-build       cmd:ninja
run     pkg-config        cmd:pkg-config
run     libfmt-dev        pc:fmt
run     nlohmann-json3-dev pc:nlohmann_json
run     libcli11-dev      pc:CLI11
run     libeigen3-dev     pc:eigen3
run     libsqlite3-dev    pc:sqlite3
run     libsndfile1-dev   pc:sndfile
run     portaudio19-dev   pc:portaudio-2.0
run     libfftw3-dev      pc:fftw3
run     libsoxr-dev       pc:soxr
run     libcairo2-dev     pc:cairo
run     fonts-dejavu-core -
desk    libimgui-dev      pc:imgui
desk    libglfw3-dev      pc:glfw3
desk    libgl-dev         pc:gl
desk    libfontconfig-dev pc:fontconfig
desk    fonts-lato        -
desk    libgl1-mesa-dri   -
test    xvfb              cmd:Xvfb
test    xauth             cmd:xauth
test    libgtest-dev      pc:gtest
test    python3           cmd:python3
test    python3-numpy     -
test    python3-scipy     -
test    ffmpeg            cmd:ffmpeg
test    pulseaudio        cmd:pulseaudio
test    pulseaudio-utils  cmd:paplay
test    libasound2-plugins -
test    libxml2-utils     cmd:xmllint
test    poppler-utils     cmd:pdftotext
END
}

case "${1:-}" in
  run) sets="run" ;;
  desk) sets="run desk" ;;
  test) sets="run desk test" ;;
  *)
    echo "usage: sh third_party/install.sh run|desk|test" >&2
    exit 2
    ;;
esac

wanted() {
  packages | while read -r set package probe; do
    case " $sets " in *" $set "*) echo "$package $probe" ;; esac
  done
}

# Packages dpkg does not know as installed.
not_installed() {
  wanted | while read -r package probe; do
    state=$(dpkg-query -W -f='${Status}' "$package" 2>/dev/null) || state=none
    [ "$state" = "install ok installed" ] || printf '%s ' "$package"
  done
}

# Packages whose program or pkg-config module is not found, however it may have been installed.
not_found() {
  wanted | while read -r package probe; do
    case "$probe" in
      cmd:*) command -v "${probe#cmd:}" >/dev/null 2>&1 || printf '%s ' "$package" ;;
      pc:*) pkg-config --exists "${probe#pc:}" 2>/dev/null || printf '%s ' "$package" ;;
    esac
  done
}

# go_on_without REASON: no packages can be installed; fine when all is there by other means.
go_on_without() {
  lacking=$(not_found)
  if [ -z "$lacking" ]; then
    echo "install.sh: $1, but everything needed is there; going on."
    exit 0
  fi
  echo "install.sh: $1; install these (Debian's names) and run this again: $lacking" >&2
  exit 1
}

if ! command -v apt-get >/dev/null 2>&1 || ! command -v dpkg-query >/dev/null 2>&1; then
  go_on_without "there is no apt-get here"
fi

missing=$(not_installed)
[ -n "$missing" ] || exit 0

as_root=""
if [ "$(id -u)" -ne 0 ]; then
  command -v sudo >/dev/null 2>&1 || go_on_without "installing packages needs root or sudo"
  as_root="sudo"
fi

apt() {
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y \
    -o Acquire::Retries=3 -o DPkg::Lock::Timeout=120 "$@"
}

echo "install.sh: installing $missing"
# A list that can't be refreshed need not matter: the install below decides.
apt update || echo "install.sh: the package lists could not be refreshed; trying with the old ones."
# shellcheck disable=SC2086  # the list is meant to be split
if ! apt install --no-install-recommends $missing; then
  go_on_without "apt-get could not install everything (its reason stands above; often the network or the package sources)"
fi
