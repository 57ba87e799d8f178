"""What is read and what is answered: the body's type, `Accept`, and `?as=`, which overrides it."""

import re
from collections.abc import Mapping, Sequence

from casewright.api.papers import MEDIA_TYPES
from casewright.api.web.problems import ProblemError
from casewright.sdk.errors import Problem
from casewright.sdk.spelling import nearest_word
from flask import Request

JSON, CSV, TEXT, XML, LINES = "json", "csv", "text", "xml", "ndjson"
TYPES: Mapping[str, str] = {
    JSON: "application/json",
    CSV: "text/csv",
    TEXT: "text/plain",
    XML: "application/xml",
    LINES: "application/x-ndjson",
    **MEDIA_TYPES,
}
"""Media types by the words of `?as=`."""

_ANY_JSON = re.compile(r"application/([\w.!#$&^-]+\+)?json", re.ASCII)
"""JSON, or anything that is written as JSON (RFC 6839)."""


def answer_format(request: Request, formats: Sequence[str], parameters: Sequence[str] = ()) -> str:
    """Return the format to answer in, the first of `formats` by default. Raises `ProblemError` (400, 406).

    `parameters` names what else the query may hold beside `as`.
    """
    _known_parameters(request, ("as", *parameters))
    word = request.args.get("as")
    if word is not None:
        if word not in formats:
            words = ", ".join(formats)
            known = nearest_word(word, formats) or formats[0]
            problem = Problem("?as", f"one of: {words}", repr(word), f"Write ?as={known}, or leave it out.")
            raise ProblemError("bad-query", f"`as` is one of {words}.", [problem])
        return word
    accept = request.accept_mimetypes
    if not accept:
        return formats[0]
    best = accept.best_match([TYPES[f] for f in formats])
    if best is None:
        types = ", ".join(TYPES[f] for f in formats)
        problem = Problem("Accept", f"a type made here: {types}", accept.to_header(), f"Send Accept: {types}.")
        raise ProblemError("not-acceptable", f"This path answers with {types}.", [problem])
    return next(f for f in formats if TYPES[f] == best)


def _known_parameters(request: Request, known: Sequence[str]) -> None:
    for name in request.args:
        if name not in known or len(request.args.getlist(name)) > 1:
            words = ", ".join(f"?{word}=" for word in known)
            got = request.query_string.decode("latin-1")[:60]
            problem = Problem(f"?{name}", f"only {words}, each once", f"?{got}", "Leave it out.")
            raise ProblemError("bad-query", f"Only {words} is read here.", [problem])


def body_format(request: Request) -> str:
    """Return the format of the request's body. Raises `ProblemError` (415)."""
    coding = request.headers.get("Content-Encoding", "identity").strip().lower()
    if coding not in ("", "identity"):
        problem = Problem("Content-Encoding", "identity", coding[:60], "Send the body as it is.")
        raise ProblemError("unsupported-media-type", "Compressed bodies are not read.", [problem])
    mimetype = request.mimetype
    charset = request.mimetype_params.get("charset", "utf-8").lower()
    if charset in ("utf-8", "utf8"):
        if _ANY_JSON.fullmatch(mimetype):
            return JSON
        if mimetype == TYPES[CSV]:
            return CSV
    got = request.headers.get("Content-Type", "nothing")
    problem = Problem(
        "Content-Type",
        "application/json or text/csv, in UTF-8",
        got[:60],
        "Send Content-Type: application/json, or text/csv of a table; save the body in UTF-8.",
    )
    raise ProblemError("unsupported-media-type", "Send application/json or text/csv.", [problem])
