# SPDX-License-Identifier: GPL-3.0-or-later
"""Reference values for src/stats from SciPy, which shares no code with it.

  python3 stats_reference.py             writes the table to standard output
  python3 stats_reference.py TABLE.csv   compares with a table, fails when a value is off by more than 1e-9 of it

Columns: what was computed, its two lists of arguments (numbers parted by blanks), the value. The tests read the table
(tests/stats/scipy_reference_test.cpp), so they need no Python.
"""
import csv
import math
import sys

import numpy as np
from scipy import stats

TOLERANCE = 1e-9


def t_quantile(p, df):
    """SciPy's own is good to 1e-9 only; its distribution function is better, so solve that by Newton's steps."""
    t = stats.t.ppf(p, df)
    for _ in range(4):
        t -= (stats.t.cdf(t, df) - p if p < 0.5 else (1.0 - p) - stats.t.sf(t, df)) / stats.t.pdf(t, df)
    return t


def distributions():
    for z in (-37.0, -12.5, -6.0, -1.96, -0.3, 0.0, 0.5, 1.0, 2.575, 5.0):
        yield "normal_cdf", [z], [], stats.norm.cdf(z)
    for p in (1e-250, 1e-30, 1e-10, 0.001, 0.025, 0.0999, 0.1, 0.11, 0.3, 0.499999, 0.5, 0.7, 0.975, 0.9999):
        yield "normal_quantile", [p], [], stats.norm.ppf(p)
    for df in (1, 1.7, 2, 4, 9, 17.776, 30, 188.5, 2000):
        for t in (-8.0, -2.1, -0.7, -1e-4, 0.0, 0.03, 1.0, 2.5, 12.0):
            yield "student_t_cdf", [t, df], [], stats.t.cdf(t, df)
        for p in (1e-9, 0.0005, 0.025, 0.2, 0.4999, 0.6, 0.95, 0.975, 0.999):
            yield "student_t_quantile", [p, df], [], t_quantile(p, df)
    for f in (0.0, 0.01, 0.5, 1.0, 1.18, 4.0, 21.0, 300.0):
        for between, within in ((1, 1), (1, 46), (4, 20), (8, 180), (3, 7), (60, 500)):
            yield "f_upper_p", [f, between, within], [], stats.f.sf(f, between, within)
    for x in (0.0, 0.02, 1.0, 3.84, 12.0, 90.0, 1100.0):
        for df in (1, 2, 5, 30, 1000):
            yield "chi_square_upper_p", [x, df], [], stats.chi2.sf(x, df)
    for right, trials, chance in ((9, 10, 0.5), (10, 12, 0.5), (7, 8, 0.5), (0, 5, 0.2), (5, 5, 0.2), (60, 200, 0.3)):
        yield "binomial_upper_p", [right, trials, chance], [], stats.binom.sf(right - 1, trials, chance)
    for df in (2, 8, 18.5, 126, 1000):
        for noncentrality in (-2.5, 0.0, 0.4, 2.8, 7.0):
            for t in (-2.3, 0.0, 1.0, 2.1, 6.5):
                yield "noncentral_t_cdf", [t, df, noncentrality], [], stats.nct.cdf(t, df, noncentrality)


    for df, noncentrality, t in ((10000, 30.0, 29.5), (40, 20.0, 23.0), (198, 12.0, 1.97), (6, -9.0, -11.0)):
        yield "noncentral_t_cdf", [t, df, noncentrality], [], stats.nct.cdf(t, df, noncentrality)


def lists():
    """Invented levels in dB, fixed here so that they stay what they are."""
    noise = np.random.RandomState(5)
    for n1, n2, spread in ((2, 2, 1.0), (5, 9, 0.7), (12, 12, 3.0), (40, 7, 0.2)):
        first = np.round(71.3 + noise.standard_normal(n1), 2)
        second = np.round(70.1 + spread * noise.standard_normal(n2), 2)
        yield list(first), list(second)


