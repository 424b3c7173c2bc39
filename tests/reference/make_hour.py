# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes a long made-up practice recording: 48 kHz, 24 bit, mono, own shots and a neighbour's, with its truth.

  python3 make_hour.py OUT.wav [MINUTES]      (60 minutes; 100 own shots and 20 of the neighbour an hour)

The sound is invented, no bow was recorded. OUT.wav.truth.csv lists edge [s] and kind (own, neighbour) of every shot.
Equal arguments give an equal file.
"""
import csv
import struct
import sys

import numpy as np

RATE_HZ = 48000
FLOOR_DB = -86.0  # rms re full scale, 12 dB more below 100 Hz
IMPACT_S = 0.344
OWN_AN_HOUR, NEIGHBOUR_AN_HOUR = 100, 20
LEAD_S, SHOT_S = 0.1, 1.4
TONES = ((95, 0.020, 0.35), (172, 0.012, 0.5), (310, 0.006, 0.3), (1450, 0.005, 0.30), (2350, 0.003, 0.25),
         (4100, 0.002, 0.2))  # Hz, amplitude, 60 dB time


def decaying_noise(rng, t, ring_time_s, low_hz, high_hz):
    """Noise of rms 1 at t = 0 in a band, dying by 60 dB in ring_time_s, nothing before."""
    bins = np.fft.rfft(rng.standard_normal(t.size))
    f = np.fft.rfftfreq(t.size, 1.0 / RATE_HZ)
    noise = np.fft.irfft(bins * ((f >= low_hz) & (f <= high_hz)), t.size)
    return noise / np.std(noise) * np.where(t >= 0, 10.0 ** (-3.0 * np.maximum(t, 0) / ring_time_s), 0.0)


def shot(rng, own):
    """One shot with its edge LEAD_S in, re full scale. The neighbour's is farther off: duller, weaker, its own impact."""
    t = np.arange(int(SHOT_S * RATE_HZ)) / RATE_HZ - LEAD_S
    loud = 10.0 ** (rng.normal(0.0, 0.4) / 20.0)
    sound = 0.10 * decaying_noise(rng, t, 0.028, 300, 16000)         # the crack of the string
    sound += 0.06 * decaying_noise(rng, t, 0.083, 60, 500)           # the thump
    sound += 0.004 * decaying_noise(rng, t, 0.25, 80, 8000)          # the range answers
    for frequency_hz, amplitude, ring_time_s in TONES if own else ():
        pitch_hz = frequency_hz * (1.0 + rng.normal(0.0, 2e-4))
        sound += np.where(t >= 0, amplitude * 10.0 ** (-3.0 * np.maximum(t, 0) / ring_time_s) *
                          np.sin(2 * np.pi * pitch_hz * t), 0.0)
    release = (t > -0.016) & (t < 0)                                 # fingers off the string
    sound += np.where(release, 0.002 * rng.standard_normal(t.size), 0.0)
    later = t - (IMPACT_S if own else 0.410) + rng.normal(0.0, 0.0015)
    sound += 0.04 * decaying_noise(rng, later, 0.09, 80, 5000)       # the arrow strikes
    if not own:
        f = np.fft.rfftfreq(t.size, 1.0 / RATE_HZ)
        sound = 0.25 * np.fft.irfft(np.fft.rfft(sound) / np.sqrt(1.0 + (f / 1500.0) ** 2), t.size)
    return loud * sound


def places(rng, minutes):
    """Edges in samples and kinds: evenly spread slots, own shots 12 s apart or more, the neighbour anywhere between."""
    own = max(1, round(OWN_AN_HOUR * minutes / 60))
    neighbour = round(NEIGHBOUR_AN_HOUR * minutes / 60)
    slot_s = 60.0 * minutes / own
    edges = [((k + rng.uniform(0.15, 0.45)) * slot_s, "own") for k in range(own)]
    edges += [((k * (own // max(neighbour, 1)) + rng.uniform(0.6, 0.9)) * slot_s, "neighbour") for k in range(neighbour)]
    return sorted((round(s * RATE_HZ), kind) for s, kind in edges)


def header(samples):
    size = 3 * samples
    return (struct.pack("<4sI4s4sIHHIIHH", b"RIFF", 36 + size, b"WAVE", b"fmt ", 16, 1, 1, RATE_HZ, 3 * RATE_HZ, 3, 24) +
            struct.pack("<4sI", b"data", size))


def packed(samples):
    whole = np.rint(np.clip(samples, -1.0, 1.0) * 8388607).astype("<i4")
    return whole.view(np.uint8).reshape(-1, 4)[:, :3].tobytes()


def write(path, minutes=60.0, seed=20251125):
    """Writes OUT.wav and its truth, one block of 20 s after the other."""
    rng = np.random.default_rng(seed)
    total = int(60 * minutes * RATE_HZ)
    shots = [(edge, kind, shot(rng, kind == "own")) for edge, kind in places(rng, minutes)]
    block = 20 * RATE_HZ
    f = np.fft.rfftfreq(block, 1.0 / RATE_HZ)
    colour = np.sqrt(1.0 + 15.0 / (1.0 + (f / 100.0) ** 4)) * 10.0 ** (FLOOR_DB / 20.0)
    floors = [np.fft.irfft(np.fft.rfft(rng.standard_normal(block)) * colour, block) for _ in range(3)]
    lead = int(LEAD_S * RATE_HZ)
    with open(path, "wb") as out:
        out.write(header(total))
        for begin in range(0, total, block):
            samples = np.roll(floors[(begin // block) % 3], int(rng.integers(block))).copy()
            for edge, _, sound in shots:
                first = edge - lead - begin
                a, b = max(first, 0), min(first + sound.size, block)
                if a < b:
                    samples[a:b] += sound[a - first:b - first]
            out.write(packed(samples[:min(block, total - begin)]))
    with open(path + ".truth.csv", "w", newline="") as out:
        table = csv.writer(out)
        table.writerow(["edge_s", "kind"])
        table.writerows([f"{edge / RATE_HZ:.6f}", kind] for edge, kind, _ in shots)


if __name__ == "__main__":
    write(sys.argv[1], float(sys.argv[2]) if len(sys.argv) > 2 else 60.0)
