# SPDX-License-Identifier: GPL-3.0-or-later
"""What the house checks share: which files are the project's, and how a check reports.

A check is a function from the project's root folder to a list of problems, so that bad_trees_test.py can feed it
deliberately bad trees.
"""
import pathlib
import sys

SKIPPED = ("build",)  # name beginnings of top-level folders that builds make
CODE_SUFFIXES = {".cpp", ".h", ".py", ".sh", ".cmake"}
CODE_NAMES = {"CMakeLists.txt", ".clang-format"}


def top_level(root):
    """Names directly under the root, without what builds, editors and git make."""
    for path in sorted(root.iterdir()):
        hidden = path.name.startswith(".") and path.is_dir() and path.name != ".ci"
        if not hidden and path.name != ".git" and not path.name.startswith(SKIPPED):
            yield path


def files(root):
    """Every file of the project."""
    for top in top_level(root):
        for path in sorted(top.rglob("*")) if top.is_dir() else [top]:
            if path.is_file() and "__pycache__" not in path.parts:
                yield path


def is_code(root, path):
    """Sources, scripts and CMake files."""
    return (path.suffix in CODE_SUFFIXES or path.name in CODE_NAMES
            or path.relative_to(root).parts[0] == ".ci")


def code_files(root):
    return [path for path in files(root) if is_code(root, path)]


def read(path):
    return path.read_text(encoding="utf-8", errors="replace")


def name(root, path):
    return path.relative_to(root).as_posix()


def run(check):
    """The command line of every check: the root as the only argument, problems on standard output."""
    problems = check(pathlib.Path(sys.argv[1]))
    for problem in problems:
        print(problem)
    print(f"{len(problems)} problems")
    sys.exit(1 if problems else 0)
