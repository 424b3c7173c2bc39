# SPDX-License-Identifier: GPL-3.0-or-later
"""The house's arrows: which folder of src/ may include which, and which package is seen where.

Reads the #include lines of src/ and the ringfall_library() lines of its CMake files.
"""
import re

import tree

# folder: the folders it may include besides itself.
ARROWS = {
    "base": set(),
    "signal": {"base"},
    "stats": {"base"},
    "plot": {"base"},
    "audio": {"base"},
    "shot": {"base", "signal"},
    "logbook": {"base", "shot"},
    "intake": {"base", "audio", "shot", "logbook"},
    "compare": {"base", "stats", "shot", "logbook"},
    "work": {"base", "stats", "shot", "audio", "logbook", "intake", "compare"},
    "report": {"base", "signal", "stats", "shot", "logbook", "compare", "plot"},
    "terminal": {"base", "signal", "stats", "shot", "logbook", "compare", "plot", "report", "audio", "intake", "work"},
    "desk": {"base", "signal", "stats", "shot", "logbook", "compare", "plot", "report", "audio", "intake", "work"},
}

# Rooms within a folder, by the same rule; a file beside the rooms belongs to none and may see all.
ROOMS = {
    "desk": {
        "parts": set(),
        "figures": {"parts"},
        "sheets": {"parts"},
        "model": {"parts", "sheets"},
        "places": {"parts", "figures", "sheets", "model"},
        "window": {"parts", "figures", "sheets", "model", "places"},
        "program": {"window"},
    },
}

# package: how its headers begin, and the files that may include them.
PACKAGES = {
    "FFTW": (r"fftw3", r"src/signal/fft\.cpp"),
    "soxr": (r"soxr", r"src/signal/\w+\.cpp"),
    "Eigen": (r"Eigen/", r"src/signal/.*|src/.*\.cpp"),
    "libsndfile": (r"sndfile", r"src/audio/.*"),
    "PortAudio": (r"portaudio|pa_", r"src/audio/.*"),
    "Dear ImGui": (r"imgui", r"src/desk/.*"),
    "GLFW": (r"GLFW/|GL/|GLES", r"src/desk/.*"),
    "Cairo": (r"cairo", r"src/plot/.*"),
    "SQLite": (r"sqlite3", r"src/logbook/.*"),
    "CLI11": (r"CLI/", r"src/terminal/.*\.cpp"),
    "nlohmann-json": (r"nlohmann/json\.hpp", r"src/.*\.cpp"),
}
# Slow to compile: no more files than this.
# CLI11: the verbs of measuring, of the logbook (two) and of planning; JSON: one a face that programs read.
AT_MOST = {"CLI11": 7, "nlohmann-json": 12, "Eigen": 8}

INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]', re.MULTILINE)
LIBRARY = re.compile(r"^\s*ringfall_library\(\s*(\w+)([^)]*)\)", re.MULTILINE)


def check_arrow(folder, other, where):
    if folder not in ARROWS:
        return [f"{where}: src/{folder} has no row in the table of arrows (check_layers.py)"]
    if other != folder and other not in ARROWS[folder]:
        return [f"{where}: src/{folder} must not see src/{other}"]
    return []


def check_room(where, header):
    """`where` and `header` as paths; rooms of the same folder only."""
    own, other = where.split("/")[1:], header.split("/")
    rooms = ROOMS.get(own[0])
    if rooms is None or other[0] != own[0] or len(own) < 3 or len(other) < 3:
        return []
    if own[1] not in rooms:
        return [f"{where}: src/{own[0]}/{own[1]} has no row in the table of rooms (check_layers.py)"]
    if other[1] != own[1] and other[1] not in rooms[own[1]]:
        return [f"{where}: src/{own[0]}/{own[1]} must not see src/{own[0]}/{other[1]}"]
    return []


def check(root):
    problems = []
    users = {package: [] for package in PACKAGES}
    for path in tree.code_files(root):
        where = tree.name(root, path)
        if not where.startswith("src/") or where.count("/") < 2:
            continue
        folder = where.split("/")[1]
        text = tree.read(path)
        if path.name == "CMakeLists.txt":
            for _, links in LIBRARY.findall(text):
                for other in links.split():
                    if other in ARROWS:
                        problems += check_arrow(folder, other, where)
            continue
        for mark, header in INCLUDE.findall(text):
            if mark == '"':
                if not (root / "src" / header).is_file():
                    problems.append(f'{where}: "{header}" is not a path from src/')
                problems += check_arrow(folder, header.split("/")[0], where)
                problems += check_room(where, header)
                continue
            for package, (begins, allowed) in PACKAGES.items():
                if re.match(begins, header):
                    users[package].append(where)
                    if not re.fullmatch(allowed, where):
                        problems.append(f"{where}: {package} may be included only by {allowed}")
    for package, most in AT_MOST.items():
        found = sorted(set(users[package]))
        if len(found) > most:
            problems.append(f"{package} is slow to compile: at most {most} files, found {', '.join(found)}")
    return problems


if __name__ == "__main__":
    tree.run(check)
