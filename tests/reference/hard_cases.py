# SPDX-License-Identifier: GPL-3.0-or-later
"""Four recordings with known truth that trip textbook analyses, measured by the program and by scipy_pipeline.py.

  python3 hard_cases.py RINGFALL      prints one table row a question; results in docs/measures/speed.md
"""
import json
import os
import subprocess
import sys
import tempfile

import numpy as np

import make_hour
import scipy_pipeline
from make_hour import RATE_HZ, decaying_noise


def tone(t, frequency_hz, amplitude, ring_time_s):
    return np.where(t >= 0, amplitude * 10 ** (-3 * np.maximum(t, 0) / ring_time_s) * np.sin(2 * np.pi * frequency_hz * t), 0)


def shot(rng, t, tones=(), thump=0.06, thump_s=0.083):
    """Edge and thump at t = 0; the arrow strikes 344 ms later."""
    sound = 0.1 * decaying_noise(rng, t, 0.028, 300, 16000) + thump * decaying_noise(rng, t, thump_s, 60, 500)
    sound += 0.04 * decaying_noise(rng, t - 0.344, 0.09, 80, 5000)
    return sound + sum(tone(t, *each) for each in tones)


def recording(edges_s, make, last_s=4.0):
    rng = np.random.default_rng(9)
    samples = 10 ** (-86 / 20) * rng.standard_normal(int((max(edges_s) + last_s) * RATE_HZ))
    t = np.arange(samples.size) / RATE_HZ
    for k, edge_s in enumerate(edges_s):
        samples += make(rng, t - edge_s, k)
    return samples


def both(ringfall, samples):
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "case.wav")
        with open(path, "wb") as file:
            file.write(make_hour.header(samples.size) + make_hour.packed(samples))
        done = subprocess.run([ringfall, "measure", "--json", path], capture_output=True, text=True, check=False)
        return json.loads(done.stdout)["recordings"][0]["shots"], scipy_pipeline.run(path)["shots"]


def text(values):
    return ", ".join("null" if v is None else f"{v:.4g}" for v in values) or "none"


def row(question, truth, ours, theirs):
    print(f"| {question} | {truth} | {text(ours)} | {text(theirs)} |")


def neighbour(ringfall):
    """Six own shots, and between them three of a neighbour 9 dB weaker and duller, striking at another time."""
    def make(rng, t, k):
        if k % 3 != 2:
            return shot(rng, t)
        f = np.fft.rfftfreq(t.size, 1 / RATE_HZ)
        return 0.35 * np.fft.irfft(np.fft.rfft(shot(rng, t - 0.06)) / np.sqrt(1 + (f / 1500) ** 2), t.size)
    ours, theirs = both(ringfall, recording([3.0 + 6 * k for k in range(9)], make))
    row("neighbour's shots among six own: shots counted", "6", [len(ours)], [len(theirs)])


def noise_is_no_hum(ringfall):
    """A dead bow: the 60-500 Hz thump takes 0.25 s to die, no tone at all."""
    ours, theirs = both(ringfall, recording([3, 9, 15], lambda rng, t, k: shot(rng, t, thump_s=0.25)))
    row("decaying noise, no tone: hum score", "0", [s["hum"] for s in ours], [s["hum"] for s in theirs])


def tone_near_the_thump(ringfall):
    """95 Hz, -40 dB re full scale (rms) at the edge, 0.35 s, under a thump of -24 dB that dies in 0.12 s."""
    told = (95.0, 0.01 * np.sqrt(2), 0.35)
    ours, theirs = both(ringfall, recording([3, 9, 15], lambda rng, t, k: shot(rng, t, [told], thump_s=0.12)))
    def of(shots, key):
        near = [[x[key] for x in s["tones"] if abs(x["frequency_hz"] - 95) < 12] for s in shots]
        return [n[0] if n else None for n in near]
    row("95 Hz tone under a thump 16 dB louder: its level 30 ms on [dB]", f"{-40 - 60 * 0.030 / 0.35:.1f}",
        of(ours, "level_db"), of(theirs, "level_db"))
    row("its frequency [Hz]", "95", of(ours, "frequency_hz"), of(theirs, "frequency_hz"))
    row("its ring time [s]", "0.35", of(ours, "ring_time_s"), of(theirs, "ring_time_s"))


def live_room(ringfall):
    """1 kHz dies in 0.10 s; then a room of 0.7 s, 18 dB below the bow at the start."""
    def make(rng, t, k):
        sound = 0.1 * decaying_noise(rng, t, 0.10, 300, 8000)
        return sound + 0.0126 * decaying_noise(rng, t, 0.7, 300, 8000) + 0.02 * decaying_noise(rng, t - 0.344, 0.7, 80, 5000)
    ours, theirs = both(ringfall, recording([3, 9, 15], make))
    row("bow of 0.10 s in a live room of 0.7 s: 1 kHz octave [s]", "0.10",
        [b["late_s"] for s in ours for b in s["ring_down"]["bands"] if b["centre_hz"] == 1000],
        [s["bands"][1000] for s in theirs])


if __name__ == "__main__":
    print("| case | truth | ringfall | SciPy pipeline |\n|---|---|---|---|")
    for case in (neighbour, noise_is_no_hum, tone_near_the_thump, live_room):
        case(sys.argv[1])
