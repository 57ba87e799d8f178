"""Collecting what is wrong with a document, and saying it so that it can be mended."""

import json
from collections.abc import Collection, Iterable
from dataclasses import dataclass, field

from casewright.api.job import limits
from casewright.sdk.errors import BadDocumentError, Problem, UnusableJobError
from casewright.sdk.spelling import nearest_word

LONGEST_SHOWN = 60


class Phrase(str):
    """Words of ours about what was got, which are shown as they are and not as the job's own text."""

    __slots__ = ()


@dataclass(slots=True)
class Findings:
    """Problems found so far: those that break the published schema, and those beyond what it can state.

    `at_top` are the keys of the document itself, for whoever wrote one further down.
    """

    schema: list[Problem] = field(default_factory=list)
    beyond: list[Problem] = field(default_factory=list)
    at_top: Collection[str] = ()

    def add(self, pointer: str, rule: str, got: object, fix: str, *, beyond_schema: bool = False) -> None:
        """Add one problem; `got` is shown as JSON, or is a phrase."""
        problem = Problem(pointer, rule, shown(got), fix)
        target = self.beyond if beyond_schema else self.schema
        if problem not in target:
            target.append(problem)

    def missing(self, pointer: str, fix: str, *, beyond_schema: bool = False) -> None:
        """Add the problem of something needed that is not there."""
        target = self.beyond if beyond_schema else self.schema
        problem = Problem(pointer, "needed", "nothing", fix)
        if problem not in target:
            target.append(problem)

    def settle(self) -> None:
        """Raise what was found, if anything: `BadDocumentError`, else `UnusableJobError`."""
        if self.schema:
            raise BadDocumentError(*_capped([*self.schema, *self.beyond]))
        if self.beyond:
            raise UnusableJobError(*_capped(self.beyond))


def _capped(problems: list[Problem]) -> list[Problem]:
    return problems[: limits.PROBLEMS]


def shown(value: object) -> str:
    """Return a value as short JSON for a message; containers are named, not copied."""
    if isinstance(value, Phrase):
        return str(value)
    if isinstance(value, dict):
        return "an object"
    if isinstance(value, (list, tuple)):
        return f"an array of {len(value)}"
    try:
        text = json.dumps(value, ensure_ascii=False)
    except (TypeError, ValueError):
        text = str(value)
    return text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 1] + "…"


def advice(word: str, known: Iterable[str], *, verb: str = "Write", most: int = 12) -> str:
    """Return what to do about an unknown word: the nearest known one, or the list of them."""
    words = sorted(known)
    close = nearest_word(word, words)
    if close is not None:
        return f'{verb} "{close}".'
    if not words:
        return "None is known here; leave it out."
    if len(words) == 1:
        return f'{verb} "{words[0]}".'
    more = f" and {len(words) - most} more" if len(words) > most else ""
    return f"{verb} one of: {', '.join(words[:most])}{more}."
