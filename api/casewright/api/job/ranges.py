"""The body of a question to the stock on hand: a job in which sizes, counts and numbers of shelves may be ranges."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from casewright.api.job import limits
from casewright.api.job.problems import Findings
from casewright.api.job.reading import LeafReader, unknown
from casewright.sdk.errors import BadDocumentError, pointer_to
from casewright.sdk.fields import Choice, Count, Length, OptionSchema, units_in_force
from casewright.sdk.loader import Registry
from casewright.sdk.units import INCH, MM, Units, to_number
from casewright.sdk.writer import writer
from marshmallow import fields

KEYS = ("job", "aim", "answers")
SIZES = frozenset({"width", "height", "depth"})
NUMBERS = frozenset({"count", "fixed_shelves", "loose_shelves"})
DEFAULT_STEP: Mapping[Units, int] = {"in": INCH // 2, "mm": 10 * MM}
"""The step of a size where none is given."""
ROUND_STEP: Mapping[Units, int] = {"in": INCH // 8, "mm": MM}
"""What a step that is proposed is a multiple of."""

_SIZE = Length(least=1, most=limits.GREATEST_CABINET)
_NUMBER = Count(most=limits.COPIES)
_ANSWERS = Count(least=1, most=limits.ANSWERS)

Path = tuple[str | int, ...]


class Aim(StrEnum):
    """What makes one answer better than another."""

    LARGEST = "largest"
    LEAST_BOUGHT = "least-bought"
    LEAST_LEFT = "least-left"
    LEAST_CHANGE = "least-change"

    @property
    def on_hand_only(self) -> bool:
        """Whether only stock of a stated number of copies is counted on: an answer buys none."""
        return self in (Aim.LARGEST, Aim.LEAST_LEFT)


_AIM = Choice(*Aim)


@dataclass(frozen=True, slots=True)
class Range:
    """One place of a job that may vary: its path, and the values it may have, rising, as a job document writes them."""

    path: Path
    values: tuple[float | int, ...]

    @property
    def pointer_in_body(self) -> str:
        """The place as a JSON Pointer into the body of a question."""
        return f"/job{self.pointer}"

    @property
    def pointer(self) -> str:
        """The place as a JSON Pointer into the job."""
        return pointer_to(*map(str, self.path))


@dataclass(frozen=True, slots=True)
class PileQuestion:
    """A job document with ranges, the ranges in it, and what is aimed at."""

    document: Any
    ranges: tuple[Range, ...]
    aim: Aim
    answers: int

    @property
    def as_json(self) -> Any:
        """The question as JSON values, defaults filled in."""
        return {"job": self.document, "aim": self.aim.value, "answers": self.answers}

    def job(self, point: Sequence[int]) -> Any:
        """Return the job document with each range at a place of its values."""
        made = self.document
        for one, place in zip(self.ranges, point, strict=True):
            made = _put(made, one.path, one.values[place])
        return made


class FromStockQuestion(OptionSchema):
    """A job with ranges, and what is aimed at; `least-change` takes a fixed job and makes sizes less."""

    job = fields.Dict(
        required=True,
        metadata={
            "description": "a Job, or 400 and 422 as of one, in which `width`, `height`, `depth`, `count` and both "
            'shelf counts of cabinets, and the first three of `house`, may be {"least", "most", "step"}'
        },
    )
    aim = Choice(*Aim, load_default=Aim.LARGEST, about="what makes one answer better than another")
    answers = Count(least=1, most=limits.ANSWERS, load_default=3, about="how many jobs at most")


def read_question(document: Any, registry: Registry) -> PileQuestion:
    """Return the question of a body; the job in it is read for each answer alone.

    Raises `BadDocumentError` naming every fault of what stands round the job, and of its ranges.
    """
    findings = Findings()
    if not isinstance(document, dict):
        findings.add("", "an object", document, 'Write {"job": {...}, "aim": "largest"}.')
        raise BadDocumentError(*findings.schema)
    for key in document:
        if key not in KEYS:
            unknown(key, KEYS, document, "", findings)
    if "job" not in document:
        findings.missing("/job", 'Add "job".')
    aim = LeafReader(_AIM).read(document.get("aim", Aim.LARGEST), "/aim", findings)
    answers = LeafReader(_ANSWERS).read(document.get("answers", 3), "/answers", findings)
    job = document.get("job")
    units: Units = "in" if isinstance(job, dict) and job.get("units") == "in" else "mm"
    with units_in_force(units):
        ranges = tuple([one for path, value in _places(job) if (one := _range(path, value, units, findings))])
    fixed = aim == Aim.LEAST_CHANGE
    if ranges and fixed:
        findings.add(ranges[0].pointer_in_body, "a fixed size", "a range", "Give the size, or another aim.")
    if not findings.schema and not ranges and not fixed:
        rule = "a job with a range"
        findings.add("/job", rule, "none", 'Write for example "width": {"least": 500, "most": 900} in a cabinet.')
    if len(ranges) > limits.RANGES:
        fix = "Fix some of them."
        findings.add("/job", f"at most {limits.RANGES} ranges", f"{len(ranges)}", fix)
    if findings.schema or findings.beyond:
        raise BadDocumentError(*findings.schema, *findings.beyond)
    return PileQuestion(job, ranges, Aim(aim), answers)


def _places(job: Any) -> Iterator[tuple[Path, dict[str, Any]]]:
    """Yield every object that stands where a range may."""
    if not isinstance(job, dict):
        return
    house = job.get("house")
    if isinstance(house, dict):
        yield from ((("house", key), house[key]) for key in sorted(SIZES) if isinstance(house.get(key), dict))
    cabinets = job.get("cabinets")
    for i, cabinet in enumerate(cabinets if isinstance(cabinets, list) else []):
        if not isinstance(cabinet, dict):
            continue
        for key in sorted({*SIZES, "count"}):
            if isinstance(cabinet.get(key), dict):
                yield ("cabinets", i, key), cabinet[key]
        yield from _shelves(cabinet.get("space"), ("cabinets", i, "space"), 0)


def _shelves(space: Any, path: Path, depth: int) -> Iterator[tuple[Path, dict[str, Any]]]:
    if not isinstance(space, dict) or depth > limits.SPACE_DEPTH:
        return
    for key in ("fixed_shelves", "loose_shelves"):
        if isinstance(space.get(key), dict):
            yield (*path, key), space[key]
    for key in ("bays", "tiers"):
        inner = space.get(key)
        for i, entry in enumerate(inner if isinstance(inner, list) else []):
            yield from _shelves(entry, (*path, key, i), depth + 1)


def _range(path: Path, value: dict[str, Any], units: Units, findings: Findings) -> Range | None:
    """Return a range read, or None where it is faulty (noted)."""
    at = "/job" + pointer_to(*map(str, path))
    size = path[-1] in SIZES
    reader = LeafReader(_SIZE if size else _NUMBER)
    before = len(findings.schema) + len(findings.beyond)
    for key in value:
        if key not in ("least", "most", "step"):
            unknown(key, ("least", "most", "step"), value, at, findings)
    for key in ("least", "most"):
        if key not in value:
            findings.missing(f"{at}/{key}", f'Add "{key}".')
    read = {key: reader.read(value[key], f"{at}/{key}", findings) for key in ("least", "most", "step") if key in value}
    if len(findings.schema) + len(findings.beyond) > before:
        return None
    least, most = read["least"], read["most"]
    step = read.get("step", DEFAULT_STEP[units] if size else 1)
    if most < least:
        got = f"{value['least']} to {value['most']}"
        findings.add(at, "`most` no less than `least`", got, "Change one with the other.")
        return None
    if step <= 0 or (most - least) // step >= limits.RANGE_VALUES:
        rule = f"a step more than 0, and at most {limits.RANGE_VALUES} values"
        got = f"{(most - least) // step + 1} values" if step else "a step of 0"
        enough = (most - least) // limits.RANGE_VALUES + 1
        if size:
            enough = -(-enough // ROUND_STEP[units]) * ROUND_STEP[units]
        fix = f"Give a step of {writer(units).length(enough) if size else enough} or more."
        findings.add(f"{at}/step" if "step" in value else at, rule, got, fix)
        return None
    values = range(least, most + 1, step)
    return Range(path, tuple([to_number(nm, units) for nm in values] if size else values))


def _put(document: Any, path: Path, value: Any) -> Any:
    """Return a document with a value at a path; what is not on the way is shared."""
    if not path:
        return value
    head, rest = path[0], path[1:]
    if isinstance(document, list):
        return [_put(inner, rest, value) if i == head else inner for i, inner in enumerate(document)]
    return {**document, head: _put(document.get(head), rest, value)}
