"""The order cabinets are set in: tall ones fix the height, wall cabinets go up before base cabinets are in the way."""

from collections.abc import Sequence

from casewright.api.engine.run.standing import Stood
from casewright.sdk.model import Wall

_FIRST = {"tall": 0, "wall": 1, "base": 2}


def order_of_setting(wall: Wall, stood: Sequence[Stood]) -> tuple[str, ...]:
    """Return names in working order: within a form and a row, from the corner (or the left end) along the wall.

    Rows of wall cabinets go from the top down, so that nothing stands under a lift.
    """
    way = -1 if wall.corners == "right" else 1
    ordered = sorted(stood, key=lambda s: (_FIRST[s.cabinet.form], -s.spot.z, way * s.outline.x0, s.name))
    return tuple([one.name for one in ordered])
