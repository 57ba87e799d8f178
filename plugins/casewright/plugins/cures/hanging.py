"""Cures for a cabinet that its wall does not hold: fasteners, their number, strips, places, other mountings, less load.

Changes are weighed by the equations of hanging before they are proposed, so that few are planned in vain; the plan made
of each is what counts.
"""

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import partial
from itertools import chain
from typing import ClassVar

from casewright.plugins.cures.fastening import (
    ALLOWANCE,
    CONTENTS,
    Beside,
    Changed,
    Fastener,
    Hung,
    fastened,
    fasteners_of,
    fastenings,
    hung_of,
)
from casewright.plugins.cures.moving import Setting
from casewright.plugins.cures.pairing import not_through, on_strip, paired
from casewright.plugins.cures.shifting import places, whole_row, wider
from casewright.plugins.cures.strips import HOOKED, higher_strips, other_mounting, strips
from casewright.sdk.engineering.hanging_case import HangingCase
from casewright.sdk.engineering.units import NM_PER_MM
from casewright.sdk.methods import Change, CureGenerator, Stop
from casewright.sdk.patching import at_path, patch_setting

EACH = 3
"""Changes proposed of one kind."""

BEVELS = (30.0, 35.0, 40.0, 50.0, 55.0)
FIRM_COUNTS = (6, 4, 2, 1)
MOST_ANCHORS = 12

_FASTENER = frozenset(
    {
        "bearing-diameter", "cleat-overhang", "cleat-width", "combined-capacity", "fastener-count",
        "fastener-gravity", "fastener-group", "fastener-missing", "fastener-penetration",
        "fastener-rows", "fastener-spacing", "fastener-use", "fastener-wood", "hanging-height", "lag-diameter",
        "placement-diameter", "pull-through-head", "pull-through-thickness", "reduction-diameter", "screw-diameter",
        "strip-bending", "strip-height", "stud-edge", "yield-gap", "yield-input",
    }
)  # fmt: skip
_LIFT = frozenset({"anti-lift-hold", "anti-lift-wood", "hook-rides-up", "hook-bevel"})
_PLACE = frozenset({"no-stud"})
_THROUGH = frozenset({"cleat-through"})
_STAND_OFF = frozenset({"anchor-stand-off"})
_FACTS = {
    "wall-unknown": "What the wall is made of has to be found out: give its studs or its masonry in `wall`.",
    "wall-steel-studs": "Screws in steel studs are not computed: put wood backing in, and give that as studs.",
    "anchor-approval": "Give the values that the anchor's maker approves for this wall.",
    "no-stud": "No stud that is given is in reach and free: set wood backing between studs and give it as one, hang it "
    "elsewhere, or join it to its neighbour on one cleat.",
    "stud-edge": "Measure the studs: in one so narrow a fastener that is listed stands too near its sides.",
    "fastener-penetration": "Measure the lining and how deep the studs are: no fastener that is listed reaches far "
    "enough into them and not through. Battens on masonry are no studs: give the masonry and its anchors instead.",
    **dict.fromkeys(
        ("fastener-use", "fastener-group", "strip-bending", "strip-height"),
        "What is given of the wall does not hold it here, whatever it is fastened with: look for another stud in its "
        "reach, or set wood backing in, and give that in `wall.studs` (in masonry, a stronger anchor); else load it "
        "less, or hang it elsewhere.",
    ),
    "studs-unknown": "Find and measure the studs; a place made up here would hold nothing.",
    "stud-wood": "Read the grade stamp of the studs, or take the weakest common group.",
    "anti-lift-wall": "What holds against lifting off in this wall is for an approved anchor or an engineer.",
    "strip-unknown": "The mounting's own method must say which part its fasteners pass through.",
    "anchor-stand-off": "Fix the strip on the bare masonry (a lining of 0), or give the stand-off that the anchor is "
    "approved for.",
}
_GUARDS = dict.fromkeys(
    (
        "bearing-angle", "bearing-area", "combined-angle", "combined-load", "duration-factor", "glue-area",
        "hanging-centre", "hanging-weight", "hook-friction", "pin-arm", "pin-depth",
    ),
    "This guards an equation against what no job can ask: tell whoever maintains the software.",
)  # fmt: skip


