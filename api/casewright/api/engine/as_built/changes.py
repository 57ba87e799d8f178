"""What comes out otherwise than in the plan of the same job with nothing built yet."""

from collections.abc import Iterable, Mapping

from casewright.api.engine.as_built import Outcome
from casewright.sdk.model import BuiltMeasure, Cabinet, Part, PartChange, SizeChange

MEASURES = (BuiltMeasure.LENGTH, BuiltMeasure.WIDTH, BuiltMeasure.THICKNESS)


def changes(planned: Iterable[Part], parts: Iterable[Part], outcome: Outcome) -> tuple[PartChange, ...]:
    """Return each part whose sizes or cuts are not those of the plan as asked, in the order of the parts.

    One that is cut and goes in as it is has the sizes that were measured of it.
    """
    was = {part.id: part for part in planned}
    by_id = {cabinet.id: cabinet for cabinet in outcome.job.cabinets}
    changed = (_change(part, was, by_id.get(part.cabinet), outcome.kept) for part in parts)
    return tuple([change for change in changed if change is not None])


def _change(
    part: Part, was: Mapping[str, Part], cabinet: Cabinet | None, kept: Mapping[tuple[str, BuiltMeasure], int]
) -> PartChange | None:
    planned = part.id
    if cabinet is not None and cabinet.planned:
        planned = f"{cabinet.planned}/{part.id.partition('/')[2]}"
    before = was.get(planned)
    if before is None:
        return None
    built = part.built == part.quantity
    both = [
        (measure, old, kept.get((part.id, measure), new) if built else new)
        for measure, old, new in zip(MEASURES, _sizes(before), _sizes(part), strict=True)
    ]
    sizes = tuple([SizeChange(measure, old, new) for measure, old, new in both if old != new])
    cuts = [(one.kind, one.boxes, one.holes, one.wedges) for one in before.features] != [
        (one.kind, one.boxes, one.holes, one.wedges) for one in part.features
    ]
    if not sizes and not cuts:
        return None
    copies = cabinet.copies if cabinet is not None else ()
    return PartChange(part.id, planned, copies, sizes, cuts, built)


def _sizes(part: Part) -> tuple[int, int, int]:
    return part.length, part.width, part.thickness
