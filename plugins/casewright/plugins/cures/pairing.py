"""One wall cleat through neighbours, their facing sides notched for it, so that one has the others' studs."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import combinations, islice
from typing import Any

from casewright.plugins.cures.fastening import ALLOWANCE, OWN, Alike, Beside, Hung, fastenings
from casewright.plugins.cures.strips import HOOKED, hooked, strips
from casewright.sdk.engineering.hanging_case import HangingCase
from casewright.sdk.engineering.hanging_places import one_strip
from casewright.sdk.errors import steps_of
from casewright.sdk.methods import Change
from casewright.sdk.model import Cabinet, HungCabinet
from casewright.sdk.patching import at_path

BESIDE_MM = 50.0
"""Neighbours no farther apart than this stand side by side (common practice, no source)."""

EACH = 2
"""Changes proposed with one neighbour."""


def paired(hung: Hung) -> Iterator[Change]:
    """Yield the one cleat with each neighbour, with the least fastening that then holds both."""
    cabinet, number = hung.stop.cabinet, hung.stop.spot
    if cabinet is None or number is None or not 0 <= number < len(hung.cases):
        return
    case = hung.cases[number]
    if hung.mounting.choice.options.get("through", "none") != "none":
        return
    case = hooked(case)
    for pair, beside in _pairs(hung, cabinet, case):
        if isinstance(pair, HangingCase):
            both = replace(hung, cases=(pair,), left=ALLOWANCE)
            yield from islice(fastenings(both, beside), EACH)
            yield from both.weighing(strips(both, beside), EACH)


def _pairs(hung: Hung, cabinet: Cabinet, case: HangingCase) -> Iterator[tuple[HangingCase | str, Beside]]:
    """Yield what may hang on one strip with a cabinet at a place, with the change: its copies, or its neighbours."""
    if cabinet.count > 1:
        words = f"one wall cleat through neighbouring copies of {cabinet.id}, their sides notched for it"
        beside = Beside((words,), {"through": "both"}, method=_other_method(hung))
        yield from ((_on_one(case, hooked(there)), beside) for there in hung.cases if _beside(case, there))
        return
    neighbours = tuple(_neighbours(hung, cabinet, case))
    for one in neighbours:
        yield _on_one(case, one[1]), _through(hung, (cabinet, case), one)
    for left, right in combinations(sorted(neighbours, key=lambda one: one[1].left_mm), 2):
        if left[1].left_mm < case.left_mm < right[1].left_mm:
            yield _on_one(case, left[1], right[1]), _between(hung, (cabinet, case), left, right)


def _other_method(hung: Hung) -> str:
    """Return the mounting that a cabinet on one cleat with others needs, where it has another; else nothing."""
    return "" if hung.mounting.choice.method == HOOKED else HOOKED


def on_strip(hung: Hung) -> tuple[Hung, Beside] | None:
    """Return the cabinets on one strip with that of a stop, judged together and apart, and how all are changed alike.

    None where it hangs on a strip of its own.
    """
    stop = hung.stop
    hangs = [one.result for one in stop.plan.mounting if isinstance(one.result, HungCabinet)]
    own = next((one for one in hangs if one.place == stop.check.subject), None)
    if own is None or len(own.on_strip) < 2 or stop.cabinet is None:
        return None
    cases = [one.case for one in hangs if one.place in own.on_strip]
    whole = one_strip(cases)
    if isinstance(whole, str):
        return None
    names = {one.cabinet for one in stop.plan.mounting if one.result and one.result.place in own.on_strip}
    others = [one for one in stop.plan.job.cabinets if one.id in names - {stop.cabinet.id}]
    places = [(*steps_of(one.pointer), "mounting") for one in others]
    alike = tuple([Alike(at, at_path(stop.document, at) or {}, {}) for at in places])
    return replace(hung, cases=(whole, *cases)), Beside(alike=alike)


def not_through(hung: Hung) -> Iterator[Change]:
    """Yield a wall cleat that meets none made one with each neighbour's, and then no longer run through."""
    cabinet = hung.stop.cabinet
    if cabinet is not None and cabinet.count == 1 and len(hung.cases) == 1:
        for other, there in _neighbours(hung, cabinet, hung.cases[0]):
            yield _through(hung, (cabinet, hung.cases[0]), (other, there)).change(hung)
    yield Beside(("a wall cleat of its own, its sides not notched",), {"through": "none"}).change(hung)


