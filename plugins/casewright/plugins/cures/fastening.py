"""Fastenings weighed by the equations of hanging: how many of which fasteners hold a cabinet changed otherwise."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from itertools import islice
from typing import Any

from casewright.plugins.cures.moving import Setting
from casewright.sdk.engineering import hanging_solve, hanging_strip
from casewright.sdk.engineering.hanging import fasten, governing
from casewright.sdk.engineering.hanging_capacity import NoGravity
from casewright.sdk.engineering.hanging_case import FastenerUse, HangingCase
from casewright.sdk.engineering.hanging_places import anchor_columns
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.units import mm
from casewright.sdk.materials import Lag, Screw
from casewright.sdk.methods import Change, Stop
from casewright.sdk.model import HungCabinet, Mounting
from casewright.sdk.patching import Steps, at_path, patch_setting
from casewright.sdk.units import to_number

ALLOWANCE = 400
"""Changes weighed by the equations for one kind of change."""

LEAST_GAUGE = 10
MOST_PER_STUD = 6
INTO_STUD_MM = 25.0
CONTENTS = ("contents_kg", "contents_lb")
OWN = (*CONTENTS, "contents_from_left", "contents_from_front", "contents_duration")
"""What a mounting keeps for itself where another takes its place, or where it is set as its neighbour's is."""


Changed = Callable[[HangingCase], HangingCase]
Fastener = Screw | Lag


@dataclass
class Hung:
    """A cabinet that hangs: its mounting, the cases of all of its places, and how many changes may still be weighed."""

    stop: Stop
    mounting: Mounting
    cases: tuple[HangingCase, ...]
    left: int = 0

    def use(self, change: Changed) -> float | None:
        """Return the worst use of a fastener at any place, each case changed; `None` where that has no answer."""
        self.left -= 1
        uses = [use_of(change(case)) for case in self.cases] if self.left >= 0 else [None]
        known = [use for use in uses if use is not None]
        return max(known) if len(known) == len(uses) else None

    def weighing(self, changes: Iterable[Change], count: int) -> Iterator[Change]:
        """Yield the first `count` changes for which no more are weighed than allowed."""
        self.left = ALLOWANCE
        yield from islice(changes, count)

    def size(self, nm: int) -> float | int:
        """Return a length as the job writes it."""
        return to_number(nm, self.stop.plan.job.units)


def hung_of(stop: Stop) -> Hung | None:
    """Return the cabinet of a stop, if it is one that is mounted."""
    cabinet = stop.cabinet
    if cabinet is None or cabinet.mounting is None:
        return None
    results = [one.result for one in stop.plan.mounting if one.cabinet == cabinet.id]
    return Hung(stop, cabinet.mounting, tuple(one.case for one in results if isinstance(one, HungCabinet)))


def use_of(case: HangingCase) -> float | None:
    """Return the worst use of a fastener or of the strip in bending, `None` where the equations give none; 1 is all."""
    governed = governing(case)
    try:
        load = hanging_solve.load(governed)
        fasteners = _fasteners(governed, load)
        if not fasteners:
            return None
        columns = sorted({one.at_mm for one in fasteners})
        allowed = hanging_strip.bending_allowed_mpa(governed)
        bent = 0.0 if allowed is None else hanging_strip.bending_mpa(governed, load.pull_n, columns) / allowed
        return max(hanging_solve.worst(fasteners), bent)
    except (OutsideLimits, NoGravity):
        return None


def _fasteners(case: HangingCase, load: hanging_solve.Load) -> Sequence[FastenerUse]:
    """Return how hard each fastener works: the anchors of masonry, or those in the studs that work least hard."""
    if case.wall.kind == "masonry" and case.wall.anchor is not None:
        return hanging_solve.uses(case, load, anchor_columns(case), case.wall.anchor)
    best = fasten(case, load)
    return () if best is None else best[1]


def unchanged(case: HangingCase) -> HangingCase:
    """Return a case as it is."""
    return case


@dataclass(frozen=True)
class Alike:
    """Another cabinet's mounting, at a place in the document, that is set as the first is.

    The first's options go over `base`, and over both what it keeps of its `own`.
    """

    at: Steps
    base: Mapping[str, Any]
    own: Mapping[str, Any]


