"""How heavy a request is, judged from its bytes alone: heavy work may not take every worker.

The guess need not be right: a heavy request taken for a small one is answered all the same, within the same budget,
and only keeps a worker that small ones would have had.
"""

from enum import StrEnum
from urllib.parse import unquote


class WorkClass(StrEnum):
    """What a request asks of the service."""

    HEALTH = "health"
    SMALL = "small"
    HEAVY = "heavy"


HEAVY_BODY = 16 * 1024
"""Bytes from which a job is heavy: some twenty cabinets, each with all its fields."""

HEAVY_ROWS = 20
"""Rows with an id, or lines of a table, from which it is, too: cabinets with little of their own beside a house."""

_HEALTH = frozenset({"/healthz", "/readyz"})
_HEAVY = frozenset(
    {"/v1/booklet", "/v1/compare", "/v1/cures", "/v1/from-stock", "/v1/labels", "/v1/papers", "/v1/stock"}
)
"""Views that plan more than once, cut from stock, or draw everything."""


def work_class(method: str, path: str, body: bytes) -> WorkClass:
    """Return the class of a request. A job that names stock, or may hide that it does, is heavy."""
    path = "/" + unquote(path).lstrip("/")  # as the app reads it
    if path in _HEALTH and method in ("GET", "HEAD") and not body:
        return WorkClass.HEALTH
    if method != "POST":
        return WorkClass.SMALL
    names_stock = b"stock" in body or b"\\u" in body
    rows = body.count(b'"id"') if body.lstrip()[:1] == b"{" else len(body.splitlines())
    long = len(body) >= HEAVY_BODY or rows >= HEAVY_ROWS
    return WorkClass.HEAVY if path in _HEAVY or names_stock or long else WorkClass.SMALL
