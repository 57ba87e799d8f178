"""Fitting joints: one meeting at a time, the method's answer checked and then cut into both parts."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from casewright.api.engine.construction.draft import ALIKE, Draft, Work, ask
from casewright.api.engine.construction.faults import look_over_fit
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Axis, Place
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import Choice, Joint, Term
from casewright.sdk.writer import writer

_SIDES: Mapping[int, str] = {1: "right", -1: "left", 2: "back", -2: "front", 3: "upper", -3: "lower"}


def joint_method(registry: Registry, choice: Choice, kind: MeetingKind = "tee") -> JointMethod:
    """Return the joint method a choice names (the schemas have made sure that there is one)."""
    return registry.boxes[choice.method] if kind == "box" else registry.joints[choice.method]


Spans = tuple[tuple[int, int], ...]


def meet(
    work: Work, kind: MeetingKind, host: Draft, guest: Draft, way: Axis, choice: Choice, crossed: Spans = ()
) -> Fit:
    """Fit `guest`, going the signed axis `way`, to `host`, and record the joint, its cuts and hardware.

    `crossed` are spans along the joint, in the cabinet frame, where another cut will cross it.
    """
    return meet_all(work, kind, (host,), guest, way, choice, crossed)


def meet_all(
    work: Work,
    kind: MeetingKind,
    hosts: Sequence[Draft],
    guest: Draft,
    way: Axis,
    choice: Choice,
    crossed: Spans = (),
) -> Fit:
    """Fit one end of `guest` to hosts that lie in one plane; it grows once, by what they all ask.

    Raises `NoGeometryError` where they ask for different growth. Returns the first fit.
    """
    asked = [_meeting(work, kind, host, guest, way, crossed) for host in hosts]
    fits = [_answer(work, choice, kind, meeting) for meeting, _, _ in asked]
    growths = {fit.growth for fit in fits}
    if len(growths) > 1:
        raise NoGeometryError(
            Problem(
                choice.pointer,
                f"{guest.name} enters {' and '.join(host.name for host in hosts)} equally deep",
                ", ".join(f"{growth / 1e6:g} mm" for growth in sorted(growths)),
                "Give the joint's depth.",
            )
        )
    guest.box = guest.box.grown(way, fits[0].growth)
    names = " and ".join(host.name for host in hosts)
    guest.why[abs(way)].extend(Term(f"{term.label}, {names}", term.nm) for term in fits[0].why)
    for host, fit, (_, place, slack) in zip(hosts, fits, asked, strict=True):
        _record(work, kind, host, guest, way, choice, fit, place, slack)
    return fits[0]


def _answer(work: Work, choice: Choice, kind: MeetingKind, meeting: Meeting) -> Fit:
    method = joint_method(work.registry, choice, kind)
    family = "boxes" if kind == "box" else "joints"
    fit: Fit = ask(
        work, family, choice.method, choice.pointer, lambda: method.fit(meeting, MappingProxyType(choice.options))
    )
    look_over_fit(work, choice.method, fit, family, meeting.guest_length)
    return fit


def _record(
    work: Work,
    kind: MeetingKind,
    host: Draft,
    guest: Draft,
    way: Axis,
    choice: Choice,
    fit: Fit,
    place: Place,
    slack: int,
) -> None:
    joint_id = f"{work.id}/{guest.key}+{host.key}" + (f"/{_SIDES[way]}" if kind == "panel" else "")
    _cut(host, guest, way, fit, place, slack, joint_id)
    press = place.axis(fit.press)
    work.joints.append(
        Joint(
            id=joint_id,
            cabinet=work.id,
            method=choice.method,
            kind=kind,
            host=f"{work.id}/{host.key}",
            guest=f"{work.id}/{guest.key}",
            press=press,
            seat=max(0, fit.seat - slack) if press == way else fit.seat,
            clearance=fit.clearance + slack if press == way else fit.clearance,
            glue_area_mm2=fit.glue_area_mm2,
        )
    )
    work.use(tuple([use.carried(place) for use in fit.hardware]), joint_id)
    for finding in fit.findings:
        work.find(joint_id, finding)


def _meeting(
    work: Work, kind: MeetingKind, host: Draft, guest: Draft, way: Axis, crossed: Spans
) -> tuple[Meeting, Place, int]:
    d, t = abs(way), guest.thickness_axis
    a = 6 - d - t
    outer, inner = host.box, guest.box
    host_low, host_high, low, high = outer[d - 1], outer[d + 2], inner[d - 1], inner[d + 2]
    face, slack = (host_low, host_low - high) if way > 0 else (host_high, low - host_high)
    if not 0 <= slack < ALIKE:
        raise AssertionError(f"{guest.key} stands {slack} nm off {host.key}")
    start, end = max(inner[a - 1], outer[a - 1]), min(inner[a + 2], outer[a + 2])
    at = [0, 0, 0]
    at[a - 1], at[t - 1], at[d - 1] = start, inner[t - 1], face
    place = Place((at[0], at[1], at[2]), _positive(a), _positive(t), way)
    meeting = Meeting(
        kind=kind,
        host=work.body(host),
        guest=work.body(guest),
        run=end - start,
        guest_thickness=inner[t + 2] - inner[t - 1],
        guest_length=high - low,
        host_depth=host_high - host_low,
        host_before=max(0, inner[t - 1] - outer[t - 1]),
        host_after=max(0, outer[t + 2] - inner[t + 2]),
        host_start=max(0, start - outer[a - 1]),
        host_end=max(0, outer[a + 2] - end),
        fit=work.job.shop.fit,
        side=_SIDES[way],
        catalogue=work.registry.catalogue,
        far_side=host.role == "divider" or host.key.startswith("frame-mid-"),
        keep_clear=tuple([(max(a, start) - start, min(b, end) - start) for a, b in crossed if a < end and b > start]),
        write=writer(work.job.units),
    )
    return meeting, place, slack


def _positive(axis: int) -> Axis:
    return 1 if axis == 1 else 2 if axis == 2 else 3


def _cut(host: Draft, guest: Draft, way: Axis, fit: Fit, place: Place, slack: int, joint_id: str) -> None:
    host.features += [f.carried(place, joint_id) for f in fit.host]
    if slack:
        back = list(place.at)
        back[abs(way) - 1] -= slack if way > 0 else -slack
        place = Place((back[0], back[1], back[2]), place.x, place.y, place.z)
    guest.features += [f.carried(place, joint_id) for f in fit.guest]


def slack_terms(slack: int) -> list[Term]:
    """Return the term for what an equal division leaves over, if it leaves anything."""
    return [Term("left over from equal division, kept as clearance", -slack)] if slack else []
