# SPDX-License-Identifier: GPL-3.0-or-later
"""What a careful evening with NumPy and SciPy gives for the same job: the yardstick of whole_run.sh and hard_cases.py.

  python3 scipy_pipeline.py RECORDING.wav      (24 bit, mono)   prints one JSON object

Decodes in blocks, finds loud edges by band energy, and measures each shot by the textbook: A-weighted exposure, F maximum,
peak, backward-integrated decay in all and in octaves, spectrum peaks with a decay fitted to their course, hum and ping
as the level left in a band's tail. No loudness: SciPy has none.
"""
import json
import struct
import sys

import numpy as np
from scipy import signal

BLOCK, HOP = 1 << 18, 96
PRE_S, POST_S = 0.6, 1.0


def read_header(file):
    file.seek(12)
    rate_hz = 0
    while True:
        name, size = struct.unpack("<4sI", file.read(8))
        if name == b"data":
            return rate_hz
        body = file.read(size + size % 2)
        if name == b"fmt ":
            _, channels, rate_hz, _, _, bits = struct.unpack("<HHIIHH", body[:16])
            if (channels, bits) != (1, 24):
                sys.exit("mono and 24 bit only")


def blocks(file):
    while raw := file.read(3 * BLOCK):
        padded = np.empty((len(raw) // 3, 4), np.uint8)
        padded[:, 1:] = np.frombuffer(raw, np.uint8).reshape(-1, 3)
        padded[:, 0] = 0
        yield padded.view("<i4")[:, 0].astype(np.float32) * np.float32(2.0 ** -31)


class Finder:
    """Energy of the difference (a cheap high-pass) per 2 ms; an edge is 25 dB above the last second's median, 0.6 s apart."""

    def __init__(self, rate_hz):
        self.rate_hz, self.carry, self.start, self.last = rate_hz, np.zeros(0, np.float32), 0, -10**12
        self.keep, self.after = int(PRE_S * rate_hz), int(POST_S * rate_hz)

    def push(self, block, final):
        x = np.concatenate([self.carry, block])
        hops = (x.size - 1) // HOP
        energy = np.einsum("ij,ij->i", *2 * [np.diff(x[:hops * HOP + 1]).reshape(hops, HOP)]) + 1e-12
        floor = np.median(energy)
        end = x.size if final else x.size - self.after
        for k in np.nonzero(energy > 316.0 * floor)[0]:
            place = k * HOP
            if place < self.keep or place >= end or self.start + place < self.last + 0.6 * self.rate_hz:
                continue
            near = energy[max(k - 8, 0):k + 20]
            best = (max(k - 8, 0) + np.argmax(np.diff(near))) * HOP
            edge = best + np.argmax(np.abs(x[best:best + 3 * HOP]) > 0.3 * np.max(np.abs(x[best:best + 3 * HOP])))
            self.last = self.start + place
            yield self.start + edge, x[edge - self.keep:edge + self.after].astype(float)
        kept = min(x.size, self.keep + self.after + HOP)
        self.start += x.size - kept
        self.carry = x[-kept:]


class Measure:
    def __init__(self, rate_hz):
        self.rate_hz, self.fast = rate_hz, signal.bilinear([1.0], [0.125, 1.0], rate_hz)
        poles = [-2 * np.pi * f for f in (20.598997, 20.598997, 107.65265, 737.86223, 12194.217, 12194.217)]
        zeros, poles, gain = signal.bilinear_zpk([0] * 4, poles, 1.0, rate_hz)
        self.a = signal.zpk2sos(zeros, poles, gain)
        self.a[0, :3] /= abs(signal.sosfreqz(self.a, [1000.0], fs=rate_hz)[1][0])
        self.bands = {c: signal.butter(3, [c / 1.4125, c * 1.4125], "bandpass", fs=rate_hz, output="sos")
                      for c in (63, 125, 250, 500, 1000, 2000, 4000, 8000)}

    def late_s(self, x):
        """T20 of the backward integral, the noise of the last tenth taken off (ISO 3382-1:2009 5.3.3)."""
        energy = x * x
        energy = np.maximum(energy - np.mean(energy[-x.size // 10:]), 0.0)
        curve = 10 * np.log10(np.cumsum(energy[::-1])[::-1] / max(np.sum(energy), 1e-30) + 1e-12)
        n = np.nonzero((curve <= -5) & (curve >= -25))[0]
        return -60.0 / np.polyfit(n / self.rate_hz, curve[n], 1)[0] if n.size > 10 else None

    def tones(self, tail):
        f, t, s = signal.stft(tail, self.rate_hz, nperseg=4096, noverlap=4096 - 512, padded=False, boundary=None)
        level = 20 * np.log10(np.abs(s) + 1e-9)
        mean = level.mean(axis=1)
        peaks, _ = signal.find_peaks(mean[:700], prominence=12)
        found = []
        for k in peaks[np.argsort(-mean[peaks])][:10]:
            slope, start = np.polyfit(t, level[k], 1)
            if slope < 0 and f[k] >= 50:
                found.append({"frequency_hz": f[k], "ring_time_s": -60 / slope, "level_db": start + 3.01})
        return found

    def score(self, tones, low_hz, high_hz):
        power = sum(10 ** (t["level_db"] / 10) for t in tones if low_hz <= t["frequency_hz"] <= high_hz)
        return float(np.clip((120 + 10 * np.log10(power) - 40) / 5, 0, 10)) if power > 0 else 0.0

    def shot(self, onset, clip):
        edge = int(PRE_S * self.rate_hz)
        a = signal.sosfilt(self.a, clip)
        window = slice(edge - 96, edge + int(0.3 * self.rate_hz))
        def db(power):
            return float(10 * np.log10(power + 1e-20))
        end = edge + int(0.33 * self.rate_hz)
        tones = self.tones(clip[edge + int(0.03 * self.rate_hz):end])
        return {"onset_s": float(onset) / self.rate_hz,
                "exposure_db": db(np.sum(a[window] ** 2) / self.rate_hz), "peak_db": db(np.max(np.abs(clip[window])) ** 2),
                "fast_max_db": db(np.max(signal.lfilter(*self.fast, a[edge - 96:end] ** 2))),
                "floor_db": db(np.mean(a[:edge - 2400] ** 2)), "late_s": self.late_s(a[edge:end]),
                "bands": {c: self.late_s(signal.sosfilt(sos, clip)[edge:end]) for c, sos in self.bands.items()},
                "tones": tones, "hum": self.score(tones, 60, 400), "ping": self.score(tones, 800, 8000)}


def run(path):
    with open(path, "rb") as file:
        rate_hz = read_header(file)
        finder, measure = Finder(rate_hz), Measure(rate_hz)
        shots = [measure.shot(*found) for block in blocks(file)
                 for found in finder.push(block, block.size < BLOCK) if found[1].size > int((PRE_S + 0.4) * rate_hz)]
    return {"shots": shots}


if __name__ == "__main__":
    print(json.dumps(run(sys.argv[1])))
