"""Fitting joints: one meeting at a time, the method's answer checked and then cut into both parts."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from types import MappingProxyType

from casewright.api.engine.construction.answers import validate_fit
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import ALIKE, SIDES, Draft
from casewright.api.engine.construction.equal import Measure
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Axis, Place
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import Choice, Joint, Options, Term
from marshmallow import Schema

Spans = tuple[tuple[int, int], ...]
DEPTH = "depth"
"""The option by which a method that lets the guest into the host is given how deep."""


@dataclass(frozen=True, slots=True)
class Joining:
    """How parts are joined: the kind of meeting and the method the job picked for it.

    `crossed` are spans along the joint, in the cabinet frame, where another cut will cross it; `inset_field` what of
    the job says how far the guest stands in.
    """

    kind: MeetingKind
    choice: Choice
    crossed: Spans = ()
    inset_field: str = ""


@dataclass(frozen=True, slots=True)
class _Fitted:
    """One host and guest as they meet: the joint's place in the cabinet frame and the method's answer.

    `spare` is how far the guest stands off the host before it grows, `depth` how deep the method would cut into the
    host by itself: zero where no cut ends in the wood, or the method takes no depth.
    """

    host: Draft
    guest: Draft
    way: Axis
    place: Place
    spare: int
    fit: Fit
    depth: int


def joint_method(registry: Registry, choice: Choice, kind: MeetingKind = "tee") -> JointMethod:
    """Return the joint method a choice names (the schemas have made sure that there is one)."""
    return registry.boxes[choice.method] if kind == "box" else registry.joints[choice.method]


def meet(built: Construction, joining: Joining, hosts: str | Sequence[str], guest: str, way: Axis) -> Construction:
    """Fit one end of a part, going the signed axis `way`, to one host or to several that lie in one plane.

    It grows once, by what they all ask. Parts are named by their keys. Raises `NoGeometryError` where hosts ask for
    different growth.
    """
    entering = built.drafts[guest]
    receiving = [built.drafts[key] for key in ([hosts] if isinstance(hosts, str) else hosts)]
    fitted = [_fitted(built, joining, host, entering, way) for host in receiving]
    growths = {one.fit.growth for one in fitted}
    names = " and ".join(host.name for host in receiving)
    if len(growths) > 1:
        raise NoGeometryError(
            Problem(
                joining.choice.pointer,
                f"{entering.name} let into {names} equally deep",
                ", ".join(built.write.length(growth) for growth in sorted(growths)),
                "Give the joint's depth.",
            )
        )
    fit = fitted[0].fit
    built = built.asking(Measure.DEPTH, *[one.depth for one in fitted if one.depth])
    why = tuple([Term(f"{term.label}, {names}", term.nm) for term in fit.why])
    built = built.with_parts(entering.grown(way, fit.growth, why))
    for one in fitted:
        built = _joined(built, joining, one)
    return built


def _fitted(built: Construction, joining: Joining, host: Draft, guest: Draft, way: Axis) -> _Fitted:
    meeting, place = _meeting(built, joining, host, guest, way)
    choice = joining.choice
    method = joint_method(built.registry, choice, joining.kind)
    fit = _answer(built, joining, meeting, choice.options)
    depth = _depth(fit, meeting) if _takes_depth(method.options) else 0
    equal = built.context.equal(Measure.DEPTH, depth)
    if equal != depth:
        other = _answer(built, joining, meeting, {**choice.options, DEPTH: equal})
        less = Term("made as deep as others nearly so", other.growth - fit.growth)
        fit = replace(other, why=(*fit.why, less))
    return _Fitted(host, guest, way, place, meeting.spare, fit, depth)


def _answer(built: Construction, joining: Joining, meeting: Meeting, options: Options) -> Fit:
    """Return the method's answer to a meeting, found sound."""
    choice = joining.choice
    method = joint_method(built.registry, choice, joining.kind)
    family = "boxes" if joining.kind == "box" else "joints"
    frozen = MappingProxyType(options)
    fit = built.context.call(family, choice.method, choice.pointer, lambda: method.fit(meeting, frozen))
    validate_fit(built.context, family, choice.method, fit, meeting.guest_length)
    return fit


@lru_cache(maxsize=100)
def _takes_depth(options: type[Schema]) -> bool:
    """Return whether a method with such options is given how deep it lets the guest in."""
    return DEPTH in options().fields


