"""Cures for a cabinet that its wall does not hold: fasteners, their number, strips, places, other mountings, less load.

Changes are weighed by the equations of hanging before they are proposed, so that few are planned in vain; the plan made
of each is what counts.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from itertools import chain, islice
from typing import Any, ClassVar

from casewright.plugins.cures.moving import Setting, moved, moving_words, place_settings, shifts
from casewright.sdk.engineering import hanging_solve
from casewright.sdk.engineering.hanging import governing
from casewright.sdk.engineering.hanging_capacity import NoGravity
from casewright.sdk.engineering.hanging_case import HangingCase
from casewright.sdk.engineering.hanging_places import caught_studs
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.units import NM_PER_MM, mm
from casewright.sdk.materials import Lag, Screw, Stuff
from casewright.sdk.methods import Change, CureGenerator, Stop
from casewright.sdk.model import HungCabinet, Mounting
from casewright.sdk.patching import at_path, patch_setting
from casewright.sdk.units import INCH, MM, to_number

LEAST_GAUGE = 10
MOST_PER_STUD = 6
INTO_STUD_MM = 25.0
HEIGHTS = {"in": [n * INCH // 2 for n in (5, 6, 7, 8, 9, 10, 12, 14, 16)], "mm": [n * MM for n in range(60, 205, 20)]}
BEVELS = (30.0, 35.0, 40.0, 50.0, 55.0)
ALLOWANCE = 400
"""Changes weighed by the equations for one kind of change."""

EACH = 3
"""Changes proposed of one kind."""

_FASTENER = frozenset(
    {
        "bearing-diameter", "cleat-overhang", "cleat-width", "combined-capacity", "fastener-count",
        "fastener-end-distance", "fastener-gravity", "fastener-group", "fastener-missing", "fastener-penetration",
        "fastener-rows", "fastener-use", "fastener-wood", "hanging-height", "lag-diameter", "placement-diameter",
        "pull-through-head", "pull-through-thickness", "reduction-diameter", "screw-diameter", "strip-height",
        "stud-edge", "yield-gap", "yield-input",
    }
)  # fmt: skip
_LIFT = frozenset({"anti-lift-hold", "anti-lift-wood", "hook-rides-up"})
_PLACE = frozenset({"no-stud"})
_FACTS = {
    "wall-unknown": "What the wall is made of has to be found out: give its studs or its masonry in `wall`.",
    "wall-steel-studs": "Screws in steel studs are not computed: put wood backing in, and give that as studs.",
    "anchor-approval": "Give the values that the anchor's maker approves for this wall.",
    "studs-unknown": "Find and measure the studs; a place made up here would hold nothing.",
    "stud-wood": "Read the grade stamp of the studs, or take the weakest common group.",
    "anti-lift-wall": "What holds against lifting off in this wall is for an approved anchor or an engineer.",
    "strip-unknown": "The mounting's own method must say which part its fasteners pass through.",
}


Changed = Callable[[HangingCase], HangingCase]


@dataclass
class _Hung:
    """A cabinet that hangs: its mounting, the cases of all of its places, and how many changes may still be weighed."""

    stop: Stop
    mounting: Mounting
    cases: tuple[HangingCase, ...]
    left: int = 0

    @property
    def options(self) -> Mapping[str, Any]:
        return self.mounting.choice.options

    def use(self, change: Changed) -> float | None:
        """Return the worst use of a fastener at any place, each case changed; `None` where that has no answer."""
        self.left -= 1
        uses = [_use(change(case)) for case in self.cases] if self.left >= 0 else [None]
        known = [use for use in uses if use is not None]
        return max(known) if len(known) == len(uses) else None

    def holds(self, change: Changed) -> bool:
        """Return whether the fasteners hold at every place, each case changed."""
        use = self.use(change)
        return use is not None and use <= 1.0

    def weighing(self, changes: Iterable[Change], count: int) -> Iterator[Change]:
        """Yield the first `count` changes for which no more are weighed than allowed."""
        self.left = ALLOWANCE
        yield from islice(changes, count)

    def setting(self, words: str, *also: Setting, **options: Any) -> Change:
        """Return the change that sets options of the mounting, and other places `also`."""
        at = self.stop.at("mounting")
        whole = {"method": self.mounting.choice.method, **options}
        settings = [((*at, key), value) for key, value in whole.items()]
        if at_path(self.stop.document, at) is None:
            settings = [(at, whole)]
        return Change(words, patch_setting(self.stop.document, *also, *(settings if options else [])))

    def size(self, nm: int) -> float | int:
        """Return a length as the job writes it."""
        return to_number(nm, self.stop.plan.job.units)


def _use(case: HangingCase) -> float | None:
    """Return the worst use of a fastener by the equations, `None` where they give none; 1 is the limit."""
    governed = governing(case)
    try:
        capacity = hanging_solve.fastener_capacity(governed)
        studs = caught_studs(governed)
        if capacity is None or not studs:
            return None
        return hanging_solve.worst(hanging_solve.uses(governed, hanging_solve.load(governed), studs, capacity))
    except (OutsideLimits, NoGravity):
        return None


def _hung(stop: Stop) -> _Hung | None:
    cabinet = stop.cabinet
    if cabinet is None or cabinet.mounting is None:
        return None
    results = [one.result for one in stop.plan.mounting if one.cabinet == cabinet.id]
    cases = tuple(one.case for one in results if isinstance(one, HungCabinet))
    return _Hung(stop, cabinet.mounting, cases)


class HangingCures(CureGenerator):
    """Cures for a cabinet that its fasteners, strip or hook do not hold."""

    id: ClassVar[str] = "hanging"
    title: ClassVar[str] = "Fasteners, strips and places of what hangs"
    codes: ClassVar[frozenset[str]] = _FASTENER | _LIFT | _PLACE | {f"anti-lift-{code}" for code in _FASTENER}
    why_none: ClassVar[Mapping[str, str]] = _FACTS

    def changes(self, stop: Stop) -> Iterable[Change]:
        """Yield changes of the fastening first, then of the strip, the place, the mounting, and at last the load."""
        hung = _hung(stop)
        if hung is None:
            return
        if stop.check.code in _LIFT or stop.check.code.startswith("anti-lift-"):
            yield from _against_lifting(hung)
        if stop.check.code not in _PLACE:
            yield from hung.weighing(_fastenings(hung), EACH)
            yield from hung.weighing(_strips(hung), EACH)
        yield from hung.weighing(_places(hung), EACH)
        yield from _other_mounting(hung)
        yield from hung.weighing(_less_load(hung), 1)


def _fasteners(hung: _Hung) -> list[list[Screw | Lag]]:
    """Return wall fasteners by diameter: of each the shortest and longest that reach a stud and not through it."""
    case = hung.cases[0]
    through = case.strip.thickness_mm + case.behind_strip_mm + case.wall.lining_mm
    catalogue = hung.stop.choices.catalogue
    every: list[Screw | Lag] = [*(one for one in catalogue.screws if one.gauge >= LEAST_GAUGE), *catalogue.lags]
    by_diameter: dict[int, list[Screw | Lag]] = {}
    for one in sorted(every, key=lambda one: (one.diameter, one.length, one.id)):
        if INTO_STUD_MM <= mm(one.length) - through <= case.wall.stud_depth_mm:
            by_diameter.setdefault(one.diameter, []).append(one)
    return [[row[0], row[-1]] if len(row) > 1 else row for row in by_diameter.values()]


def _same(case: HangingCase) -> HangingCase:
    return case


@dataclass(frozen=True)
class _Beside:
    """What is changed beside fasteners: `words` of it, options of the mounting, other places, and each case with it."""

    words: tuple[str, ...] = ()
    options: Mapping[str, Any] = field(default_factory=dict)
    settings: tuple[Setting, ...] = ()
    case_of: Changed = _same

    def with_option(self, words: str, key: str, value: Any, case_of: Changed) -> "_Beside":
        """Return this with an option more, which `case_of` makes of a case that is changed by the rest."""

        def both(case: HangingCase) -> HangingCase:
            return case_of(self.case_of(case))

        return _Beside((*self.words, words), {**self.options, key: value}, self.settings, both)


def _fastenings(hung: _Hung, beside: _Beside | None = None) -> Iterator[Change]:
    """Yield the fewest fasteners of the kind that is there, and of each diameter, that hold the cases as changed."""
    if not hung.cases:
        return
    beside = _Beside() if beside is None else beside
    now, count_now = hung.cases[0].fastener, hung.cases[0].per_stud
    for row in ([now] if now else [], *_fasteners(hung)):
        found = _fewest(hung, row, beside.case_of)
        if found is None:
            continue
        fastener, count = found
        options = dict(beside.options)
        if now is None or fastener.id != now.id:
            options["fastener"] = fastener.id
        if count != count_now:
            options["per_stud"] = count
        if not options and not beside.settings:
            continue
        each = "one" if count == 1 else f"{count}"
        how = [f"{fastener.title}, {each} in each stud"] if "fastener" in options else []
        if count != count_now and not how:
            how = [f"{each} {'fastener' if count == 1 else 'fasteners'} in each stud"]
        yield hung.setting(" and ".join((*beside.words, *how)), *beside.settings, **options)


def _fewest(hung: _Hung, row: Sequence[Screw | Lag], case_of: Changed) -> tuple[Screw | Lag, int] | None:
    """Return the fewest fasteners in a stud that hold, and the one of a row; none where as many as fit do not hold."""
    for fastener in row:
        uses = {}
        for count in reversed(range(1, MOST_PER_STUD + 1)):
            use = hung.use(partial(_fastened, case_of=case_of, by=(fastener, count)))
            if use is not None:
                uses[count] = use
                if use > 1.0:
                    break
        fewest = [count for count, use in uses.items() if use <= 1.0]
        if fewest:
            return fastener, min(fewest)
    return None


def _fastened(case: HangingCase, case_of: Changed, by: tuple[Screw | Lag, int]) -> HangingCase:
    return replace(case_of(case), fastener=by[0], per_stud=by[1])


def _strips(hung: _Hung, beside: _Beside | None = None) -> Iterator[Change]:
    """Yield higher strips, and strips of another material, each with the fasteners that it then needs."""
    if not hung.cases:
        return
    beside = _Beside() if beside is None else beside
    write, high = hung.stop.write, round(hung.cases[0].strip.width_mm * NM_PER_MM)
    for height in HEIGHTS[hung.stop.plan.job.units]:
        if height > high:
            words = f"strips {write.length(height)} high"
            more = beside.with_option(words, "height", hung.size(height), partial(_higher, by=(high, height)))
            yield from islice(_fastenings(hung, more), 1)
    now = hung.options.get("material")
    for key, material in hung.stop.plan.job.materials.items():
        if material.kind == "band" or key == now:
            continue
        stuff = hung.stop.choices.catalogue.stuff(material.stuff)
        case_of = partial(_of, stuff=stuff, thickness=mm(material.thickness))
        yield from islice(_fastenings(hung, beside.with_option(f"strips of {key}", "material", key, case_of)), 1)


def _higher(case: HangingCase, by: tuple[int, int]) -> HangingCase:
    """Return a case with its strip, and the cabinet's own cleat over it, made higher downward from the top."""
    was, now = by
    cleats = 2 if case.mounting == "bevel-cleat" else 1
    strip = replace(case.strip, width_mm=mm(now), low_mm=case.strip.low_mm - cleats * mm(now - was))
    return replace(case, strip=strip)