@dataclass(frozen=True)
class Beside:
    """What is changed beside fasteners: in words, options of the mounting, other places, and each case with it.

    `method` is another mounting, whose options are then these alone; `keeps` is false where a load is given up. `alike`
    are other mountings that are set as this one is.
    """

    words: tuple[str, ...] = ()
    options: Mapping[str, Any] = field(default_factory=dict)
    settings: tuple[Setting, ...] = ()
    case_of: Changed = unchanged
    method: str = ""
    keeps: bool = True
    alike: tuple[Alike, ...] = ()

    def with_option(self, words: str, key: str, value: Any, case_of: Changed) -> "Beside":
        """Return this with an option more, which `case_of` makes of a case that is changed by the rest."""

        def both(case: HangingCase) -> HangingCase:
            return case_of(self.case_of(case))

        return replace(self, words=(*self.words, words), options={**self.options, key: value}, case_of=both)

    def change(self, hung: Hung, *, fastener: Fastener | None = None, count: int | None = None) -> Change:
        """Return this as a change of the job, with other fasteners or another count of them."""
        each = "one" if count == 1 else f"{count}"
        how = []
        if fastener is not None:
            how = [f"{fastener.title}, {each} in each stud" if count is not None else fastener.title]
        elif count is not None:
            how = [f"{each} {'fastener' if count == 1 else 'fasteners'} in each stud"]
        extra = {} if fastener is None else {"fastener": fastener.id}
        options = {**self.options, **extra, **({} if count is None else {"per_stud": count})}
        return self._setting(hung, " and ".join((*self.words, *how)), options)

    def _setting(self, hung: Hung, words: str, options: Mapping[str, Any]) -> Change:
        document, at = hung.stop.document, hung.stop.at("mounting")
        whole = {"method": self.method or hung.mounting.choice.method, **options}
        settings: list[Setting] = [((*at, key), value) for key, value in whole.items()]
        if self.method:
            kept = {key: value for key in OWN if (value := at_path(document, (*at, key))) is not None}
            settings = [(at, {**kept, **whole})]
        elif at_path(document, at) is None:
            settings = [(at, whole)]
        others = [(one.at, {**one.base, **whole, **one.own}) for one in self.alike]
        own = settings if options or self.method else []
        return Change(words, patch_setting(document, *self.settings, *own, *others), self.keeps)


def fasteners_of(hung: Hung) -> list[list[Fastener]]:
    """Return wall fasteners by diameter: of each the shortest and longest that reach a stud and not through it."""
    case = hung.cases[0]
    through = case.strip.thickness_mm + case.gap_mm
    catalogue = hung.stop.choices.catalogue
    every: list[Fastener] = [*(one for one in catalogue.screws if one.gauge >= LEAST_GAUGE), *catalogue.lags]
    by_diameter: dict[int, list[Fastener]] = {}
    for one in sorted(every, key=lambda one: (one.diameter, one.length, one.id)):
        if INTO_STUD_MM <= mm(one.length) - through <= case.wall.stud_depth_mm:
            by_diameter.setdefault(one.diameter, []).append(one)
    return [[row[0], row[-1]] if len(row) > 1 else row for row in by_diameter.values()]


def fastenings(hung: Hung, beside: Beside | None = None) -> Iterator[Change]:
    """Yield the fewest fasteners of the kind that is there, and of each diameter, that hold the cases as changed."""
    if not hung.cases or hung.cases[0].wall.kind == "masonry":
        return
    beside = Beside() if beside is None else beside
    now, count_now = hung.cases[0].fastener, hung.cases[0].per_stud
    for row in ([now] if now else [], *fasteners_of(hung)):
        hold = fewest(hung, row, beside.case_of)
        if hold is None:
            continue
        fastener, count = hold
        other = fastener if beside.method or now is None or fastener.id != now.id else None
        more = count if beside.method or count != count_now or other is not None else None
        if other is not None or more is not None or beside != Beside():
            yield beside.change(hung, fastener=other, count=more)


def fewest(hung: Hung, row: Sequence[Fastener], case_of: Changed) -> tuple[Fastener, int] | None:
    """Return the fewest fasteners in a stud that hold, and the one of a row; none where as many as fit do not hold."""
    for fastener in row:
        uses: dict[int, float] = {}
        for count in reversed(range(1, MOST_PER_STUD + 1)):
            use = hung.use(partial(fastened, case_of=case_of, by=(fastener, count)))
            if use is not None:
                uses[count] = use
                if use > 1.0:
                    break
        few = [count for count, use in uses.items() if use <= 1.0]
        if few:
            return fastener, min(few)
    return None


def fastened(case: HangingCase, case_of: Changed, by: tuple[Fastener | None, int]) -> HangingCase:
    """Return a case as changed and with so many of a fastener in each stud."""
    return replace(case_of(case), fastener=by[0], per_stud=by[1])
