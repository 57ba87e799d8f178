"""Drawing options as a job writes them, and running a check over what is drawn: always the same draws.

Hypothesis with a recorded seed and no database, so that a run repeats.
"""

import json
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from contextvars import ContextVar
from dataclasses import dataclass
from typing import Any

from casewright.sdk.fields import Choice, Count, Flag, Length, Number, Text, units_in_force
from casewright.sdk.units import MM
from hypothesis import HealthCheck, Phase, given, reject, seed, settings
from hypothesis import strategies as st
from marshmallow import Schema, fields

Options = Mapping[str, Any]
SEED = 20261125
TENTH = MM // 10
WITH = "with "
"""Begins the note that says what a check failed with."""

SHOWN = 1500
"""Letters shown of each thing drawn, where a check fails."""
USUAL = 60 * MM
"""Lengths are drawn up to this where an option allows more; a method refuses what does not fit."""


_shrinking: ContextVar[bool] = ContextVar("casewright_shrinking", default=True)


@contextmanager
def unshrunk() -> Iterator[None]:
    """Show failures inside the block as they were drawn: making them smaller asks many calls more."""
    token = _shrinking.set(False)
    try:
        yield
    finally:
        _shrinking.reset(token)


class Declined(Exception):  # noqa: N818  # not an error: what was drawn is no case for the method
    """Raised by a check where the method has no answer to what was drawn; its words are the refusal's."""


@dataclass(frozen=True, slots=True)
class Tally:
    """How one kind of thing drawn went: how many were tried, and how often each refusal was met."""

    what: str
    tried: int
    refusals: Mapping[str, int]


class Journal:
    """What is drawn while a promise is tried: how it went, and the draw that is being tried."""

    def __init__(self) -> None:
        self.tallies: list[Tally] = []
        self.current: Mapping[str, Any] = {}
        self.refusals: Counter[str] = Counter()


def note_refusal(error: Exception) -> None:
    """Write down a refusal that a check takes for an answer."""
    kept = _journal.get()
    if kept is not None:
        kept.refusals[str(error)] += 1


_journal: ContextVar[Journal | None] = ContextVar("casewright_journal", default=None)
_pinned: ContextVar[Mapping[str, Any] | None] = ContextVar("casewright_pinned", default=None)


@contextmanager
def journal() -> Iterator[Journal]:
    """Write down what is drawn inside the block."""
    kept = Journal()
    token = _journal.set(kept)
    try:
        yield kept
    finally:
        _journal.reset(token)


@contextmanager
def pinned(values: Mapping[str, Any]) -> Iterator[None]:
    """Draw nothing inside the block where just these things are drawn: try these instead."""
    token = _pinned.set(values)
    try:
        yield
    finally:
        _pinned.reset(token)


def options_of(schema: type[Schema]) -> st.SearchStrategy[dict[str, Any]]:
    """Return a strategy of options as a job writes them, drawn from the schema: any of them may be left out."""
    option_fields = {field.data_key or name: field for name, field in schema().load_fields.items()}
    drawn = {name: _values(field) for name, field in option_fields.items()}
    needed = {name: drawn[name] for name, field in option_fields.items() if field.required}
    return st.fixed_dictionaries(needed, optional={n: s for n, s in drawn.items() if n not in needed})


def _values(field: fields.Field[Any]) -> st.SearchStrategy[Any]:
    if isinstance(field, Length):
        low = -(-field.least // TENTH)
        high = max(low, min(field.most, max(field.least, USUAL)) // TENTH)
        return st.integers(low, high).map(lambda n: f"{n / 10:g} mm")
    if isinstance(field, Count):
        return st.integers(field.least, min(field.most, field.least + 20))
    if isinstance(field, Number):
        return st.floats(field.least, field.most, allow_nan=False)
    if isinstance(field, Flag):
        return st.booleans()
    if isinstance(field, Choice):
        return st.sampled_from(field.words)
    assert isinstance(field, Text), f"no strategy for {type(field).__name__}"
    if field.pattern is not None:
        return st.from_regex(field.pattern).filter(lambda s: field.least <= len(s) <= field.most)
    letters = st.characters(min_codepoint=32, max_codepoint=0x24F, exclude_categories=("Cc", "Cs"))
    return st.text(letters, min_size=field.least, max_size=min(field.most, field.least + 20))


def loaded(schema: type[Schema], options: Options) -> dict[str, Any]:
    """Return options as a method gets them, read from their JSON text in a job in mm."""
    with units_in_force("mm"):
        values = schema().load(json.loads(json.dumps(dict(options))))
    assert isinstance(values, dict), f"{schema.__name__} loads to {type(values).__name__}, not to a mapping"
    return values


class _Drawn:
    """What was drawn, shown short when a check fails: a meeting carries a whole catalogue as its last field."""

    def __init__(self, values: dict[str, Any]) -> None:
        self.values = values

    def _repr_pretty_(self, printer: Any, cycle: bool) -> None:
        printer.text("…")

    def __repr__(self) -> str:
        return ", ".join(f"{name}={_short(repr(value))}" for name, value in self.values.items())


def _short(words: str) -> str:
    return words if len(words) <= SHOWN else f"{words[:SHOWN]} …"


def over(count: int, what: str, check: Callable[..., None], **drawn: st.SearchStrategy[Any]) -> None:
    """Draw until `check` was passed `count` times; draws for which it raises `Declined` do not count.

    Fails where under a tenth could be checked: then next to nothing was tried. `what` says what that is.
    """
    kept, pins = _journal.get(), _pinned.get()
    if pins is not None and set(pins) == set(drawn):
        with suppress(Declined):
            check(**pins)
        return
    answered = declined = 0
    refusals: Counter[str] = Counter()

    @seed(SEED)
    @settings(
        max_examples=count,
        deadline=None,
        database=None,
        derandomize=False,
        phases=(Phase.generate, Phase.shrink) if _shrinking.get() else (Phase.generate,),
        report_multiple_bugs=False,
        suppress_health_check=list(HealthCheck),
    )
    @given(st.fixed_dictionaries(drawn).map(_Drawn))
    def checked(drawn: _Drawn) -> None:
        nonlocal answered, declined
        if kept is not None:
            kept.current = drawn.values
        try:
            check(**drawn.values)
        except Declined as refusal:
            declined += 1
            refusals[str(refusal)] += 1
            reject()
        except Exception as error:
            error.add_note(f"{WITH}{drawn!r}")
            raise
        answered += 1

    try:
        checked()
    except Exception as error:
        if type(error).__name__ != "Unsatisfiable":
            raise
    finally:
        if kept is not None:
            kept.tallies.append(Tally(what, answered, dict(refusals + kept.refusals)))
            kept.refusals.clear()
    if kept is not None:
        kept.current = {}
    _assert_tried(what, (answered, declined), count, refusals)


def _assert_tried(what: str, tried: tuple[int, int], count: int, refusals: Counter[str]) -> None:
    """Assert that of `count` draws, `tried` answered or declined, at least a tenth were answered."""
    answered, declined = tried
    causes = [words for words in refusals if words]  # a draw that the method has no part in says nothing
    oftenest = max(causes, key=lambda words: (refusals[words], words), default="")
    assert answered * 10 >= min(count, answered + declined) > 0, (
        f"{what}: only {answered} of {answered + declined} could be tried; the rest were declined, oftenest by: "
        f"{oftenest.rstrip('.') or 'nothing that it makes'}. Answer more of them, give `options` that the method can "
        "answer, or take the kind of meeting out of a joint's `does`"
    )
