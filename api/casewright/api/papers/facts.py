"""What every paper asks of a plan: numbers as the bench reads them, parts by id, and what may be absent."""

from collections import Counter, defaultdict
from collections.abc import Mapping
from functools import cached_property

from casewright.api.engine.work.lying import Writes
from casewright.api.engine.work.naming import NamedParts
from casewright.api.papers.drawing.solids import Solid, solid
from casewright.api.papers.pointer_words import about
from casewright.api.papers.text import clean
from casewright.sdk.findings import Check
from casewright.sdk.model import Cabinet, HungCabinet, Operation, Part, Plan, Scheduled, StandingCabinet, StockLayout
from casewright.sdk.units import MM, NM_PER_UNIT, bit_text, on_tape, tape_text
from casewright.sdk.writer import writer

_DECIMALS = {"in": 3, "mm": 2}


def mm(nm: int) -> float:
    """Return nm as mm of a drawing."""
    return nm / MM


def counted(count: int, one: str) -> str:
    """Return a count of things: `1 stop`, `3 stops`."""
    return f"{count} {one}" if count == 1 else f"{count} {one}s"


class Facts:
    """A plan with its look-ups and its way of writing lengths."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.job = plan.job
        self.sides = plan.sides
        self.units = plan.job.units
        self.writer = writer(plan.job.units)
        self.title = clean(plan.job.title) or "Untitled job"
        self._solids: dict[str, Solid] = {}

    @cached_property
    def parts(self) -> Mapping[str, Part]:
        """Parts by id."""
        return self.named.by_id

    @cached_property
    def named(self) -> NamedParts:
        """Parts as sentences name them."""
        return NamedParts.of(self.plan.parts)

    @cached_property
    def cabinets(self) -> Mapping[str, Cabinet]:
        """Cabinets by id."""
        return {cabinet.id: cabinet for cabinet in self.job.cabinets}

    @cached_property
    def over_size(self) -> Mapping[str, tuple[int, ...]]:
        """The sizes of parts that are cut over size until a step has measured for them, by id."""
        return self.plan.over_size

    def solid(self, part: Part) -> Solid:
        """Return a part as a solid where it stands in its cabinet; several drawings show the same."""
        if part.id not in self._solids:
            self._solids[part.id] = solid(part)
        return self._solids[part.id]

    def of(self, cabinet: str) -> tuple[Part, ...]:
        """Return the parts of one cabinet."""
        return self._by_cabinet.get(cabinet, ())

    @cached_property
    def _by_cabinet(self) -> Mapping[str, tuple[Part, ...]]:
        out: defaultdict[str, list[Part]] = defaultdict(list)
        for part in self.plan.parts:
            out[part.cabinet].append(part)
        return {cabinet: tuple(parts) for cabinet, parts in out.items()}

    def bare(self, nm: int) -> str:
        """Return a length without its unit: by the tape where it lies on it, else in decimals."""
        if on_tape(nm, self.units, self.job.tape):
            number = tape_text(nm, self.units, self.job.tape).rsplit(" ", 1)[0]
            return (number.rstrip("0").rstrip(".") or "0") if "." in number else number
        places = _DECIMALS[self.units]
        return f"{nm / NM_PER_UNIT[self.units]:.{places}f}"

    def text(self, nm: int) -> str:
        """Return a length with its unit, as `bare` writes it."""
        return f"{self.bare(nm)} {self.units}"

    def tape(self, nm: int) -> str:
        """Return a length rounded to the tape, with its unit."""
        return tape_text(nm, self.units, self.job.tape)

    @property
    def writes(self) -> Writes:
        """What writes lengths of the places that a step lists."""
        return self.tape, self.writer.sold

    def both(self, nm: int) -> str:
        """Return a length as the tape shows it, and by callipers where that is another number."""
        exact, tape = self.bare(nm), self.tape(nm).replace(".0 ", " ")
        return (
            tape if exact == tape.rsplit(" ", 1)[0] or "." not in exact or self.units == "mm" else f"{tape} ({exact})"
        )

    def bit(self, nm: int) -> str:
        """Return the width of a bit or cutter as it is sold, and by callipers where the tape shows another."""
        sold = bit_text(nm, self.units, self.job.tape)
        return self.both(nm) if sold == self.tape(nm) else sold

    def bare_bit(self, nm: int) -> str:
        """Return the width of a bit as `bare` writes it, or as it is sold with its unit where that is not the job's."""
        sold = bit_text(nm, self.units, self.job.tape)
        return self.bare(nm) if sold.endswith(self.units) else sold

    def number(self, nm: int) -> float:
        """Return a length as a number in job units, rounded to a thousandth of an inch or a hundredth of a mm."""
        return round(nm / NM_PER_UNIT[self.units], _DECIMALS[self.units] + 1)

    def size(self, part: Part) -> str:
        """Return a part's size: length × width × thickness, with the unit."""
        size = " × ".join(self.bare(n) for n in (part.length, part.width, part.thickness))
        return f"{size} {self.units}"

    @cached_property
    def unit_name(self) -> str:
        """The job's unit in words."""
        return "inches" if self.units == "in" else "millimetres"

    @cached_property
    def checks(self) -> tuple[Check, ...]:
        """Every check, stops first."""
        order = {"stop": 0, "caution": 1, "note": 2}
        return tuple(sorted(self.plan.checks, key=lambda check: order[check.level]))

    @cached_property
    def stops(self) -> tuple[Check, ...]:
        """The checks that say stop."""
        return tuple(check for check in self.plan.checks if check.level == "stop")

    @property
    def stop_words(self) -> str:
        """What every paper of a plan with stops carries; nothing where there is none."""
        return f"STOP: {counted(len(self.stops), 'reason')} not to cut" if self.stops else ""

    def about(self, check: Check) -> str:
        """Return what a check is about, in words."""
        counts: Counter[str] = Counter()
        for cabinet in self.job.cabinets:
            counts[cabinet.planned or cabinet.id] += cabinet.count
        return about(check.subject, counts)

    def cabinets_of(self, step: Operation) -> tuple[str, ...]:
        """Return the cabinets that a step is about, by id, where the job has several."""
        return self.worked_on(step) if len(self.cabinets) > 1 else ()

    def worked_on(self, step: Operation) -> tuple[str, ...]:
        """Return the cabinets whose parts a step is done to, by id."""
        return tuple(dict.fromkeys(self.parts[part].cabinet for part in step.parts if self.parts[part].cabinet))

    @cached_property
    def done(self) -> frozenset[int]:
        """Numbers of the steps that the job marks as done."""
        return frozenset(self.job.done)

    @cached_property
    def times(self) -> Mapping[int, Scheduled]:
        """When each step that is left begins and ends, by its number."""
        return {one.number: one for one in self.plan.schedule.steps}

    @property
    def layouts(self) -> tuple[StockLayout, ...]:
        """The pieces of stock to be cut, in order; none where no cutting was planned."""
        return self.plan.stock.layouts if self.plan.stock else ()

    def hanging(self, cabinet: str, number: int = 0) -> HungCabinet | StandingCabinet | None:
        """Return what engineering found for one cabinet on the wall, by its number among its like."""
        results = [mounted.result for mounted in self.plan.mounting if mounted.cabinet == cabinet]
        return next((one for one in results if one and one.place.endswith(f"/{cabinet}/{number}")), None)
