# SPDX-License-Identifier: GPL-3.0-or-later
"""Does every script that configures a build set every option there is? What it leaves out is what another script said in the same folder before:
after a demo without the window the tests would leave the window out and say that all passed.
"""
import re

import tree

SCRIPTS = ("tests/run.sh", "assets/demo.sh")
OPTION = re.compile(r"^option\((RINGFALL_\w+)", re.MULTILINE)


def check(root):
    options = OPTION.findall(tree.read(root / "CMakeLists.txt")) if (root / "CMakeLists.txt").is_file() else []
    problems = []
    for name in SCRIPTS:
        if not (root / name).is_file():
            continue
        text = tree.read(root / name)
        problems += [f"{name}: sets no {option}" for option in options if f"-D{option}=" not in text]
    return problems


if __name__ == "__main__":
    tree.run(check)
