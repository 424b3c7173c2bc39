# SPDX-License-Identifier: GPL-3.0-or-later
"""Every source, script and CMake file names the licence in its first three lines."""
import tree

LINE = "SPDX-License-" "Identifier: GPL-3.0-or-later"


def check(root):
    return [f"{tree.name(root, path)}: no '{LINE}' in the first three lines"
            for path in tree.code_files(root)
            if not any(line.endswith(LINE) for line in tree.read(path).splitlines()[:3])]


if __name__ == "__main__":
    tree.run(check)
