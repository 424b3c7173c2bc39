# SPDX-License-Identifier: GPL-3.0-or-later
"""Words that must agree: names of files under docs/, keys of the bibliography, rows of the licence table."""
import re

import tree

# "docs/measures/levels.md" or "docs/measures/levels.md#peak"; a <placeholder> is not a name.
DOCUMENT = re.compile(r"\bdocs/[\w./-]*\w\.(?:md|csv|svg|py)\b(?:#[\w-]+)?")
LINK = re.compile(r"\]\(([^)#:\s]+)(?:#[\w-]*)?\)")
# [Key2004], [ISO532-1:2017]; a [link](...) and an index x[N0] are none.
KEY = re.compile(r"(?<![\w)])\[([A-Z][\w.:-]*\d[\w.:-]*)\](?!\()")
PACKAGE = re.compile(r"(?:find_package|pkg_check_modules)\(\s*(\w+)([^)]*)\)")
# Parts of CMake and of the C library, not packages.
NOT_PACKAGES = {"PkgConfig", "Threads"}


def anchors(text):
    """Headings the way Markdown viewers name them."""
    headings = re.findall(r"^#+ +(.*?) *$", text, re.MULTILINE)
    return {re.sub(r"[^\w -]", "", heading.lower()).replace(" ", "-") for heading in headings}


def check_pointers(root):
    problems = []
    for path in tree.files(root):
        text_file = tree.is_code(root, path) or path.suffix == ".md"
        if not text_file or tree.name(root, path).startswith("tests/house/"):
            continue
        where = tree.name(root, path)
        text = tree.read(path)
        for pointer in sorted(set(DOCUMENT.findall(text))):
            document, _, anchor = pointer.partition("#")
            if not (root / document).is_file():
                problems.append(f"{where}: {document} does not exist")
            elif anchor and anchor not in anchors(tree.read(root / document)):
                problems.append(f"{where}: {document} has no heading #{anchor}")
        if path.suffix == ".md":
            problems += [f"{where}: link to {link}, which does not exist"
                         for link in LINK.findall(text) if not (path.parent / link).exists()]
    return problems


def check_keys(root):
    entries = [path for path in tree.files(root) if tree.name(root, path).startswith("docs/bibliography")]
    known = {key for path in entries for key in re.findall(r"[\w.:-]*\w", tree.read(path))}
    return [f"{tree.name(root, path)}: [{key}] is not in docs/bibliography/"
            for path in tree.files(root) if tree.name(root, path).startswith("docs/measures")
            for key in sorted(set(KEY.findall(tree.read(path)))) if key not in known]


def check_licences(root):
    cmake = root / "third_party/cmake/packages.cmake"
    table = root / "third_party/LICENCES.md"
    if not cmake.is_file() or not table.is_file():
        return ["third_party/cmake/packages.cmake or third_party/LICENCES.md is missing"]
    rows = [line for line in tree.read(table).splitlines() if line.startswith("|")]
    found = [name for name, _ in PACKAGE.findall(tree.read(cmake)) if name not in NOT_PACKAGES]
    return [f"third_party/LICENCES.md: no row for `{name}`, which packages.cmake looks for"
            for name in found if not any(f"`{name}`" in row for row in rows)]


def check(root):
    return check_pointers(root) + check_keys(root) + check_licences(root)


if __name__ == "__main__":
    tree.run(check)
