"""One number of one cabinet, asked for by flat fields, as a cell of a spreadsheet can: what `GET /v1/value` answers.

Problems name the fields as parameters of a query, `?part`, for that is where they are written.
"""

import csv
import io
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from casewright.api.job.cells import CellProblem
from casewright.api.job.problems import advice
from casewright.api.use.job_input import JobInput
from casewright.api.use.planning import Planner
from casewright.sdk.errors import NoGeometryError, Problem, ProblemsError, UnusableJobError
from casewright.sdk.loader import Registry

FIELDS: Mapping[str, tuple[str, ...]] = {
    "part": ("length", "width", "thickness", "quantity"),
    "item": ("quantity",),
    "cabinet": ("mass_kg", "hands", "stops", "cautions"),
}
"""What may be asked of a part, of an item, and of the cabinet where neither is named."""

_ID = "cell"
_SHEET = {"kind": "sheet", "stuff": "birch-plywood"}
_SECTIONS = ("summary", "parts", "hardware", "checks")


@dataclass(frozen=True, slots=True)
class CellValue:
    """The number asked for; its units, nothing where it counts; and how many checks of the cabinet say stop."""

    value: float
    units: str
    field: str
    stops: int
    part: str | None = None
    item: str | None = None
    text: str | None = None

    def as_dict(self) -> dict[str, float | str]:
        """Return the value as a JSON object; `part` or `item` are in it where one was named."""
        out: dict[str, float | str] = {
            "value": self.value, "units": self.units, "field": self.field, "stops": self.stops,
        }  # fmt: skip
        named = {"part": self.part, "item": self.item, "text": self.text}
        return out | {name: word for name, word in named.items() if word is not None}


@dataclass(frozen=True, slots=True)
class Question:
    """What is asked: a field of a part, of an item of hardware or of the cabinet, in a job of dotted paths.

    Raises `UnusableJobError` where the field is none of what is named.
    """

    field: str
    part: str | None = None
    item: str | None = None
    units: str | None = None
    thickness: str | None = None

    def __post_init__(self) -> None:
        if self.part is not None and self.item is not None:
            raise UnusableJobError(
                Problem("?item", "part or item, not both", repr(self.item[:60]), "Leave one of them out.")
            )
        if self.field not in FIELDS[self.subject]:
            fix = advice(self.field, FIELDS[self.subject])
            if self.subject == "cabinet":
                listed = ", ".join(FIELDS["cabinet"])
                fix = f"Name a part, for example part=side-left, or ask the cabinet itself: {listed}."
            raise UnusableJobError(Problem("?field", f"a field of a {self.subject}", repr(self.field), fix))

    @property
    def subject(self) -> str:
        """What the field is asked of."""
        return "part" if self.part is not None else "item" if self.item is not None else "cabinet"

    def job(self, paths: Mapping[str, str], registry: Registry) -> JobInput:
        """Return the job that dotted paths stand for: they are read as a table of one row."""
        cells = dict(paths)
        if self.units is not None and "job.units" in cells:
            raise UnusableJobError(Problem("?job.units", "units once", repr(cells["job.units"][:60]), "Leave it out."))
        cells.setdefault("id", _ID)
        cells.setdefault("job.units", self.units or "mm")
        if self.thickness is not None:
            cells.setdefault("case.material", "sheet")
            for key, word in {**_SHEET, "thickness": self.thickness}.items():
                cells.setdefault(f"job.materials.sheet.{key}", word)
        out = io.StringIO(newline="")
        csv.writer(out).writerows([list(cells), list(cells.values())])
        try:
            row = JobInput.from_table(out.getvalue().encode("utf-8", "replace"), registry)
        except ProblemsError as error:
            raise self._in_parameters(error) from error
        return JobInput(row.document, registry)

    def answer(self, job: JobInput, planner: Planner) -> CellValue:
        """Return the number asked for."""
        try:
            document = planner.document(job, _SECTIONS)
        except ProblemsError as error:
            raise self._in_parameters(error) from error
        levels = [check["level"] for check in document["checks"]]
        stops = levels.count("stop")
        if self.part is not None:
            parts = {part["id"].partition("/")[2]: part for part in document["parts"]}
            if self.part not in parts:
                raise _absent("part", self.part, parts)
            part = parts[self.part]
            units = "" if self.field == "quantity" else document["units"]
            text = part["text"].get(self.field, "")
            return CellValue(part[self.field], units, self.field, stops, part=self.part, text=text)
        if self.item is not None:
            lines = [line for line in document["hardware"] if line["item"] == self.item]
            if not lines:
                raise _absent("item", self.item, {line["item"] for line in document["hardware"]})
            return CellValue(sum(line["quantity"] for line in lines), "", self.field, stops, item=self.item)
        numbers: Mapping[str, Any] = {
            **document["summary"][0], "stops": stops, "cautions": levels.count("caution"),
        }  # fmt: skip
        return CellValue(numbers[self.field], "kg" if self.field == "mass_kg" else "", self.field, stops)

    def _in_parameters(self, error: ProblemsError) -> ProblemsError:
        """Return the error with places that are parameters of the query; none for the job itself."""
        kind = NoGeometryError if isinstance(error, NoGeometryError) else UnusableJobError
        return kind(*(Problem(self._parameter(p), p.rule, p.got, p.fix) for p in error.problems))

    def _parameter(self, problem: Problem) -> str:
        name = problem.column if isinstance(problem, CellProblem) else self._name(problem.pointer)
        return f"?{name}" if name else ""

    def _name(self, pointer: str) -> str:
        if pointer == "/units" and self.units is not None:
            return "units"
        if pointer == "/materials/sheet/thickness" and self.thickness is not None:
            return "thickness"
        steps = pointer.split("/")[1:]
        if steps[:1] == ["cabinets"]:
            return ".".join(steps[2:])
        return ".".join(["job", *steps]) if steps else ""


def _absent(name: str, word: str, known: Iterable[str]) -> UnusableJobError:
    fix = advice(word, known, most=20)
    return UnusableJobError(Problem(f"?{name}", f"a {name} that this cabinet has", repr(word[:60]), fix))