def _of(case: HangingCase, stuff: Stuff, thickness: float) -> HangingCase:
    return replace(case, strip=replace(case.strip, stuff=stuff, thickness_mm=thickness))


def _against_lifting(hung: _Hung) -> Iterator[Change]:
    """Yield other ways to keep the cabinet on its hook, and other bevels."""
    if hung.mounting.choice.method != "bevel-cleat":
        return
    words = {"top-strip": "a strip on the top, fastened to a stud against lifting off", "screw": "screws through the "
             "back into the wall cleat against lifting off"}  # fmt: skip
    for way, said in words.items():
        if hung.options.get("anti_lift") != way:
            yield hung.setting(said, anti_lift=way)
    for bevel in BEVELS:
        if hung.holds(partial(replace, bevel_deg=bevel)):
            yield hung.setting(f"both cleats bevelled at {bevel:g} degrees", bevel_deg=bevel)


def _places(hung: _Hung) -> Iterator[Change]:
    """Yield the least moves along the wall at which the strip holds, by itself or with other fasteners."""
    stop, number = hung.stop, hung.stop.spot
    if number is None or number >= len(hung.cases):
        return
    least: dict[int, int] = {}
    for by in shifts(stop.plan.job.units):
        there = _shifted(hung.cases[number], by)
        use = _use(there)
        if use is not None and use <= 1.0:
            yield moved(stop, number, (by, 0))
        least.setdefault(len(caught_studs(there)), by)
    for studs, by in sorted(least.items(), reverse=True):
        if studs:
            hung.left = ALLOWANCE
            places = place_settings(stop, [(number, (by, 0))])
            case_of = partial(_shifted_one, which=hung.cases[number], by=by)
            beside = _Beside((moving_words(stop, (by, 0)),), {}, places, case_of)
            yield from islice(chain(_fastenings(hung, beside), _strips(hung, beside)), 1)


