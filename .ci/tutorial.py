"""The tutorial as one shell script: files are written and commands run just as the page says.

A fenced block whose fence gives a `title` is (a piece of) that file, and an `sh` block is run; pieces of one file are
joined by two empty lines. Usage: python3 .ci/tutorial.py tutorial.md > tutorial.sh
"""

import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

FENCE = re.compile(r'^```(?P<kind>\w+)(?: title="(?P<title>[^"]+)")?\n(?P<text>.*?)^```$', re.MULTILINE | re.DOTALL)
MARK = "END-OF-BLOCK"


class Block(NamedTuple):
    """One fenced block: its language, the file it is a piece of (if any), and its text."""

    kind: str
    title: str | None
    text: str


def blocks(document: str) -> Iterator[Block]:
    """Yield every fenced block of a document."""
    for fence in FENCE.finditer(document):
        yield Block(fence["kind"], fence["title"], fence["text"])


def files(document: str) -> dict[str, str]:
    """Return the files the tutorial writes, each with its whole text."""
    whole: dict[str, str] = {}
    for block in blocks(document):
        if block.title is not None:
            whole[block.title] = f"{whole[block.title]}\n\n{block.text}" if block.title in whole else block.text
    return whole


def script(document: str) -> str:
    """Return the tutorial as a shell script."""
    lines = ["set -euo pipefail"]
    begun: set[str] = set()
    for block in blocks(document):
        if block.title is not None:
            text = f"\n\n{block.text}" if block.title in begun else block.text
            begun.add(block.title)
            lines.append(f"cat >> {block.title} <<'{MARK}'\n{text}{MARK}")
        elif block.kind == "sh":
            lines.append(block.text.rstrip("\n"))
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    print(script(Path(sys.argv[1]).read_text("utf-8")), end="")