class HangingCures(CureGenerator):
    """Cures for a cabinet that its fasteners, strip or hook do not hold."""

    id: ClassVar[str] = "hanging"
    title: ClassVar[str] = "Fasteners, strips and places of what hangs"
    codes: ClassVar[frozenset[str]] = (
        _FASTENER | _LIFT | _PLACE | _THROUGH | _STAND_OFF | {f"anti-lift-{code}" for code in _FASTENER}
    )
    why_none: ClassVar[Mapping[str, str]] = {**_FACTS, **_GUARDS}

    def changes(self, stop: Stop) -> Iterable[Change]:
        """Yield changes of the fastening first, then of the strip, the place, the mounting, and at last the load."""
        hung = hung_of(stop)
        if hung is None:
            return
        if stop.check.code in _THROUGH:
            yield from not_through(hung)
            return
        if stop.check.code in _STAND_OFF:
            yield from _flush(hung)
            return
        if stop.check.code in _LIFT or stop.check.code.startswith("anti-lift-"):
            yield from _against_lifting(hung)
        yield from _anchors(hung)
        if (beside := on_strip(hung)) is not None:
            whole, alike = beside
            yield from whole.weighing(fastenings(whole, alike), EACH)
            yield from whole.weighing(strips(whole, alike), EACH)
            return
        if stop.check.code not in _PLACE:
            for copies in (hung, *_copy_of(hung)):
                yield from copies.weighing(fastenings(copies), EACH)
                yield from copies.weighing(strips(copies), EACH)
        yield from hung.weighing(places(hung), EACH)
        yield from hung.weighing(whole_row(hung), EACH)
        yield from paired(hung)
        yield from hung.weighing(other_mounting(hung), EACH + 1)
        yield from hung.weighing(_less_load(hung), 1)
        yield from hung.weighing(wider(hung), 2)


def _copy_of(hung: Hung) -> Iterator[Hung]:
    """Yield the one copy of a cabinet that stops, where there are more: what holds it may not hold them all."""
    number = hung.stop.spot
    if number is not None and 0 <= number < len(hung.cases) > 1:
        yield replace(hung, cases=(hung.cases[number],))


def _against_lifting(hung: Hung) -> Iterator[Change]:
    """Yield other ways to keep the cabinet on its hook, and other bevels."""
    if hung.mounting.choice.method != HOOKED:
        return
    ways = {
        "top-strip": "a strip on the top, fastened to a stud against lifting off",
        "screw": "screws through the back into the wall cleat against lifting off",
    }
    for way, words in ways.items():
        if hung.mounting.choice.options.get("anti_lift") != way:
            yield Beside((words,), {"anti_lift": way}).change(hung)
    hung.left = ALLOWANCE
    for bevel in BEVELS:
        use = hung.use(partial(replace, bevel_deg=bevel))
        if use is not None and use <= 1.0:
            yield Beside((f"both cleats bevelled at {bevel:g} degrees",), {"bevel_deg": bevel}).change(hung)


def _flush(hung: Hung) -> Iterator[Change]:
    """Yield a back that stands in by just the cleat's thickness: no packing then keeps the cleat off bare masonry.

    A strip inside always has the back between it and the wall: a pair of cleats takes its place, on the back as it is
    or on one of the strip's own stuff.
    """
    stop, cabinet = hung.stop, hung.stop.cabinet
    wall = stop.plan.job.wall
    if not hung.cases or cabinet is None or cabinet.case.back is None or wall is None or wall.masonry is None:
        return
    inset = round(hung.cases[0].strip.thickness_mm * NM_PER_MM)
    if wall.lining > wall.masonry.stand_off:
        return
    words = f"the back {stop.write.cut(inset)} in from the rear edge, so that the cleat lies on the masonry"
    back: Setting = (stop.at("case", "back", "inset"), hung.size(inset))
    if hung.mounting.choice.method == HOOKED:
        yield Change(words, patch_setting(stop.document, back))
        return
    cleats = "a pair of bevelled cleats behind the back"
    yield Beside((cleats, words), settings=(back,), method=HOOKED).change(hung)
    stiff: Setting = (stop.at("case", "back", "material"), cabinet.case.material)
    if cabinet.case.back.material != cabinet.case.material:
        words = f"a back of {cabinet.case.material} {stop.write.cut(inset)} in from the rear edge"
        yield Beside((cleats, words), settings=(stiff, back), method=HOOKED).change(hung)


