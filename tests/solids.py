"""Parts as the engine's exact solids: of a method's parts in their own frame, of a plan's in the cabinet's."""

from casewright.api.engine.solid.cells import Cell, cells
from casewright.api.engine.solid.solids import Solid
from casewright.sdk.model import Part, PartSpec


def exact(spec: PartSpec) -> Solid:
    """Return a part of an assembly less its square and slanting waste."""
    return Solid(
        spec.key,
        (spec.box,),
        tuple(b for f in spec.features for b in f.boxes),
        tuple(w for f in spec.features for w in f.wedges),
        (),
    )


def cells_of(part: Part) -> tuple[Cell, ...]:
    """Return the cells of a blank less its square and slanting waste, in the cabinet's frame."""
    cuts = [cut.carried(part.place) for cut in part.features]
    boxes, wedges = [b for cut in cuts for b in cut.boxes], [w for cut in cuts for w in cut.wedges]
    return cells([part.place.box(part.blank)], boxes, wedges)