def _shifted(case: HangingCase, by: int) -> HangingCase:
    """Return a case moved along the wall by so many nm."""
    strip = replace(case.strip, left_mm=case.strip.left_mm + mm(by))
    return replace(case, left_mm=case.left_mm + mm(by), centre_x_mm=case.centre_x_mm + mm(by), strip=strip)


def _shifted_one(case: HangingCase, which: HangingCase, by: int) -> HangingCase:
    return _shifted(case, by) if case is which else case


def _other_mounting(hung: _Hung) -> Iterator[Change]:
    """Yield the other way to hang, by itself and with lag screws."""
    stop = hung.stop
    other = "screw-strip" if hung.mounting.choice.method == "bevel-cleat" else "bevel-cleat"
    at = stop.at("mounting")
    title = {"screw-strip": "a strip inside, screwed to the wall", "bevel-cleat": "a pair of bevelled cleats"}[other]
    kept = [
        ((*at, key), value) for key in ("contents_kg", "contents_lb") if (value := at_path(stop.document, (*at, key)))
    ]
    ways: list[tuple[str, Mapping[str, Any]]] = [(title, {})]
    ways += [(f"{title}, and {lag.title}, 2 in each stud", {"fastener": lag.id, "per_stud": 2}) for lag in _lags(hung)]
    for words, options in ways:
        value = {"method": other, **options, **{str(steps[-1]): inner for steps, inner in kept}}
        yield Change(words, patch_setting(stop.document, (at, value)))


