"""Measurements that cannot be: of a part that is not there, or of a size that nothing here could have."""

from collections.abc import Iterable
from typing import assert_never

from casewright.api.engine.cabinet import CabinetPlan
from casewright.sdk.errors import Problem
from casewright.sdk.model import BuiltMeasure, BuiltMistake, BuiltSize, Mistake, Part, Purpose
from casewright.sdk.spelling import nearest_word
from casewright.sdk.writer import Writer

LISTED = 12


def size_of(part: Part, measure: BuiltMeasure) -> int:
    """Return a size of a part as planned, in nm."""
    return {
        BuiltMeasure.LENGTH: part.length,
        BuiltMeasure.WIDTH: part.width,
        BuiltMeasure.THICKNESS: part.thickness,
    }[measure]


def not_so(mistake: BuiltMistake, plan: CabinetPlan, write: Writer) -> Problem | None:
    """Return the problem of a mistake that cannot be: with what is not there, or has nothing to go wrong so."""
    leaves = {leaf.id.partition("/")[2]: leaf for leaf in plan.doors}
    match mistake.mistake:
        case Mistake.WRONG_FACE:
            known = {part.id.partition("/")[2] for part in plan.parts if _jointed(part)}
        case Mistake.PANEL_FORGOTTEN:
            known = {part.group for part in plan.parts if part.role == "door-panel"} & leaves.keys()
        case Mistake.MEETS_NEIGHBOUR | Mistake.WRONG_SIDE:
            known = set(leaves)
        case _:
            assert_never(mistake.mistake)
    if mistake.part not in known:
        return no_part(mistake, known) if known else _none_such(mistake)
    most = leaves[mistake.part].width // 2 if mistake.mistake is Mistake.MEETS_NEIGHBOUR else mistake.value
    if mistake.value <= most:
        return None
    rule = f"what a door meets its neighbour by, no more than {write.length(most)}, half its width"
    return Problem(
        f"{mistake.pointer}/value", rule, write.length(mistake.value), "Measure again how far it stands over."
    )


def _jointed(part: Part) -> bool:
    return any(feature.purpose is Purpose.JOINERY for feature in part.features)


def _none_such(mistake: BuiltMistake) -> Problem:
    """Return the problem of a mistake that nothing of a cabinet can have."""
    rule = f"a part of {mistake.cabinet} that this can be said of; it has none"
    return Problem(f"{mistake.pointer}/part", rule, f'"{mistake.part}"', "Take the entry out.")


def no_part(size: BuiltSize | BuiltMistake, parts: Iterable[str]) -> Problem:
    """Return the problem of a part that the cabinet does not have."""
    known = sorted(parts)
    close = nearest_word(size.part or "", known)
    words = f'"{close}"' if close else "one of: " + ", ".join(known[:LISTED]) + (" …" if known[LISTED:] else "")
    return Problem(f"{size.pointer}/part", f"a part of {size.cabinet}", f'"{size.part}"', f"Write {words}.")


def beyond(size: BuiltSize, planned: int, write: Writer) -> Problem | None:
    """Return the problem of a size that is not from half to one and a half times what is planned."""
    least, most = -(-planned // 2), planned + planned // 2
    if least <= size.nm <= most:
        return None
    bounds = f"{write.length(least)} to {write.length(most)}"
    rule = f"a {size.measure} from {bounds}, half to one and a half of what is planned"
    fix = f"Measure again: {write.length(planned)} is planned. What is farther off is another part: take the entry out."
    return Problem(f"{size.pointer}/value", rule, write.length(size.nm), fix)
