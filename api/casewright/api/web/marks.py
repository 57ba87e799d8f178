"""How a request's tables are written, as its query says: the job sent as CSV, and the answer asked for as CSV."""

from collections.abc import Mapping

from casewright.api.job.marks import DECIMALS, DELIMITERS, Marks, marks_named
from casewright.api.web.problems import bad_query
from flask import request

SENT: Mapping[str, tuple[str, Mapping[str, str]]] = {
    "delimiter": (
        "Mark between the cells of CSV, sent and answered; left out: a job's is guessed, and answered.",
        DELIMITERS,
    ),
    "decimal": ("Decimal mark of CSV, sent and answered; left out: a job's is guessed, and answered.", DECIMALS),
}
"""What a query may say of a job sent as a table: words about it and its values, the first that of answers."""
ANSWERED: Mapping[str, tuple[str, Mapping[str, str]]] = {
    **SENT,
    "bom": ("Whether CSV begins with a byte order mark, as some spreadsheets want.", {"false": "", "true": "yes"}),
}
"""What a query may say where a table may be answered too."""


def sent_marks() -> Marks:
    """Return the marks of a job sent as a table. Raises `ProblemError` (400) for a word that says nothing."""
    for name in SENT:
        if name in request.args:
            _mark(name, request.args[name])
    return marks_named(request.args.get("delimiter"), request.args.get("decimal"))


def answered_bom() -> bool:
    """Return whether a table is to begin with a byte order mark. Raises `ProblemError` (400) for another word."""
    return bool(_mark("bom", request.args.get("bom", "false")))


def _mark(name: str, word: str) -> str:
    _, values = ANSWERED[name]
    if word not in values:
        raise bad_query(name, f"one of: {', '.join(values)}", word, "Use one of these words, or leave it out.")
    return values[word]
