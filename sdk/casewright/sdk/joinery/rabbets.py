"""The rabbet at a host's end or edge, as case, panel and drawer corners use it."""

from casewright.sdk.geometry import Box
from casewright.sdk.joinery.checks import Bound, check_most
from casewright.sdk.joinery.layout import area_mm2
from casewright.sdk.methods import CannotError, Fit, Meeting
from casewright.sdk.model.parts import HardwareUse, Term, rabbet


def at_low_end(meeting: Meeting) -> bool:
    """Return whether the guest is flush with the host's low end along y, or raise `CannotError` if with neither."""
    at_low = meeting.host_before == 0
    if at_low == (meeting.host_after == 0):
        raise CannotError(
            "this joint is at one end or edge of its host",
            f"{meeting.write.length(meeting.host_before)} and {meeting.write.length(meeting.host_after)} of "
            f"{meeting.host.name} on the two sides",
            f"Set {meeting.inset_field or 'the inset'} to 0, or use the method housed-groove.",
        )
    return at_low


def rabbeted(meeting: Meeting, depth: int, play: int, *, glued: bool, hardware: tuple[HardwareUse, ...] = ()) -> Fit:
    """Return the fit of a rabbet `depth` nm deep whose floor the guest misses by `play` nm.

    The guest grows by the depth less the play; the shop's fit is added on the inner side, so that the outer
    faces stay flush. Raises `CannotError` away from the host's ends or for a depth that leaves no wood.
    """
    at_low, write = at_low_end(meeting), meeting.write
    if not play < depth < meeting.host_depth:
        rule = "a rabbet is deeper than its clearance and shallower than its host is thick"
        got = f"depth {write.length(depth)}, clearance {write.length(play)}, host {write.length(meeting.host_depth)}"
        fix = f"Use a depth of {write.length(meeting.host_depth // 2)}, half the thickness."
        raise CannotError(rule, got, fix, "depth")
    growth, t = depth - play, meeting.guest_thickness
    low, high = (0, t + meeting.fit) if at_low else (-meeting.fit, t)
    x0, x1 = meeting.all_along
    cut = rabbet(f"rabbet for {meeting.guest.name}", Box(x0, low, 0, x1, high, depth), entry=-3, run=1)
    why = [Term("rabbet depth", depth)] + ([Term("clearance at the rabbet's floor", -play)] if play else [])
    return Fit(
        growth=growth,
        why=tuple(why),
        host=(cut,),
        hardware=hardware,
        findings=check_most(
            "deep-rabbet",
            f"The rabbet for {meeting.guest.name} takes more than two thirds of {meeting.host.name}.",
            depth,
            Bound(2 * meeting.host_depth // 3),
        ),
        seat=growth,
        clearance=play,
        glue_area_mm2=area_mm2((meeting.run, t + growth)) if glued else 0.0,
    )
