"""The terminal's window: how wide it is."""

import shutil
import sys

from casewright.api.command.bench_text import WIDTH


def columns() -> int:
    """Return how many columns standard output has; those of a printed page where it is no terminal."""
    return shutil.get_terminal_size((WIDTH, 24)).columns if sys.stdout.isatty() else WIDTH
