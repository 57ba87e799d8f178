"""Bytes to a JSON document, refusing what RFC 8259 leaves open.

UTF-8 only; every number finite and of bounded length; no key twice in one object; bounded depth, found before
parsing so that nothing recurses; no lone surrogates and no NUL in text. Each refusal names its place by pointer.
NUL, and numbers that are right by the grammar and too long or too great to hold, are `UnusableJobError`, for no schema
states these everywhere; all else is `BadDocumentError`.

The parser is the standard library's (its C scanner calls back for objects and numbers). Values that are refused
are left in the document as marks and looked for only if a mark was made, so a good document is walked once.
"""

import json
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate
from typing import Any, NoReturn

from casewright.api.job import limits
from casewright.api.job.problems import Findings
from casewright.sdk.errors import BadDocumentError, Problem, pointer_to

_TEXTS = re.compile(rb'"(?:[^"\\]++|\\.)*+"?', re.DOTALL)
_TOKENS = re.compile(_TEXTS.pattern + rb"|[\[\]{}]", re.DOTALL)
_ODD_NUMBER = re.compile(rb"[0-9][eE]|[0-9]{%d}" % (limits.JSON_DIGITS + 1))
"""Found, outside texts, wherever a number may be too long or too great."""

_STEPS = {ord("["): 1, ord("{"): 1, ord("]"): -1, ord("}"): -1}
_NO_BRACKETS = bytes(set(range(256)) - set(_STEPS))


@dataclass(frozen=True, slots=True)
class _Refused:
    """Stands in the parsed document where a value was refused."""

    rule: str
    got: str
    fix: str
    beyond_schema: bool = False


class _Marked(dict[str, Any]):
    """An object of the document in which a key stood twice."""

    twice: tuple[str, ...] = ()


def read_json(body: bytes) -> Any:
    """Return the document in `body`. Raises `BadDocumentError`, `UnusableJobError`, naming every refused value."""
    if len(body) > limits.BODY_BYTES:
        _refuse(f"at most {limits.BODY_BYTES} bytes", f"{len(body)} bytes", "Send a smaller document.")
    body = body.removeprefix(b"\xef\xbb\xbf")  # some editors begin UTF-8 with a byte order mark
    bare = _without_texts(body)
    _check_depth(body, bare)
    text = _decoded(body)
    reader = _Reader(plain_numbers=_ODD_NUMBER.search(bare) is None)
    try:
        document = reader.decoder.decode(text)
    except json.JSONDecodeError as error:
        place = f"line {error.lineno}, column {error.colno}"
        fix = f"Mend the text at {place}." if error.pos else "Begin with {; a table is sent as text/csv."
        _refuse("JSON text (RFC 8259)", f"{error.msg} at {place}", fix)
    if reader.marked or "\\u" in text:
        findings = Findings()
        for pointer, problem in _refusals(document):
            kind = findings.beyond if problem.beyond_schema else findings.schema
            kind.append(Problem(pointer, problem.rule, problem.got, problem.fix))
        findings.settle()
    return document


def _refuse(rule: str, got: str, fix: str) -> NoReturn:
    raise BadDocumentError(Problem("", rule, got, fix))


def _without_texts(body: bytes) -> bytes:
    """Return the document with every text left out, as far as quotes tell."""
    return _TEXTS.sub(b"", body) if b"\\" in body else b"".join(body.split(b'"')[::2])


def _check_depth(body: bytes, bare: bytes) -> None:
    brackets = bare.translate(None, _NO_BRACKETS)
    if len(brackets) <= limits.JSON_DEPTH:
        return
    if max(accumulate(map(_STEPS.__getitem__, brackets)), default=0) <= limits.JSON_DEPTH:
        return
    depth = 0
    for token in _TOKENS.finditer(body):
        depth += _STEPS.get(token[0][0], 0)
        if depth > limits.JSON_DEPTH:
            _refuse(
                f"at most {limits.JSON_DEPTH} objects and arrays inside one another",
                f"more at byte {token.start()}",
                "Nest less deeply.",
            )


def _decoded(body: bytes) -> str:
    try:
        return body.decode("utf-8")
    except UnicodeDecodeError as error:
        _refuse("UTF-8 text", f"byte 0x{body[error.start]:02x} at byte {error.start}", "Save the text as UTF-8.")


class _Reader:
    """One decoder and whether it left a mark anywhere; numbers known to be short are read without a look."""

    def __init__(self, *, plain_numbers: bool) -> None:
        self.marked = False
        self.decoder = json.JSONDecoder(
            object_pairs_hook=self._object,
            parse_int=None if plain_numbers else self._int,
            parse_float=None if plain_numbers else self._float,
            parse_constant=self._constant,
        )

    def _object(self, pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        members = dict(pairs)
        if len(members) == len(pairs):
            return members
        self.marked = True
        keys = [key for key, _ in pairs]
        marked = _Marked(members)
        marked.twice = tuple(key for key in members if keys.count(key) > 1)
        return marked

    def _int(self, text: str) -> Any:
        if len(text) > limits.JSON_DIGITS and len(text.lstrip("-")) > limits.JSON_DIGITS:
            return self._mark(f"a whole number of at most {limits.JSON_DIGITS} digits", text, beyond_schema=True)
        return int(text)

    def _float(self, text: str) -> Any:
        if len(text) > limits.JSON_DECIMAL:
            return self._mark(f"a number of at most {limits.JSON_DECIMAL} characters", text, beyond_schema=True)
        value = float(text)
        if math.isfinite(value):
            return value
        return self._mark("a number that a double can hold", text, beyond_schema=True)

    def _constant(self, text: str) -> Any:
        return self._mark("a JSON number (RFC 8259 has no such word)", text)

    def _mark(self, rule: str, text: str, *, beyond_schema: bool = False) -> _Refused:
        self.marked = True
        got = text if len(text) <= 30 else f"{text[:29]}… ({len(text)} characters)"
        return _Refused(rule, got, "Write a plain number such as 600 or 23.625.", beyond_schema)


def _refusals(document: Any) -> Iterator[tuple[str, _Refused]]:
    """Yield every refused value with its pointer; iterative, the depth being bounded already."""
    stack: list[tuple[str, Any]] = [("", document)]
    while stack:
        pointer, value = stack.pop()
        if isinstance(value, _Refused):
            yield pointer, value
        elif isinstance(value, dict):
            if isinstance(value, _Marked):
                for key in value.twice:
                    yield (
                        pointer + pointer_to(_printable(key)),
                        _Refused("each key once", f'"{_printable(key)}" more than once', "Keep one of them."),
                    )
            for key in value:
                if (flaw := _text_flaw(key)) is not None:
                    yield pointer, flaw
            stack.extend((pointer + pointer_to(_printable(key)), inner) for key, inner in reversed(value.items()))
        elif isinstance(value, list):
            stack.extend((pointer + pointer_to(i), value[i]) for i in reversed(range(len(value))))
        elif isinstance(value, str) and (flaw := _text_flaw(value)) is not None:
            yield pointer, flaw


def _text_flaw(text: str) -> _Refused | None:
    if "\0" in text:
        return _Refused("text without NUL", "a NUL character", "Take the NUL out.", beyond_schema=True)
    if any("\ud800" <= c <= "\udfff" for c in text):
        return _Refused("text of whole characters", "half of a surrogate pair", "Write both halves or neither.")
    return None


def _printable(key: str) -> str:
    return key.encode("utf-8", "replace").decode("utf-8").replace("\0", "?")
