"""Progress as a bar on a terminal."""

import shutil
import sys
from typing import Self, TextIO

WIDTH, PAGE = 30, 80
"""Columns of the bar at most, and of a window that does not say how wide it is."""

STAGES = {
    "cabinets": "working out cabinets",
    "cutting": "fitting parts to stock",
    "settings": "putting saw settings in order",
    "writing": "writing",
}


class Bar:
    """A bar on a terminal while it is entered; call it with each step. Silent without a stream that is a terminal."""

    def __init__(self, stream: TextIO | None) -> None:
        self.stream = sys.stderr if stream is None else stream
        self.shown = stream is not None and stream.isatty()

    def __call__(self, stage: str, done: int, of: int) -> None:
        """Show a step."""
        if not self.shown:
            return
        words, count = STAGES.get(stage, stage), f"{done} of {of}"
        window = shutil.get_terminal_size((PAGE, 24)).columns
        width = max(0, min(WIDTH, window - len(words) - len(count) - 5))
        full = width if of == 0 else width * done // of
        line = f"{words} [{'=' * full}{'.' * (width - full)}] {count}"
        self.stream.write(f"\r\x1b[K{line[: window - 1]}")
        self.stream.flush()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        """Take the bar off the screen."""
        if self.shown:
            self.stream.write("\r\x1b[K")
            self.stream.flush()
