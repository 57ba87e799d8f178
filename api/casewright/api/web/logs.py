"""Logs: one JSON object a line on standard error, with nothing of any job in it.

An exception is named by its type and by where it was raised. Its message is left out, as are query strings and the
lines of source: any of them may quote a job.
"""

import logging
import sys
import time
import traceback
from types import TracebackType
from typing import Any

import orjson
from flask import g, has_request_context

REQUESTS = "casewright.requests"
OURS = ("casewright", "gunicorn.error")
_DEEPEST = 30


class JsonLines(logging.Formatter):
    """Writes a record as one line of JSON: time, level, logger, message, then whatever `fields` it carries."""

    converter = staticmethod(time.gmtime)

    def format(self, record: logging.LogRecord) -> str:
        """Return the line."""
        out: dict[str, Any] = {
            "time": f"{self.formatTime(record, '%Y-%m-%dT%H:%M:%S')}.{int(record.msecs):03d}Z",
            "level": record.levelname.lower(),
            "logger": record.name,
            "process": record.process,
            "message": _message(record),
        }
        if has_request_context() and "request_id" in g:
            out["request"] = g.request_id
        out |= getattr(record, "fields", {})
        if record.exc_info and record.exc_info[0] is not None:
            out["raised"] = record.exc_info[0].__name__
            out["frames"] = frames(record.exc_info[2])
        return orjson.dumps(out, default=str).decode("utf-8")


def _message(record: logging.LogRecord) -> str:
    if record.name.startswith("gunicorn"):
        if record.exc_info:
            return str(record.msg).split("%", 1)[0].strip()  # its arguments may hold a request's target
        if str(record.msg).startswith("Invalid request"):
            return "Invalid request"  # it quotes the bytes received
    return record.getMessage().split("\n", 1)[0][:500]


def frames(trace: TracebackType | None) -> list[str]:
    """Return where an exception passed, innermost last: file, line and function, never what was in it."""
    deepest = traceback.extract_tb(trace)[-_DEEPEST:]
    return [f"{'/'.join(f.filename.split('/')[-3:])}:{f.lineno} {f.name}" for f in deepest]


def configure(level: str) -> None:
    """Send our records and gunicorn's to standard error as JSON, from `level` up."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(JsonLines())
    for name in OURS:
        logger = logging.getLogger(name)
        logger.handlers[:] = [handler]
        logger.propagate = False
        logger.setLevel(level.upper())


def warn(message: str) -> None:
    """Write a warning of ours."""
    logging.getLogger("casewright.web").warning("%s", message)
