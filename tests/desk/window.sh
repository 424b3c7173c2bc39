#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The real window on a display of its own: opens the invented evening, goes through all places in both themes, writes a picture of
# each.   sh tests/desk/window.sh RINGFALL-DESK
# Also: without a display one sentence and exit status 3.
set -eu
desk=$1
folder=$(mktemp -d "${TMPDIR:-/tmp}/ringfall-window-XXXXXX")
trap 'rm -rf "$folder"' EXIT
export XDG_CONFIG_HOME="$folder/config" HOME="$folder"

status=0
env -u DISPLAY -u WAYLAND_DISPLAY "$desk" 2>"$folder/words" || status=$?
[ "$status" -eq 3 ] || { echo "without a display: status $status instead of 3"; exit 1; }
[ "$(wc -l <"$folder/words")" -eq 1 ] || { echo "without a display: not one sentence"; cat "$folder/words"; exit 1; }

xvfb-run -a -s "-screen 0 1440x900x24" "$desk" --size 1024x700 --shoot "$folder" "$folder/evening.ringfall"
for place in book range shot compare ears season plan page adding block listening; do
  for theme in dark light; do
    picture="$folder/$place-$theme.png"
    # A window painted in one colour packs into some 3 kB.
    size=$(wc -c <"$picture") || { echo "no picture of $place"; exit 1; }
    [ "$size" -gt 12000 ] || { echo "$picture is nearly empty: $size bytes"; exit 1; }
  done
done
echo "22 pictures, all with something in them"
