"""Panes, and whatever else is bought at its finished size: neither cut nor loaded here, and ordered with care."""

from collections.abc import Iterator, Sequence

from casewright.sdk.errors import pointer_to
from casewright.sdk.loader import Registry
from casewright.sdk.model import Check, Finding, Job, Part
from casewright.sdk.model.parts import Role

NOT_LOADED: frozenset[Role] = frozenset({"door-panel", "loose"})
"""What may be a pane and carries nothing."""
_SOURCE = "common-practice"


def pane_checks(job: Job, parts: Sequence[Part], registry: Registry) -> tuple[Check, ...]:
    """Return a stop for each part that cannot be a pane, a caution for each material that is bought to size.

    Stock of such a material is left alone, and a caution says so.
    """
    bought = {key for key, one in job.materials.items() if one.to_size}
    if not bought:
        return ()
    panes = [part for part in parts if part.material in bought]
    titles = {key: registry.catalogue.stuff(job.materials[key].stuff).title for key in bought}
    return (
        *(check for part in panes for check in _unfit(part, titles[part.material])),
        *(_order(key, titles[key]) for key in dict.fromkeys(part.material for part in panes)),
        *_stock(job, titles),
    )


def _unfit(part: Part, title: str) -> Iterator[Check]:
    """Yield why a part cannot be a pane, and that a shelf's strength is not judged."""
    if part.features or part.bands:
        message = (
            f"{title} is bought at its finished size: the shop neither saws, bores, grooves nor bands it; "
            "make this part of another material"
        )
        yield Check(part.id, Finding("pane-worked", "stop", message, source=_SOURCE))
    elif part.role == "shelf" and part.group == "loose":
        message = (
            f"the strength of a shelf of {title} is not judged: have the glazier say how thick it must be for its "
            "load, and of which glass"
        )
        yield Check(part.id, Finding("pane-shelf", "caution", message, source=_SOURCE))
    elif part.role not in NOT_LOADED:
        message = f"nothing here judges what {title} carries or braces, nor how it is fixed; use another material"
        yield Check(part.id, Finding("pane-carries", "stop", message, source=_SOURCE))


def _order(key: str, title: str) -> Check:
    message = (
        f"panes of {title} are ordered to size, never sawn here. Local code says where safety glass must be, often in "
        "doors and low down: ask the glazier for toughened or laminated glass there, edges arrissed. Toughened glass "
        "cannot be cut afterwards, so measure the work before ordering"
    )
    return Check(pointer_to("materials", key), Finding("pane-order", "caution", message, source=_SOURCE))


def _stock(job: Job, titles: dict[str, str]) -> Iterator[Check]:
    if job.stock is None:
        return
    for key, title in titles.items():
        if any(piece.material == key for piece in job.stock.pieces):
            message = f"{title} is bought at its finished size: stock of {key} is left alone; take it out of the list"
            yield Check(pointer_to("stock"), Finding("pane-stock", "caution", message, source=_SOURCE))
