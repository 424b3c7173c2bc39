# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the printed numbers of the program against SciPy's, which shares no code with it.

  python3 scipy_checks.py RINGFALL            every number within its tolerance?
  python3 scipy_checks.py RINGFALL --bite     does every check notice a reference 15 % off?

Writes made-up sounds to a temporary folder, runs `RINGFALL measure --json` on each and prints both numbers of every
check with its tolerance. Exit 0 yes, 1 no, 77 NumPy or SciPy not installed.
"""
import json
import os
import subprocess
import sys
import tempfile

try:
    import numpy as np
    from scipy import optimize, signal
    from scipy.io import wavfile
except ImportError:
    sys.exit(77)

RATE_HZ = 48000
EDGE_S = 1.0
BITE = "--bite" in sys.argv
OFFSET = 0.15 if BITE else 0.0
failures, passes = [], []


def ready(sound):
    """Two seconds and a half with the sound from EDGE_S on, a floor of -95 dB before it and after."""
    rng = np.random.default_rng(11)
    samples = 1.8e-5 * rng.standard_normal(int(2.5 * RATE_HZ))
    first = int(EDGE_S * RATE_HZ)
    samples[first:first + sound.size] += sound
    return samples


def measured(ringfall, folder, name, samples):
    path = os.path.join(folder, name + ".wav")
    wavfile.write(path, RATE_HZ, samples.astype(np.float32))
    done = subprocess.run([ringfall, "measure", "--json", "--jobs", "1", path], capture_output=True, text=True, check=False)
    if done.returncode > 1:
        sys.exit(done.stderr)
    shots = json.loads(done.stdout)["recordings"][0]["shots"]
    if len(shots) != 1:
        sys.exit(f"{name}: {len(shots)} shots were found in a recording of one")
    return shots[0]


def check(what, ours, reference, tolerance):
    """The tolerance has the unit of the numbers; an answer that is missing is off."""
    reference = float(reference) * (1.0 + OFFSET)
    good = ours is not None and abs(ours - reference) <= tolerance
    print(f"{'ok  ' if good else 'OFF '} {what:<44} ringfall {ours if ours is None else round(ours, 5)!s:>12}  "
          f"scipy {reference:12.5f}  +-{tolerance:g}")
    (passes if good else failures).append(what)


def a_weighted(samples):
    """IEC 61672-1:2013 Annex E: analogue poles 20.6, 107.7, 737.9, 12194 Hz, gain 1 at 1 kHz; applied to the spectrum."""
    poles_hz = [20.598997, 20.598997, 107.65265, 737.86223, 12194.217, 12194.217]
    b, a = signal.zpk2tf([0, 0, 0, 0], [-2 * np.pi * f for f in poles_hz], 1.0)
    f = np.fft.rfftfreq(2 * samples.size, 1.0 / RATE_HZ)
    _, response = signal.freqs(b, a, worN=2 * np.pi * np.append(f, 1000.0))
    bins = np.fft.rfft(samples, 2 * samples.size)
    return np.fft.irfft(bins * response[:-1] / abs(response[-1]))[:samples.size]


def levels(ringfall, folder):
    rng = np.random.default_rng(1)
    t = np.arange(int(0.8 * RATE_HZ)) / RATE_HZ
    samples = ready(0.3 * rng.standard_normal(t.size) * np.exp(-t / 0.04))
    shot = measured(ringfall, folder, "levels", samples)
    ours = shot["levels"]
    first = round((shot["onset_s"] - 0.002) * RATE_HZ)
    window = slice(first, round((shot["onset_s"] + 0.300) * RATE_HZ))
    a = a_weighted(samples)
    def db(energy):
        return 10 * np.log10(energy)

    check("A-weighted exposure [dB]", ours["exposure_db"], db(np.sum(a[window] ** 2) / RATE_HZ), 0.02)
    check("unweighted exposure [dB]", ours["exposure_z_db"], db(np.sum(samples[window] ** 2) / RATE_HZ), 0.01)
    check("peak [dB]", ours["peak_db"], db(np.max(np.abs(samples[window])) ** 2), 0.01)
    # IEC 61672-1:2013 3.8: F is a low-pass of p^2 with 125 ms, here by the bilinear transform.
    b, den = signal.bilinear([1.0], [0.125, 1.0], RATE_HZ)
    fast = signal.lfilter(b, den, a[first:first + int(0.6 * RATE_HZ)] ** 2)
    check("A-weighted F maximum [dB]", ours["fast_max_db"], db(np.max(fast)), 0.02)
    # The onset as the steepest rise of 1 ms energy.
    energy = np.convolve(samples ** 2, np.ones(48), "valid")
    rise = np.diff(np.log(energy[::8] + 1e-9))
    check("onset [s]", shot["onset_s"], (np.argmax(rise) * 8 + 48) / RATE_HZ, 0.001)
    # The floor before the shot, weighted by itself: the shot would ring into it.
    quiet = a_weighted(samples[int(0.3 * RATE_HZ):int(0.95 * RATE_HZ)])[int(0.1 * RATE_HZ):]
    check("floor [dB]", ours["floor_db"], db(np.mean(quiet ** 2)), 0.3)


def line_60_db_s(energy, rate_hz, top_db, bottom_db):
    """ISO 3382-1:2009 5.3.3: backward integration of the squared response, a least-squares line between two levels."""
    curve = 10 * np.log10(np.cumsum(energy[::-1])[::-1] / np.sum(energy))
    n = np.nonzero((curve <= top_db) & (curve >= bottom_db))[0]
    slope, _ = np.polyfit(n / rate_hz, curve[n], 1)
    return -60.0 / slope


def decays(ringfall, folder):
    for seed, ring_time_s in ((2, 0.25), (3, 0.16)):
        rng = np.random.default_rng(seed)
        t = np.arange(int(1.2 * RATE_HZ)) / RATE_HZ
        samples = ready(0.3 * rng.standard_normal(t.size) * 10 ** (-3 * t / ring_time_s))
        shot = measured(ringfall, folder, f"decay{seed}", samples)
        ours = shot["ring_down"]
        first = round(shot["onset_s"] * RATE_HZ)
        end = first + int(0.7 * ring_time_s * RATE_HZ)  # 42 dB down: the floor is 85 dB below the start
        name = f"{ring_time_s:g} s noise: "
        for letter, heard in (("", a_weighted(samples)), ("_z", samples)):
            energy = heard[first:end] ** 2
            kind = "unweighted" if letter else "A-weighted"
            check(f"{name}early (EDT) {kind} [s]", ours[f"early{letter}_s"], line_60_db_s(energy, RATE_HZ, 0, -10),
                  0.06 * ring_time_s)
            check(f"{name}late (T20) {kind} [s]", ours[f"late{letter}_s"], line_60_db_s(energy, RATE_HZ, -5, -25),
                  0.04 * ring_time_s)
        for centre_hz in (1000, 2000, 4000):
            edges = [centre_hz / 10 ** 0.15, centre_hz * 10 ** 0.15]  # IEC 61260-1:2014 5.5, G = 10^0.3
            sos = signal.butter(6, edges, "bandpass", fs=RATE_HZ, output="sos")
            band = signal.sosfiltfilt(sos, samples)[first:end] ** 2
            found = [b["late_s"] for b in ours["bands"] if b["centre_hz"] == centre_hz][0]
            # The same noise through filters of another kind: the beats inside a band differ a little.
            check(f"{name}octave {centre_hz} Hz [s]", found, line_60_db_s(band, RATE_HZ, -5, -25), 0.06 * ring_time_s)


def damped_sines(t, *values):
    """Values: amplitude, Hz, 60 dB time and phase of one tone after the other."""
    return sum(a * np.exp(-3 * np.log(10) * t / r) * np.sin(2 * np.pi * f * t + p) for a, f, r, p in np.reshape(values, (-1, 4)))


def tones(ringfall, folder):
    told = ((95.0, 0.03, 0.6), (310.0, 0.02, 0.5), (1450.0, 0.015, 0.45), (2620.0, 0.008, 0.35))
    rng = np.random.default_rng(5)
    t = np.arange(int(1.2 * RATE_HZ)) / RATE_HZ
    thump = 0.4 * rng.standard_normal(t.size) * np.exp(-t / 0.004)
    samples = ready(thump + damped_sines(t, *[v for f, a, r in told for v in (a, f, r, 0.3)]))
    shot = measured(ringfall, folder, "tones", samples)
    first = round((shot["onset_s"] + 0.040) * RATE_HZ)
    tail = samples[first:round((shot["onset_s"] + 0.480) * RATE_HZ)]
    spectrum = 20 * np.log10(np.abs(np.fft.rfft(tail * np.hanning(tail.size), 1 << 17)) + 1e-12)
    bin_hz = RATE_HZ / (1 << 17)
    peaks, _ = signal.find_peaks(spectrum, height=np.max(spectrum) - 35, prominence=25, distance=int(20 / bin_hz))
    check("number of tones", len(shot["tones"]), len(peaks), 0)
    # All tones fitted at once to the plain samples, started at the peaks.
    n = np.arange(tail.size) / RATE_HZ
    start = np.ravel([[10 ** (spectrum[k] / 20) / tail.size * 8, k * bin_hz, 0.4, 0.0] for k in peaks])
    fitted, _ = optimize.curve_fit(damped_sines, n, tail, start, x_scale=np.tile([0.01, 0.1, 0.1, 1.0], len(peaks)),
                                   method="trf", max_nfev=2000)
    for amplitude, frequency_hz, ring_time_s, _ in fitted.reshape(-1, 4):
        near = min(shot["tones"], key=lambda tone: abs(tone["frequency_hz"] - frequency_hz))
        name = f"{frequency_hz:.0f} Hz tone: "
        check(f"{name}frequency [Hz]", near["frequency_hz"], frequency_hz, 0.02)
        check(f"{name}ring time [s]", near["ring_time_s"], ring_time_s, 0.005 * ring_time_s)
        damping = 100 * 3 * np.log(10) / (2 * np.pi * frequency_hz * ring_time_s)
        check(f"{name}damping ratio [%]", 100 * near["damping_ratio"], damping, 0.005 * damping)
        # The level counts from the start of the tail: 30 ms after the edge, 15 ms from 800 Hz on.
        early_s = first / RATE_HZ - shot["onset_s"] - (0.015 if frequency_hz >= 800 else 0.030)
        at_start = abs(amplitude) * 10 ** (3 * early_s / ring_time_s)
        check(f"{name}level [dB]", near["level_db"], 20 * np.log10(at_start / np.sqrt(2)), 0.1)


def main():
    ringfall = sys.argv[1]
    with tempfile.TemporaryDirectory() as folder:
        for part in (levels, decays, tones):
            part(ringfall, folder)
    wrong = passes if BITE else failures
    print(f"{len(passes) + len(failures)} checks, {len(wrong)} " +
          ("did not notice: " if BITE else "off: ") + "; ".join(wrong))
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
