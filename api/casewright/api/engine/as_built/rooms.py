"""How far a part may come out over or under what it would be cut to, and still go in as it is."""

from collections.abc import Iterable
from dataclasses import dataclass

from casewright.sdk.model import BuiltMeasure, Joint, Part, Shop
from casewright.sdk.units import INCH

HIDDEN = 4
"""A part let into a groove without a shoulder may lack one such share of its seat (common practice, no source)."""
FLUSH = INCH // 64
"""Edges within this of one another are flush (common practice, no source)."""
SHORT_BEHIND = INCH // 16
"""A part set flush at the front may be so much narrower, where that is seen at the back alone (common practice)."""
SHORT_ON_PINS = INCH // 8
"""A loose shelf may be so much shorter and still lies on its pins (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Room:
    """How much larger or smaller a size may come out, in nm; `seated` where its ends lie in grooves or on pins."""

    over: int
    under: int
    seated: bool = False


def room_of(part: Part, measure: BuiltMeasure, joints: Iterable[Joint], same: int) -> Room:
    """Return the room of one size of a part: at least `same`, within which settings are made one.

    What ends in no joint is held flush with what stands beside it.
    """
    way = part.place.x if measure is BuiltMeasure.LENGTH else part.place.y
    own = tuple(joints)
    ends = [joint for joint in own if joint.guest == part.id and abs(joint.press) == abs(way)]
    if ends:
        return _in_joints(part, ends, same)
    if part.role == "shelf" and measure is BuiltMeasure.LENGTH:
        return Room(same, SHORT_ON_PINS, True)
    if measure is BuiltMeasure.WIDTH and part.group == "case" and part.role not in ("side", "back"):
        return Room(max(same, FLUSH), SHORT_BEHIND)
    return Room(max(same, FLUSH), max(same, FLUSH))


def thickness_room(shop: Shop) -> Room:
    """Return the room of a thickness: what the shop adds to a groove, and down to what still counts as flush."""
    return Room(max(shop.same, shop.fit), max(shop.same, FLUSH))


def _in_joints(part: Part, ends: list[Joint], same: int) -> Room:
    """Return the room of a part between joints: one that floats stays in its grooves, one that is glued fills them."""
    play = sum(joint.clearance for joint in ends)
    if play > 0:
        return Room(max(same, play), max(same, min(one.seat + one.clearance for one in ends) - play), True)
    shouldered = {feature.joint for feature in part.features}
    if any(joint.id in shouldered or not joint.seat for joint in ends):
        return Room(same, same)
    return Room(same, max(same, min(joint.seat for joint in ends) // HIDDEN), True)
