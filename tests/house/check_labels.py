# SPDX-License-Identifier: GPL-3.0-or-later
"""Is every folder of tests/ that holds tests also in the build? A folder whose library is not built has no tests, and "all passed" would be
said without it.

    python3 tests/house/check_labels.py BUILD
"""
import json
import pathlib
import subprocess
import sys


def folders_with_tests(tests):
    """Names of the folders that hold a *_test.cpp or are the house's own."""
    return sorted({path.parent.name for path in tests.glob("*/*_test.cpp")} | {"house"})


def labels_of(listed):
    """Of the tests in what `ctest --show-only=json-v1` prints; "logbook-threads" is a part of logbook's."""
    labels = set()
    for test in listed["tests"]:
        for entry in test.get("properties", []):
            if entry["name"] == "LABELS":
                labels |= {label.split("-")[0] for label in entry["value"]}
    return labels


def missing(folders, labels):
    return [folder for folder in folders if folder not in labels]


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    shown = subprocess.run(["ctest", "--test-dir", sys.argv[1], "--show-only=json-v1"], check=True, capture_output=True, text=True)
    absent = missing(folders_with_tests(pathlib.Path(__file__).resolve().parent.parent), labels_of(json.loads(shown.stdout)))
    for folder in absent:
        print(f"no test of tests/{folder} is in {sys.argv[1]}: its library was not built there (packages missing, or switched off)")
    sys.exit(1 if absent else 0)
