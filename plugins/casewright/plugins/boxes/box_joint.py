"""Box joint: straight fingers through the full thickness of both parts."""

from collections.abc import Sequence
from itertools import pairwise
from typing import ClassVar

from casewright.sdk.fields import Count, OptionSchema
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery import COMMON, Bound, area_mm2, check_least
from casewright.sdk.joinery.rabbets import at_low_end
from casewright.sdk.methods import CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import Feature, FeatureKind, Options, Term
from casewright.sdk.units import MM

LEAST_FINGER = 2 * MM
"""Narrowest finger that a saw leaves whole (common practice)."""
LEAST_COUNT = 3
"""Fewest fingers and sockets of a joint: both its ends are fingers of the guest."""


class BoxJointOptions(OptionSchema):
    """Options of the box joint."""

    fingers = Count(
        least=LEAST_COUNT,
        most=99,
        load_default=None,
        about="Number of fingers and sockets together, odd, of one width. Default: fingers as wide as the host is "
        "thick, one setting for boxes of one material; the first and the last are wider alike.",
    )


class BoxJoint(JointMethod):
    """Fingers of one width, an odd number of them, so that both ends of the joint are fingers of the guest."""

    id: ClassVar[str] = "box-joint"
    title: ClassVar[str] = "Box joint"
    sources: ClassVar[tuple[str, ...]] = (COMMON,)
    does: ClassVar[frozenset[MeetingKind]] = frozenset({"box"})
    cuts: ClassVar[frozenset[FeatureKind]] = frozenset({"fingers"})
    options = BoxJointOptions

    def fit(self, meeting: Meeting, options: Options) -> Fit:
        """Answer a drawer corner; the guest grows by the host's thickness.

        Fingers between the two at the ends are as wide as the host is thick where three go in, else and where their
        number is given as wide as they come out alike; the two at the ends share what is left. The sockets in the
        host are wider by the shop's fit. Raises `CannotError` for an even number or fingers without width.
        """
        at_low_end(meeting)
        run, t, deep = meeting.run, meeting.guest_thickness, meeting.host_depth
        whole = run // deep - (run // deep + 1) % 2
        wanted: int | None = options.get("fingers")
        count = max(3, whole) if wanted is None else wanted
        if count % 2 == 0:
            rule = "a box joint has an odd number of fingers"
            raise CannotError(rule, str(count), f"Use {count - 1} or {count + 1}.", "fingers")
        width = deep if wanted is None and whole >= LEAST_COUNT else run // count
        if width < LEAST_FINGER:
            rule = f"a finger is at least {meeting.write.length(LEAST_FINGER)} wide"
            raise CannotError(rule, f"{count} fingers in {meeting.write.length(run)}", "Use fewer fingers.", "fingers")
        first = (run - (count - 2) * width) // 2
        spans = list(pairwise([0, *(first + i * width for i in range(count - 1)), run]))
        ease = min(meeting.fit // 2, width // 4)
        sockets = tuple(Box(max(0, a - ease), 0, 0, min(run, b + ease), t, deep) for a, b in spans[::2])
        gaps = tuple(Box(a, 0, 0, b, t, deep) for a, b in spans[1::2])
        out: Axis = -2 if meeting.host_before == 0 else 2
        return Fit(
            growth=deep,
            why=(Term("fingers through the side", deep),),
            host=(Feature("fingers", f"sockets for {meeting.guest.name}", out, boxes=sockets),),
            guest=(Feature("fingers", f"fingers into {meeting.host.name}", 3, boxes=gaps),),
            findings=check_least(
                "narrow-fingers", "The fingers are narrow and break easily.", width, Bound(min(t, deep) // 2)
            ),
            seat=deep,
            glue_area_mm2=area_mm2(((count - 1) * t, deep), (run, t)),
        )


@hookimpl
def casewright_box_methods() -> Sequence[JointMethod]:
    """Return the box joint."""
    return (BoxJoint(),)
