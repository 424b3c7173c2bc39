# SPDX-License-Identifier: GPL-3.0-or-later
"""Reads a page as XML and as HTML with Python's own readers and says what is wrong with it, or "fine"."""
import html.parser
import sys
import xml.etree.ElementTree

VOID = {"meta", "rect", "path", "image", "br", "img"}
LOADS = {"src", "href", "xlink:href", "poster", "data", "action", "srcset"}


class Reader(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.problems = []
        self.open = []
        self.ids = set()
        self.seen = set()

    def look(self, tag, attributes):
        self.seen.add(tag)
        for name, value in attributes:
            if name in LOADS and not value.startswith("data:") and not value.startswith("#"):
                self.problems.append(f"<{tag} {name}> loads {value[:60]}")
            if name == "id":
                if value in self.ids:
                    self.problems.append(f"the id {value} stands twice")
                self.ids.add(value)
            if name.startswith("on"):
                self.problems.append(f"<{tag}> has the handler {name}")
        if tag in {"script", "link", "iframe", "object", "embed", "base"}:
            self.problems.append(f"<{tag}> has no place in the page")

    def handle_starttag(self, tag, attributes):
        self.look(tag, attributes)
        self.open.append(tag)

    def handle_startendtag(self, tag, attributes):
        self.look(tag, attributes)

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.problems.append(f"</{tag}> closes nothing")


with open(sys.argv[1], encoding="utf-8") as file:
    text = file.read()
reader = Reader()
try:
    root = xml.etree.ElementTree.fromstring(text)
    if root.get("lang") != "en":
        reader.problems.append("no language")
    for table in root.iter("table"):
        if table.find("caption") is None:
            reader.problems.append("a table without a caption")
    for svg in root.iter("{http://www.w3.org/2000/svg}svg"):
        if svg.find("{http://www.w3.org/2000/svg}title") is None:
            reader.problems.append("a picture without a description")
except xml.etree.ElementTree.ParseError as wrong:
    reader.problems.append(f"no XML: {wrong}")
reader.feed(text)
reader.problems += [f"<{tag}> is left open" for tag in reader.open]
reader.problems += [f"no <{tag}>" for tag in ("title", "h1", "h2", "main") if tag not in reader.seen]
if "url(" in text.replace("url(#", "") or "@import" in text:
    reader.problems.append("the style loads something")
print("\n".join(reader.problems) or "fine")