def differences():
    for first, second in lists():
        yield "anova_f", first, second, stats.f_oneway(first, second).statistic
        if len(first) + len(second) < 20:
            # SciPy's two-sided p is twice the smaller tail, ours counts both tails by size: compared one-sided.
            greater = stats.permutation_test((second, first),
                                             lambda a, b, axis: np.mean(a, axis) - np.mean(b, axis), vectorized=True,
                                             n_resamples=math.inf, alternative="greater")
            yield "permutation_difference", first, second, greater.statistic
            yield "permutation_greater_p", first, second, greater.pvalue


def pairs():
    noise = np.random.RandomState(11)
    for n, steps in ((4, 0.01), (6, 0.01), (8, 1.0), (9, 0.01), (11, 1.0), (25, 0.01)):
        x = noise.standard_normal(n) * 2.0
        y = 0.6 * x + noise.standard_normal(n)
        yield [round(round(v / steps) * steps, 2) for v in x], [round(round(v / steps) * steps, 2) for v in y]


def ranks():
    for x, y in pairs():
        rho = stats.spearmanr(x, y)
        yield "spearman_rho", x, y, rho.correlation
        if len(x) > 4:
            yield "spearman_t_p", x, y, rho.pvalue
        if len(x) <= 8:
            exact = stats.permutation_test((x,), lambda v: abs(stats.spearmanr(v, y)[0]), permutation_type="pairings",
                                           n_resamples=math.inf, alternative="greater")
            yield "spearman_exact_p", x, y, exact.pvalue
        yield "kendall_tau", x, y, stats.kendalltau(x, y).correlation
        yield "kendall_normal_p", x, y, stats.kendalltau(x, y, method="asymptotic").pvalue
        if len(set(x)) == len(x) and len(set(y)) == len(y):
            yield "kendall_exact_p", x, y, stats.kendalltau(x, y, method="exact").pvalue
        yield "theil_sen_slope", x, y, stats.theilslopes(y, x).slope
        yield "theil_sen_intercept", x, y, stats.theilslopes(y, x).intercept
    for first, second in lists():
        yield "hodges_lehmann_shift", first, second, np.median(np.subtract.outer(second, first))
        yield "mann_whitney_cumulated", [len(first), len(second), len(first) * len(second) // 3], [], \
            mann_whitney_cdf(len(first), len(second), len(first) * len(second) // 3)


def mann_whitney_cdf(n1, n2, count):
    """P(U <= count) without ties, read off a sample arranged to have that count."""
    first, second = [], []
    full, rest = divmod(count, n2)
    for i in range(n1):
        wins = n2 if i < full else rest if i == full else 0
        first.append(wins - 0.5 + (i + 1) * 1e-3)
    second = [float(j) for j in range(n2)]
    result = stats.mannwhitneyu(first, second, alternative="less", method="exact")
    assert result.statistic == count
    return result.pvalue


def summaries():
    for first, _ in lists():
        yield "median", first, [], np.median(first)
        yield "mad", first, [], stats.median_abs_deviation(first)
        for p in (0.0, 0.1, 0.25, 0.6, 1.0):
            yield "quantile", first, [p], np.quantile(first, p)


def rows():
    for source in (distributions, differences, ranks, summaries):
        for name, x, y, value in source():
            yield [name, *(" ".join(repr(float(v)) for v in part) for part in (x, y)), repr(float(value))]


def compare(path):
    with open(path, newline="", encoding="ascii") as file:
        written = list(csv.reader(file))[1:]
    computed = list(rows())
    if len(written) != len(computed):
        return [f"{len(written)} rows written, {len(computed)} computed"]
    problems = []
    for old, new in zip(written, computed):
        if old[:3] != new[:3] or not math.isclose(float(old[3]), float(new[3]), rel_tol=TOLERANCE, abs_tol=1e-300):
            problems.append(f"written {old}, computed {new}")
    return problems


if __name__ == "__main__":
    if len(sys.argv) > 1:
        found = compare(sys.argv[1])
        print("\n".join(found) or "the table is what SciPy computes")
        sys.exit(1 if found else 0)
    writer = csv.writer(sys.stdout, lineterminator="\n")
    writer.writerow(["name", "x", "y", "value"])
    writer.writerows(rows())