def _depth(fit: Fit, meeting: Meeting) -> int:
    """Return how deep the deepest cut into the host goes that ends in its wood."""
    return max((box.z1 for cut in fit.host for box in cut.boxes if 0 < box.z1 < meeting.host_depth), default=0)


def _joined(built: Construction, joining: Joining, one: _Fitted) -> Construction:
    """Return the construction with one joint's cuts, hardware and findings."""
    host, guest, way, fit = one.host.key, one.guest.key, one.way, one.fit
    joint_id = f"{built.id}/{guest}+{host}" + (f"/{SIDES[way]}" if joining.kind == "panel" else "")
    press = one.place.axis(fit.press)
    joint = Joint(
        id=joint_id,
        cabinet=built.id,
        method=joining.choice.method,
        kind=joining.kind,
        host=f"{built.id}/{host}",
        guest=f"{built.id}/{guest}",
        press=press,
        seat=max(0, fit.seat - one.spare) if press == way else fit.seat,
        clearance=fit.clearance + one.spare if press == way else fit.clearance,
        glue_area_mm2=fit.glue_area_mm2,
        note=fit.note,
    )
    entering = _moved(one.place, way, -one.spare)
    return (
        built.with_cuts(host, *(cut.carried(one.place, joint_id) for cut in fit.host))
        .with_cuts(guest, *(cut.carried(entering, joint_id) for cut in fit.guest))
        .with_joints(joint)
        .with_hardware(joint_id, *(use.carried(one.place) for use in fit.hardware))
        .with_findings(joint_id, *fit.findings)
    )


def _moved(place: Place, way: Axis, by: int) -> Place:
    at = list(place.at)
    at[abs(way) - 1] += by if way > 0 else -by
    return Place((at[0], at[1], at[2]), place.x, place.y, place.z)


def _meeting(built: Construction, joining: Joining, host: Draft, guest: Draft, way: Axis) -> tuple[Meeting, Place]:
    """Return the method's question and the joint frame's place in the cabinet frame."""
    d, t = abs(way), guest.thickness_axis
    a = 6 - d - t
    outer, inner = host.box, guest.box
    if way > 0:
        face, spare = outer.low(d), outer.low(d) - inner.high(d)
    else:
        face, spare = outer.high(d), inner.low(d) - outer.high(d)
    if not 0 <= spare < ALIKE + built.job.shop.same + _short(built, guest):
        raise AssertionError(f"{guest.key} stands {spare} nm off {host.key}")
    start, end = max(inner.low(a), outer.low(a)), min(inner.high(a), outer.high(a))
    at = [0, 0, 0]
    at[a - 1], at[t - 1], at[d - 1] = start, inner.low(t), face
    crossed = [(max(low, start) - start, min(high, end) - start) for low, high in joining.crossed
               if low < end and high > start]  # fmt: skip
    meeting = Meeting(
        kind=joining.kind,
        host=built.body(host),
        guest=built.body(guest),
        run=end - start,
        guest_thickness=inner.high(t) - inner.low(t),
        guest_length=inner.high(d) - inner.low(d),
        host_depth=outer.high(d) - outer.low(d),
        host_before=max(0, inner.low(t) - outer.low(t)),
        host_after=max(0, outer.high(t) - inner.high(t)),
        host_start=max(0, start - outer.low(a)),
        host_end=max(0, outer.high(a) - end),
        fit=built.job.shop.fit,
        side=SIDES[way],
        catalogue=built.registry.catalogue,
        far_side=host.role == "divider" or host.key.startswith("frame-mid-"),
        keep_clear=tuple(crossed),
        write=built.write,
        spare=spare,
        inset_field=joining.inset_field,
    )
    return meeting, Place((at[0], at[1], at[2]), _positive(a), _positive(t), way)


def _short(built: Construction, guest: Draft) -> int:
    """Return how much shorter or narrower than planned a guest came out, at most."""
    out = built.cabinet.built.get(guest.key)
    return 0 if out is None else max(0, -out.length, -out.width)


def _positive(axis: int) -> Axis:
    return 1 if axis == 1 else 2 if axis == 2 else 3


def slack_terms(slack: int) -> tuple[Term, ...]:
    """Return the term for how much smaller a part is made than its room, so that it is like others."""
    return (Term("made alike with others, kept as clearance", -slack),) if slack else ()


def moved_terms(moved: int) -> tuple[Term, ...]:
    """Return the term for what a room gains as a part beside it is set like others that stand nearly there."""
    return (Term("a part beside it set like others nearly there", moved),) if moved else ()
