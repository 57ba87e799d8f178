"""Progress as a bar on a terminal."""

import sys
from typing import Self, TextIO

WIDTH = 30
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
        full = WIDTH if of == 0 else WIDTH * done // of
        bar = "=" * full + "." * (WIDTH - full)
        self.stream.write(f"\r\x1b[K{STAGES.get(stage, stage)} [{bar}] {done} of {of}")
        self.stream.flush()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        """Take the bar off the screen."""
        if self.shown:
            self.stream.write("\r\x1b[K")
            self.stream.flush()
