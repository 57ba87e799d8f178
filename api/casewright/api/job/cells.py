"""Where in a table the values of its job stand, and the problems of a job by the cell each is in."""

from dataclasses import dataclass, field
from typing import Any

from casewright.api.job import limits
from casewright.api.job.columns import AT, JOB
from casewright.api.job.marks import GUESSED, Marks, with_mark
from casewright.sdk.errors import BadDocumentError, Problem, ProblemsError, steps_of

_HEADING = 1


@dataclass(frozen=True, slots=True)
class CellProblem(Problem):
    """A problem of a table, with the row (the heading is 1) and the column it stands in."""

    row: int
    column: str

    def as_dict(self) -> dict[str, str | int]:
        """Return the problem as an entry of `errors` in an answer."""
        return {**Problem.as_dict(self), "row": self.row, "column": self.column}


@dataclass(frozen=True, slots=True)
class JobTable:
    """The job document a table stands for, and the row and column that each pointer was read from.

    `problems` are those of the table itself: where there are any, the document lacks what they are about. `marks` are
    those it is written with, stated or guessed. `columns` are the headings that are read, `texts` those of them whose
    cells are words and no numbers.
    """

    document: dict[str, Any]
    places: dict[str, tuple[int, str]] = field(default_factory=dict)
    problems: tuple[CellProblem, ...] = ()
    marks: Marks = GUESSED
    columns: frozenset[str] = frozenset()
    texts: frozenset[str] = frozenset()

    def explain(self, error: ProblemsError) -> ProblemsError:
        """Return the error that says in which cell each problem of the document stands."""
        return type(error)(*map(self._placed, error.problems))

    def refuse(self, error: ProblemsError | None) -> BadDocumentError:
        """Return the error of all that is wrong, by row: with the table, and in its cells that could be read."""
        problems = () if error is None else error.problems
        named = {(one.row, one.column) for one in self.problems}
        others = [one for one in map(self._placed, problems) if self._sure(one) and (one.row, one.column) not in named]
        every = sorted((*self.problems, *others), key=lambda one: one.row)
        return BadDocumentError(*every[: limits.PROBLEMS])

    def _sure(self, problem: CellProblem) -> bool:
        """Whether a problem would stand if those of the table were mended: of a cell, full or left empty."""
        if problem.pointer in self.places:
            return True
        house = any(one.column.startswith(f"{JOB}house") for one in self.problems)
        return problem.row > _HEADING and problem.column in self.columns and not house

    def _placed(self, problem: Problem) -> CellProblem:
        """Return a problem with its cell, its numbers written as the table's."""
        row, column = self.cell(problem.pointer)
        rule, got, fix = (with_mark(words, self.marks.decimal) for words in (problem.rule, problem.got, problem.fix))
        return CellProblem(problem.pointer, rule, problem.got if column in self.texts else got, fix, row, column)

    def cell(self, pointer: str) -> tuple[int, str]:
        """Return the cell of a value; of what holds several its first, of one that is not there where it would be."""
        if pointer in self.places:
            return self.places[pointer]
        inside = next((place for path, place in self.places.items() if path.startswith(f"{pointer}/")), None)
        if inside is not None and pointer:
            return inside
        path = pointer
        while path and path not in self.places:
            path = path.rpartition("/")[0]
        row, column = self.places.get(path, (_HEADING, ""))
        column = column or _heading(pointer, row)
        if row == _HEADING and column in self.columns:
            row, _ = self.places.get("/cabinets/0", (row, ""))
        return row, column


def _heading(pointer: str, row: int) -> str:
    """Return the heading of the column in which a value of a row would stand; of a job's where it is the first row."""
    match steps_of(pointer):
        case [] | ["cabinets"]:
            return ""
        case ["cabinets", _, *rest]:
            return ".".join(rest)
        case ["wall", "cabinets_at", _, *rest] if row > _HEADING:
            return AT + ".".join(rest)
        case steps:
            return JOB + ".".join(steps)
