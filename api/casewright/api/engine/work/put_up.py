"""Words for putting a cabinet up: where it goes, how it is lifted on or set, and what holds it there."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import assert_never

from casewright.api.engine.work.fixed_on_case import places_on_case, screwed_into
from casewright.api.engine.work.naming import joined
from casewright.api.engine.work.steps import Steps
from casewright.api.engine.work.wall_fixing import anti_lift_words, screw_words
from casewright.sdk.engineering.hanging_case import HangingCase
from casewright.sdk.geometry import Box
from casewright.sdk.model import Cabinet, HungCabinet
from casewright.sdk.units import MM

__all__ = ["NOWHERE", "Place", "put_up_words"]


@dataclass(frozen=True, slots=True)
class Place:
    """Where one cabinet goes: its name among those alike, the place in words, and its JSON Pointer; empty: unknown."""

    name: str = ""
    where: str = ""
    pointer: str = ""


NOWHERE = Place()
HELPERS: Mapping[int, str] = {2: " with a helper", 3: " with two helpers or a lift"}
"""Who lifts beside the one who hangs it, by how many people a cabinet asks for."""
NO_ANTI_LIFT = "a fastener of the shop's choice through the case into a stud"


def put_up_words(steps: Steps, cabinet: Cabinet, place: Place, fixed: bool) -> str:
    """Return how a cabinet is put up; `fixed` says that it has a mounting."""
    title = place.name or cabinet.id
    where = f" {place.where}" if place.where else ""
    match cabinet.form:
        case "wall":
            return _hang_words(steps, cabinet, f"{title}{where}", steps.made.hung(place.pointer))
        case "base" | "tall":
            own = cabinet.base is not None and cabinet.base.kind == "plinth"
            do = f"Set {title} level{' on its base' if own else ''}{',' if own and where else ''}{where}"
            if not fixed:
                return do
            do += "" if where or own else " in its place"
            do += " and screw it to the wall so that it cannot tip, before it is loaded"
            standing = steps.made.standing(place.pointer)
            if standing is None or standing.case is None or not standing.fasteners:
                return do
            return f"{do}: through {_through(standing.case)}, {screw_words(steps, standing.case, standing.fasteners)}"
        case _:
            assert_never(cabinet.form)


def _hang_words(steps: Steps, cabinet: Cabinet, title: str, hung: HungCabinet | None) -> str:
    hands = steps.made.hands(cabinet.id)
    do = f"Hang {title}{HELPERS.get(hands, '')}, doors and shelves off where that is lighter"
    screws = [
        f"{line.quantity // cabinet.count} × {line.words}, {places_on_case(steps, cabinet, line)}"
        for line in screwed_into(steps, cabinet, _wall_cleats(steps, cabinet, hung))
    ]
    if hung is None:
        what = joined(screws) if screws else "the fastener that stops it lifting off"
        return f"{do}; set {what}, before it is loaded"
    if hung.case.mounting == "screw-strip":
        prop = "on a prop or by a helper" if hands == 1 else "by them or on a prop"
        how = screw_words(steps, hung.case, hung.fasteners)
        return f"{do}: held in its place {prop}, through {_through(hung.case)}, {how}"
    lift = next((one.lift for one in steps.made.mounted if one.cabinet == cabinet.id), 0)
    do += f": lift it {steps.text(lift)} past its place and let it down on the wall cleat" if lift else ""
    anti_lift = anti_lift_words(steps, hung) or "; ".join(screws)
    return f"{do}; before it is loaded, against lifting off, {anti_lift or NO_ANTI_LIFT}"


def _through(case: HangingCase) -> str:
    """Return what the screws of a strip inside a case pass, in their order."""
    return "the back and the hanging strip" if case.before_strip_mm else "the hanging strip and the back"


def _wall_cleats(steps: Steps, cabinet: Cabinet, hung: HungCabinet | None) -> list[Box]:
    """Return the wall cleats behind a cabinet, in its frame: its own, or the one that it shares with neighbours."""
    parts = steps.made.wall_cleats
    if hung is None or not hung.cleat:
        return [part.place.box(part.blank) for part in parts if part.cabinet == cabinet.id]
    begins = steps.made.hung(hung.on_strip[0])
    beside = 0 if begins is None else round((begins.case.left_mm - hung.case.left_mm) * MM)
    return [part.place.box(part.blank).moved(beside) for part in parts if part.id == hung.cleat]