def _anchors(hung: Hung) -> Iterator[Change]:
    """Yield more of a masonry wall's anchors: as few as the hardest-worked one now asks for, and more than that."""
    stop = hung.stop
    wall, use = stop.plan.job.wall, stop.check.value
    if wall is None or wall.masonry is None or stop.check.code != "fastener-use" or not isinstance(use, (int, float)):
        return
    now = wall.masonry.anchors
    for count in dict.fromkeys((math.ceil(now * use), math.ceil(1.25 * now * use), 2 * math.ceil(now * use))):
        if now < count <= MOST_ANCHORS:
            setting = (("wall", "masonry", "anchors"), count)
            yield Change(f"{count} anchors in each strip", patch_setting(stop.document, setting))


def _less_load(hung: Hung) -> Iterator[Change]:
    """Yield the greatest whole load, in the job's unit of mass, that the firmest fastening weighed would hold."""
    if not hung.cases or hung.cases[0].contents_kg <= 1.0:
        return
    now = hung.cases[0]
    firm = (Beside(), now.fastener, now.per_stud) if now.wall.kind == "masonry" else _firmest(hung)
    if firm is None:
        return
    beside, fastener, count = firm
    write = hung.stop.write
    unit = write.measured(1.0, "kg")[0]
    most = int(now.contents_kg * unit)
    low, high = 0, most
    hung.left = ALLOWANCE
    while low < high:
        middle = (low + high + 1) // 2
        loaded = partial(_loaded, case_of=beside.case_of, kg=middle / unit, by=(fastener, count))
        use = hung.use(loaded)
        low, high = (middle, high) if use is not None and use <= 1.0 else (low, middle - 1)
    if low == 0:
        return
    if low == most and fastener is not None:
        yield beside.change(hung, fastener=fastener, count=count)
        return
    key = CONTENTS[1] if write.inches else CONTENTS[0]
    given = [one for one in CONTENTS if at_path(hung.stop.document, hung.stop.at("mounting", one)) is not None]
    value = low if given in ([], [key]) else round(low / unit, 3) if given == [CONTENTS[0]] else round(low * 2.2046, 1)
    words = (f"at most {write.mass_kg(low / unit)} in the cabinet", *beside.words)
    options = {(given or [key])[0]: value, **beside.options}
    other = None if fastener == now.fastener else fastener
    less = replace(beside, words=words, options=options, keeps=False)
    yield less.change(hung, fastener=other, count=None if other is None and count == now.per_stud else count)


def _firmest(hung: Hung) -> tuple[Beside, Fastener | None, int] | None:
    """Return the fastening of least use: the strips as they are or higher, many or long fasteners."""
    now = hung.cases[0].fastener
    rows = [*([now] if now else []), *[row[-1] for row in fasteners_of(hung)]]
    best: tuple[float, Beside, Fastener | None, int] | None = None
    for beside in chain([Beside()], higher_strips(hung, Beside())):
        for fastener in rows:
            for count in FIRM_COUNTS:
                use = hung.use(partial(fastened, case_of=beside.case_of, by=(fastener, count)))
                if use is not None and (best is None or use < best[0]):
                    best = (use, beside, fastener, count)
                if use is not None:
                    break
    return None if best is None else best[1:]


def _loaded(case: HangingCase, case_of: Changed, kg: float, by: tuple[Fastener | None, int]) -> HangingCase:
    return replace(fastened(case, case_of, by), contents_kg=kg)
