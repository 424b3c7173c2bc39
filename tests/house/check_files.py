# SPDX-License-Identifier: GPL-3.0-or-later
"""What may lie where, how long a file may be, and words that have no place in any file.

Patterns are written so that they do not match themselves.
"""
import re

import tree

TOP_LEVEL = {"CMakeLists.txt", "CMakePresets.json", "README.md", "DEVELOPERS.md", "LICENSE", "src", "third_party", "assets", "tests",
             "docs", ".ci", ".gitignore", ".clang-format", "compile_commands.json"}

WARN_LINES = 250
MOST_LINES = 400
# A longer file says why: a line of its head comment begins with these words.
REASON = re.compile(r"Long because \w+")
HEAD_LINES = 12

NEVER = {
    "a path of one machine": re.compile(r"(?<![\w.$}*-])/(?:work|root|home|Users)/|/tmp/b[-]"),
    "the host of a package registry": re.compile(
        r"(?:deb|security|snapshot|ftp)\.debian\.org|archive\.ubuntu\.com|registry\.npmjs\.org|pypi\.org|"
        r"files\.pythonhosted\.org|proxy\.golang\.org|crates\.io"),
    "a word about how the code was made": re.compile(
        r"\bA[I]\b|\bLL[M]s?\b|language [m]odel|\bchat ?[b]ot|coding [a]ssistant|seed [d]ocument|\bsub-?[a]gents?\b"),
    "an unfinished corner": re.compile(r"\bT[O]DO\b|\bF[I]XME\b|\bX[X]X\b"),
}
# Two cases that run at once must not share a folder, so one class makes them all.
FOLDER_MAKER = "tests/support/test_folder.h"
FOLDER = re.compile(r"temp_directory[_]path|mkd[t]emp")
# Measured or published tables and sound are data, not words.
DATA_SUFFIXES = {".csv", ".wav", ".flac", ".svg", ".png"}


def check_length(where, lines):
    if len(lines) <= WARN_LINES:
        return []
    if len(lines) <= MOST_LINES:
        print(f"warning: {where}: {len(lines)} lines, {WARN_LINES} are plenty")
        return []
    if any(REASON.search(line) for line in lines[:HEAD_LINES]):
        return []
    return [f"{where}: {len(lines)} lines, more than {MOST_LINES}, and no 'Long because ...' in its head comment"]


def check(root):
    problems = [f"{path.name}: not among the names allowed at the top level"
                for path in tree.top_level(root) if path.name not in TOP_LEVEL]
    for path in tree.files(root):
        if path.suffix in DATA_SUFFIXES:
            continue
        where = tree.name(root, path)
        lines = tree.read(path).splitlines()
        code = tree.is_code(root, path)
        if code:
            problems += check_length(where, lines)
        for number, line in enumerate(lines, 1):
            if where.startswith("tests/") and where.endswith((".cpp", ".h")) and where != FOLDER_MAKER and FOLDER.search(line):
                problems.append(f"{where}:{number}: temporary folders of tests come from {FOLDER_MAKER}")
            if code and not line.isascii():
                problems.append(f"{where}:{number}: not ASCII")
            problems += [f"{where}:{number}: {what}: {pattern.search(line).group()}"
                         for what, pattern in NEVER.items() if pattern.search(line)]
    return problems


if __name__ == "__main__":
    tree.run(check)
