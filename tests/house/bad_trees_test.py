# SPDX-License-Identifier: GPL-3.0-or-later
"""Each house check must find what is wrong with a deliberately bad tree, and nothing in a good one.

  python3 tests/house/bad_trees_test.py
"""
import contextlib
import io
import pathlib
import tempfile
import unittest

import check_docs
import check_files
import check_labels
import check_layers
import check_scripts
import check_spdx

SPDX = "// SPDX-License-" "Identifier: GPL-3.0-or-later\n"

GOOD = {
    "README.md": "See [the map](docs/map.md).\n",
    "docs/map.md": "# Map\n\n## Two words\n",
    "docs/bibliography/levels.md": "- **Key2004**: a book. **ISO1:2017**: a standard.\n",
    "docs/measures/levels.md": "# Levels\n\nAfter [Key2004] and [ISO1:2017], with x[N0].\n",
    "src/base/units.h": SPDX + "/// docs/map.md#two-words\n",
    "src/signal/fft.h": SPDX,
    "src/signal/fft.cpp": SPDX + '#include "signal/fft.h"\n#include <fftw3.h>\n#include "base/units.h"\n',
    "src/signal/CMakeLists.txt": SPDX.replace("//", "#") + "ringfall_library(signal base Eigen3::Eigen)\n",
    "third_party/cmake/packages.cmake":
        SPDX.replace("//", "#") + "find_package(PkgConfig)\nfind_package(fmt 9)\npkg_check_modules(SOXR soxr)\n",
    "third_party/LICENCES.md": "| fmt | `fmt` |\n| soxr | `SOXR` |\n",
}


