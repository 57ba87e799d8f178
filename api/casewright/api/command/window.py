"""The terminal's window: whether anyone looks on, and how wide it is."""

import shutil
import sys

from casewright.api.command.bench_text import WIDTH


def watched() -> bool:
    """Return whether standard output is a terminal, and not a file or another program."""
    return sys.stdout.isatty()


def columns() -> int:
    """Return how many columns standard output has; those of a printed page where it is no terminal."""
    return shutil.get_terminal_size((WIDTH, 24)).columns if watched() else WIDTH
