#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Ringfall and the SciPy pipeline on the same made-up recordings, three times each, one core, one after the other:
#   sh tests/bench/whole_run.sh RINGFALL [FOLDER-FOR-THE-SOUNDS]
# Prints processor seconds (not wall clock: a busy machine does not matter as much), times real time, their ratio and the
# highest memory, for 10 minutes and for an hour. Run by hand, never asserted; results in docs/measures/speed.md.
set -eu
ringfall=$1
here=$(cd "$(dirname "$0")/../reference" && pwd)
folder=${2:-$(mktemp -d)}
for minutes in 10 60; do
  sound=$folder/made_up_$minutes.wav
  [ -f "$sound.truth.csv" ] || /usr/bin/python3 -B "$here/make_hour.py" "$sound" "$minutes"
done
exec /usr/bin/python3 -B - "$ringfall" "$here/scipy_pipeline.py" "$folder" <<'END_OF_PYTHON'
import json, os, resource, subprocess, sys, tempfile

ringfall, pipeline, folder = sys.argv[1:]
one_thread = {**os.environ, "OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}

def once(command):
    with tempfile.TemporaryFile() as out:
        child = subprocess.Popen(command, stdout=out, env=one_thread)
        _, status, used = os.wait4(child.pid, 0)
        if status != 0: sys.exit(f"{command[0]} failed")
        out.seek(0)
        return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, json.load(out)

for minutes in (10, 60):
    sound = os.path.join(folder, f"made_up_{minutes}.wav")
    with open(sound + ".truth.csv") as table:
        truth = [float(line.split(",")[0]) for line in table if ",own" in line]
    kinds = {"ringfall": [ringfall, "measure", "--json", "--jobs", "1", sound],
             "scipy": [sys.executable, "-B", pipeline, sound]}
    times = {name: [] for name in kinds}
    for _ in range(3):
        for name, command in kinds.items():
            times[name].append(once(command))
    for name, runs in times.items():
        answer = runs[0][2]
        shots = answer["recordings"][0]["shots"] if name == "ringfall" else answer["shots"]
        hit = sum(any(abs(s["onset_s"] - t) < 0.003 for s in shots) for t in truth)
        seconds = [r[0] for r in runs]
        print(f"{minutes} min {name:8}: {' '.join(f'{s:.2f}' for s in seconds)} s processor time, "
              f"{60 * minutes / min(seconds):.0f} x real time, {max(r[1] for r in runs):.0f} MiB, "
              f"{hit} of {len(truth)} own shots, {len(shots) - hit} others")
    ratio = [s[0] / r[0] for r, s in zip(times["ringfall"], times["scipy"])]
    print(f"{minutes} min ratio   : {' '.join(f'{r:.1f}' for r in ratio)}")
END_OF_PYTHON
