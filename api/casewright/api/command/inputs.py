"""A job as the command line is given it: a file, a pipe or standard input, and no more than a job may hold."""

import sys
from errno import EISDIR
from pathlib import Path
from stat import S_ISDIR, S_ISFIFO, S_ISREG

from casewright.api.job import limits


class RefusedError(Exception):
    """Something on the command line is not read or written; says what it is and what to do."""


def job_bytes(name: str) -> bytes:
    """Return what a job file holds; `-` is standard input. Raises `RefusedError`, `OSError`."""
    most = limits.BODY_BYTES
    if name == "-":
        body = sys.stdin.buffer.read(most + 1)
    else:
        mode = Path(name).stat().st_mode
        if S_ISDIR(mode):
            raise IsADirectoryError(EISDIR, "a folder", name)
        if not S_ISREG(mode) and not S_ISFIFO(mode):
            raise RefusedError(f"{name} is no file; name a job file (JSON or CSV), or - for standard input")
        with Path(name).open("rb") as file:
            body = file.read(most + 1)
    if len(body) > most:
        raise RefusedError(f"{name} holds more than {most} bytes; give fewer cabinets or parts at a time")
    return body


def json_bytes(name: str) -> bytes:
    """Return what a job file holds, for commands that read no table. Raises `RefusedError`, `OSError`."""
    body = job_bytes(name)
    if is_table(name, body):
        raise RefusedError(f"{name} is a table, or no job at all; this command reads a job written as JSON")
    return body


def is_table(name: str, body: bytes) -> bool:
    """Return whether a job is CSV: by its file's name, else by how it begins."""
    if name.lower().endswith((".csv", ".json")):
        return name.lower().endswith(".csv")
    return not body.removeprefix(b"\xef\xbb\xbf").lstrip().startswith((b"{", b"["))