class BadTrees(unittest.TestCase):
    def problems(self, check, changes):
        """What `check` says of the good tree with `changes` (path: text, None deletes)."""
        with tempfile.TemporaryDirectory() as folder:
            root = pathlib.Path(folder)
            for path, text in {**GOOD, **changes}.items():
                if text is not None:
                    (root / path).parent.mkdir(parents=True, exist_ok=True)
                    (root / path).write_text(text, encoding="utf-8")
            with contextlib.redirect_stdout(io.StringIO()) as self.printed:
                return check(root)

    def finds(self, check, changes, words):
        """Exactly one problem, and it says `words`."""
        problems = self.problems(check, changes)
        self.assertEqual(len(problems), 1, problems)
        self.assertIn(words, problems[0])

    def test_good_tree(self):
        for module in (check_docs, check_files, check_layers, check_spdx):
            self.assertEqual(self.problems(module.check, {}), [], module.__name__)

    def test_layers(self):
        def finds(path, line, words):
            self.finds(check_layers.check, {path: SPDX + line + "\n"}, words)

        finds("src/base/a.cpp", '#include "signal/fft.h"', "src/base must not see src/signal")
        finds("src/shot/a.h", '  #  include "signal/no.h"', "not a path from src/")
        finds("src/signal/a.cpp", "#include <fftw3.h>", "FFTW")
        finds("src/intake/a.cpp", "#include <sndfile.h>", "libsndfile")
        finds("src/desk/a.cpp", "#include <portaudio.h>", "PortAudio")
        finds("src/terminal/a.cpp", "#include <imgui.h>", "Dear ImGui")
        finds("src/report/a.cpp", "#include <GLFW/glfw3.h>", "GLFW")
        finds("src/report/a.cpp", "#include <cairo/cairo-svg.h>", "Cairo")
        finds("src/report/a.cpp", "#include <sqlite3.h>", "SQLite")
        finds("src/audio/a.cpp", "#include <soxr.h>", "soxr")
        finds("src/compare/a.h", "#include <Eigen/Dense>", "Eigen")
        finds("src/report/a.h", "#include <nlohmann/json.hpp>", "nlohmann-json")
        finds("src/report/a.cpp", "#include <CLI/CLI.hpp>", "CLI11")
        room = {"src/desk/places/view.h": SPDX, "src/desk/parts/parts.h": SPDX}
        self.finds(check_layers.check, {**room, "src/desk/model/a.h": SPDX + '#include "desk/places/view.h"\n'},
                   "src/desk/model must not see src/desk/places")
        self.finds(check_layers.check, {**room, "src/desk/attic/a.h": SPDX + '#include "desk/parts/parts.h"\n'},
                   "no row in the table of rooms")
        self.assertEqual(self.problems(check_layers.check, {**room, "src/desk/places/a.h": SPDX + '#include "desk/parts/parts.h"\n'}), [])
        finds("src/attic/a.cpp", '#include "base/units.h"', "no row in the table")

    def test_layers_of_cmake_and_counts(self):
        self.finds(check_layers.check,
                   {"src/base/CMakeLists.txt": "ringfall_library(base fmt::fmt\n  signal)\n"},
                   "src/base must not see src/signal")
        verb = SPDX + "#include <CLI/CLI.hpp>\n"
        self.assertEqual(self.problems(check_layers.check, {"src/terminal/a.cpp": verb}), [])
        self.finds(check_layers.check, {f"src/terminal/{name}.cpp": verb for name in "abcdefgh"},
                   f"at most {check_layers.AT_MOST['CLI11']} files, found src/terminal/a.cpp, src/terminal/b.cpp, src/terminal/c.cpp")

    def test_spdx(self):
        for path in ("src/base/a.cpp", "src/base/a.h", "assets/a.sh", "tests/house/a.py", "CMakeLists.txt",
                     "src/a.cmake", ".ci/run"):
            self.finds(check_spdx.check, {path: "\n\n\n" + SPDX}, path)
        self.assertEqual(self.problems(check_spdx.check, {"docs/a.md": "", "build/a.cpp": ""}), [])

    def test_files_names_and_lengths(self):
        self.finds(check_files.check, {"Makefile": ""}, "Makefile: not among the names")
        self.assertEqual(self.problems(check_files.check, {"build-asan/a.cpp": "\n" * 500, ".git/x": "T" "ODO"}), [])
        self.assertEqual(self.problems(check_files.check, {"src/base/a.cpp": "\n" * 250}), [])
        self.assertNotIn("warning", self.printed.getvalue())
        self.assertEqual(self.problems(check_files.check, {"src/base/a.cpp": "\n" * 251}), [])
        self.assertIn("warning: src/base/a.cpp: 251 lines", self.printed.getvalue())
        self.finds(check_files.check, {"src/base/a.cpp": "\n" * 401}, "401 lines")
        self.assertEqual(
            self.problems(check_files.check, {"src/base/a.cpp": SPDX + "// Long because a table.\n" * 500}), [])
        self.assertEqual(self.problems(check_files.check, {"tests/data/a.csv": "1\n" * 999}), [])

    def test_files_words(self):
        for bad in ("caf\u00e9", "see /wo" "rk/main", "'/ro" "ot/x'", "-B /ho" "me/me/b", "/tmp/b" "-me",
                    "deb.deb" "ian.org", "registry.npm" "js.org", "written by A" "I", "an L" "LM", "seed doc" "ument",
                    "T" "ODO: later", "F" "IXME"):
            self.finds(check_files.check, {"src/base/a.cpp": SPDX + bad + "\n"}, "src/base/a.cpp:2: ")
        self.finds(check_files.check, {"docs/a.md": "T" "ODO"}, "unfinished")
        self.finds(check_files.check, {"tests/shot/a.cpp": "fs::temp_directory" "_path()"}, "tests/shot/a.cpp:1: temporary")
        good = "docs/work/x, $HOME/work/x, 4 ft-AIM, ok /usr/share/x\n"
        self.assertEqual(self.problems(check_files.check, {"docs/a.md": good}), [])

    def test_docs(self):
        self.finds(check_docs.check, {"src/base/a.h": "/// docs/measures/none.md"}, "docs/measures/none.md does not")
        self.finds(check_docs.check, {"src/base/a.h": "/// docs/map.md#none"}, "no heading #none")
        self.finds(check_docs.check, {"docs/a.md": "[x](none.md#y)"}, "link to none.md")
        self.finds(check_docs.check, {"docs/measures/a.md": "[None1999]"}, "[None1999] is not in")
        self.finds(check_docs.check, {"docs/measures/a.md": "[ISO1:2018]"}, "[ISO1:2018] is not in")
        self.finds(check_docs.check, {"third_party/LICENCES.md": "| fmt | `fmt` |\n"}, "no row for `SOXR`")
        self.finds(check_docs.check, {"third_party/LICENCES.md": None}, "is missing")

    def test_scripts(self):
        options = SPDX + 'option(RINGFALL_DESK "the window" ON)\noption(RINGFALL_TSAN "threads" OFF)\n'
        self.finds(check_scripts.check, {"CMakeLists.txt": options, "tests/run.sh": SPDX + "cmake -S . -DRINGFALL_TSAN=OFF"},
                   "tests/run.sh: sets no RINGFALL_DESK")
        self.finds(check_scripts.check, {"CMakeLists.txt": options, "assets/demo.sh": SPDX + "cmake -S . -DRINGFALL_DESK=OFF"},
                   "assets/demo.sh: sets no RINGFALL_TSAN")

    def test_labels(self):
        listed = {"tests": [{"name": "base.A", "properties": [{"name": "LABELS", "value": ["base"]}]},
                            {"name": "logbook.B", "properties": [{"name": "TIMEOUT", "value": 600}, {"name": "LABELS", "value": ["logbook-threads"]}]},
                            {"name": "desk_NOT_BUILT"}]}
        labels = check_labels.labels_of(listed)
        self.assertEqual(labels, {"base", "logbook"})
        self.assertEqual(check_labels.missing(["base", "desk", "logbook"], labels), ["desk"])


if __name__ == "__main__":
    unittest.main()
