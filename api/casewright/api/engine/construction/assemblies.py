"""Putting what a door style or a mounting method makes in its place in the cabinet."""

from dataclasses import dataclass

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import SIDES, Draft
from casewright.sdk.geometry import Axis, Place
from casewright.sdk.model import Assembly, Joint, JointSpec, PartSpec


@dataclass(frozen=True, slots=True)
class Standing:
    """Where an assembly stands in the cabinet frame, and what its parts are grouped and called by.

    `prefix` begins the key of every part, `title` its name.
    """

    place: Place
    group: str
    prefix: str = ""
    title: str = ""


def add_assembly(built: Construction, assembly: Assembly, standing: Standing) -> Construction:
    """Add an assembly's parts, joints, hardware and findings."""
    subject = f"{built.id}/{standing.group}"
    built = built.with_parts(*(_draft(built, spec, standing) for spec in assembly.parts))
    return (
        built.with_joints(*(_joint(built, spec, standing) for spec in assembly.joints))
        .with_hardware(subject, *(use.carried(standing.place) for use in assembly.hardware))
        .with_findings(subject, *assembly.findings)
    )


def _draft(built: Construction, spec: PartSpec, standing: Standing) -> Draft:
    place = standing.place
    return Draft(
        key=f"{standing.prefix}{spec.key}",
        role=spec.role,
        name=standing.title.strip() if standing.title.startswith(f"{spec.name} ") else f"{standing.title}{spec.name}",
        material=built.material(spec.material),
        box=place.box(spec.box),
        length_axis=place.axis(spec.length_axis),
        width_axis=place.axis(spec.width_axis),
        why_length=spec.why_length,
        why_width=spec.why_width,
        group=standing.group,
        grain=spec.grain,
        features=tuple([feature.carried(place) for feature in spec.features]),
    )


def _joint(built: Construction, spec: JointSpec, standing: Standing) -> Joint:
    host, guest = f"{standing.prefix}{spec.host}", f"{standing.prefix}{spec.guest}"
    press = standing.place.axis(spec.press)
    short = _short(built, guest, press)
    return Joint(
        id=f"{built.id}/{guest}+{host}/{SIDES[spec.press]}",
        cabinet=built.id,
        method=spec.method,
        kind=spec.kind,
        host=f"{built.id}/{host}",
        guest=f"{built.id}/{guest}",
        press=press,
        seat=max(0, spec.seat - short),
        clearance=spec.clearance + short,
        glue_area_mm2=spec.glue_area_mm2,
        note=spec.note,
    )


def _short(built: Construction, guest: str, press: Axis) -> int:
    """Return how much a guest that came out short stands off where it is pressed."""
    out, draft = built.cabinet.built.get(guest), built.drafts[guest]
    return 0 if out is None or draft.features or press != draft.length_axis else max(0, -out.length)