def _through(hung: Hung, one: tuple[Cabinet, HangingCase], two: tuple[Cabinet, HangingCase]) -> Beside:
    """Return what runs one cleat through a cabinet and its neighbour, which is fastened as the first is."""
    (cabinet, case), (other, there) = one, two
    sides = ("right", "left") if case.left_mm < there.left_mm else ("left", "right")
    words = f"one wall cleat through {cabinet.id} and {other.id}, their facing sides notched for it"
    alike = _alike(hung, other, sides[1])
    return Beside((words,), {"through": sides[0]}, method=_other_method(hung), alike=(alike,))


def _between(
    hung: Hung, one: tuple[Cabinet, HangingCase], left: tuple[Cabinet, HangingCase], right: tuple[Cabinet, HangingCase]
) -> Beside:
    """Return what runs one cleat through a cabinet and its neighbours at both sides, fastened as it is."""
    words = f"one wall cleat through {left[0].id}, {one[0].id} and {right[0].id}, their facing sides notched for it"
    alike = (_alike(hung, left[0], "right"), _alike(hung, right[0], "left"))
    return Beside((words,), {"through": "both"}, method=_other_method(hung), alike=alike)


def _alike(hung: Hung, other: Cabinet, side: str) -> Alike:
    """Return a neighbour's mounting set as the stop's cabinet's is, its cleat running out of it at one side."""
    stop, at = hung.stop, (*steps_of(other.pointer), "mounting")
    given: Mapping[str, Any] = at_path(stop.document, stop.at("mounting")) or {}
    own: Mapping[str, Any] = at_path(stop.document, at) or {}
    kept = {key: own[key] for key in OWN if key in own} | {"through": side}
    base = {key: value for key, value in given.items() if key not in OWN} if not _other_method(hung) else {}
    return Alike(at, base, kept)


def _neighbours(hung: Hung, cabinet: Cabinet, case: HangingCase) -> Iterator[tuple[Cabinet, HangingCase]]:
    """Yield the cabinets that hang beside one at its level, made once and on no other's cleat, with cases on cleats."""
    cabinets = {one.id: one for one in hung.stop.plan.job.cabinets}
    for mounted in hung.stop.plan.mounting:
        other, result = cabinets[mounted.cabinet], mounted.result
        if other.id == cabinet.id or other.count != 1 or other.mounting is None or not isinstance(result, HungCabinet):
            continue
        alone = other.mounting.choice.options.get("through", "none") == "none"
        if not alone or result.case.bottom_mm != case.bottom_mm:
            continue
        if _beside(case, result.case):
            yield other, hooked(result.case)


def _beside(case: HangingCase, there: HangingCase) -> bool:
    """Return whether two cabinets stand side by side at one level."""
    first, second = sorted((case, there), key=lambda one: one.left_mm)
    apart = round(second.left_mm - first.left_mm - first.width_mm, 6)
    return first.bottom_mm == second.bottom_mm and 0.0 <= apart <= BESIDE_MM


def _on_one(case: HangingCase, *others: HangingCase) -> HangingCase | str:
    """Return cabinets on one strip that is as the first's, or why that cannot be."""
    ordered = sorted((case, *others), key=lambda one: one.left_mm)
    left, right = ordered[0].strip.left_mm, ordered[-1].strip.right_mm
    if any(case.height_mm != there.height_mm for there in others):
        return "their cleats would stand at different heights"
    strip = replace(case.strip, left_mm=left, length_mm=right - left)
    alike = [
        replace(
            there,
            strip=strip,
            wall=case.wall,
            fastener=case.fastener,
            per_stud=case.per_stud,
            bevel_deg=case.bevel_deg,
        )
        for there in others
    ]
    return one_strip((replace(case, strip=strip), *alike))