def _lags(hung: _Hung) -> list[Lag]:
    rows = _fasteners(hung) if hung.cases else []
    return [one for row in rows for one in row[-1:] if isinstance(one, Lag)][:2]


def _less_load(hung: _Hung) -> Iterator[Change]:
    """Yield the greatest whole load, in the job's unit of mass, that the fasteners as they are would hold."""
    if not hung.cases or hung.cases[0].contents_kg <= 1.0:
        return
    inches = hung.stop.write.inches
    unit = hung.stop.write.measured(1.0, "kg")[0]
    low, high = 0, int(hung.cases[0].contents_kg * unit)

    def holds(load: int) -> bool:
        return hung.holds(partial(replace, contents_kg=load / unit))

    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if holds(middle) else (low, middle - 1)
    if low == 0 or not holds(low):
        return
    key, other = ("contents_lb", "contents_kg") if inches else ("contents_kg", "contents_lb")
    at = hung.stop.at("mounting")
    document = hung.stop.document
    words = f"at most {hung.stop.write.mass_kg(low / unit)} in the cabinet"
    if at_path(document, (*at, other)) is not None:
        key, low_kg = other, low / unit
        value: float = round(low_kg if other == "contents_kg" else low_kg * unit, 3)
    else:
        value = low
    change = hung.setting(words, **{key: value})
    yield replace(change, keeps=False)
