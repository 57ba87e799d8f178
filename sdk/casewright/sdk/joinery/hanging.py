"""What mountings share: the strip's material, screws through the back, wall screws, the anti-lift strip.

Cabinet frame: x right, y back, z up; lengths in whole nm. No capacities here: `sdk.engineering` has them.
"""

from casewright.sdk.fields import Count, OptionSchema, Text
from casewright.sdk.findings import Finding
from casewright.sdk.geometry import Box
from casewright.sdk.joinery.checks import Bound, check_least
from casewright.sdk.joinery.layout import Spacing, area_mm2, row
from casewright.sdk.joinery.picks import screw_within
from casewright.sdk.materials import Lag, Screw
from casewright.sdk.methods import CannotError, MountRequest
from casewright.sdk.model.choices import Material, Options
from casewright.sdk.model.parts import HardwareUse, JointSpec, PartSpec, Term
from casewright.sdk.spelling import nearest_words
from casewright.sdk.units import INCH, MM

SCREW_SPACING = 6 * INCH
USUAL_LINING = INCH // 2
PER_STUD = 2
INTO_STUD = 3 * INCH // 2
"""Length of a wall screw wanted in the stud (common practice)."""

STRIP_HEIGHT = 5 * INCH // 2
STRIP_THICKNESS = INCH // 2
ANCHOR = "aws-1-p281"
TOP_STRIP = 3 * INCH // 2
"""Width of the anti-lift strip, which its fastener passes through lengthwise to the wall."""

CAUTIONS: tuple[str, ...] = (
    "As many people lift as the cabinet's weight asks for, and they, a prop or a lift hold it until every wall "
    "fastener is in; take doors and loose shelves off first.",
    "Find studs by test holes and look for wires and pipes before driving a screw.",
    "Local building code and a licensed practitioner's word come before these figures; what hangs over people "
    "deserves a second opinion.",
)
"""Cautions every hung cabinet carries."""


class HangingOptions(OptionSchema):
    """Options that every mounting with wall fasteners shares."""

    fastener = Text(
        load_default=None,
        about="Catalogue id of the wood screw or lag screw into the studs. Default: the shortest No. 10 "
        "screw that reaches 1 1/2 in into a stud.",
    )
    per_stud = Count(least=1, most=6, load_default=PER_STUD, about="Fasteners in each stud.")


def board_of(request: MountRequest, options: Options) -> Material:
    """Return the material strips are made of: the option `material`, else the case's, else the back's."""
    key = options.get("material")
    if key is not None:
        known = {one.key: one for one in request.materials.values() if one.kind != "band"}
        if key not in known:
            words = nearest_words(key, sorted(known), 1) or sorted(known)
            fix = f"Use {' or '.join(words)}." if words else "Leave it out."
            raise CannotError("a sheet or board of the job", key, fix, "material")
        return known[key]
    material = request.case_material or request.back_material
    if material is None:
        raise CannotError("a material for the strips", "none", "Name one in the option material.", "material")
    return material


def cabinet_screws(request: MountRequest, x0: int, x1: int, z: int, strip: int) -> list[HardwareUse]:
    """Return screws from inside through the back into a strip `strip` nm thick behind it, at height z."""
    if request.back is None:
        return []
    back = request.back.y1 - request.back.y0
    screw = screw_within(request.catalogue, 8, back + strip - MM, least=back + MM)
    if screw is None:
        return []
    xs = row(x1 - x0, Spacing(3 * INCH // 2, SCREW_SPACING, 2 * INCH))
    at = tuple((x0 + x, request.back.y0, z) for x in xs)
    return [HardwareUse(screw.id, screw.title, at, 2, where="through the back into the strip")]


FIXED = "glued-and-screwed"
"""The method that a strip's own fixing to the case is listed by."""


def fixed_on(request: MountRequest, strip: PartSpec) -> JointSpec:
    """Return how a strip behind the back is fixed to it: glued over the face they share, and screwed."""
    assert request.back is not None
    faces = [(strip.box.low(axis), strip.box.high(axis)) for axis in (1, 3)]
    backs = [(request.back.low(axis), request.back.high(axis)) for axis in (1, 3)]
    sides = [max(0, min(a[1], b[1]) - max(a[0], b[0])) for a, b in zip(faces, backs, strict=True)]
    return JointSpec(FIXED, "strip", request.back_key, strip.key, -2, 0, 0, area_mm2((sides[0], sides[1])))


def laid_on_top(request: MountRequest, strip: PartSpec) -> JointSpec:
    """Return how a strip lies on the top: glued over the face they share."""
    box, top = strip.box, request.top
    sides = [min(box.high(axis), top.high(axis)) - max(box.low(axis), top.low(axis)) for axis in (1, 2)]
    area = area_mm2((max(0, sides[0]), max(0, sides[1])))
    return JointSpec("glued", "strip", request.top_key, strip.key, -3, 0, 0, area)


def wall_fastener(request: MountRequest, options: Options, packed: int) -> str:
    """Return the catalogue id of the wall fasteners through `packed` nm of wood and the lining; empty for none.

    The option `fastener` names one; without it, it is the shortest No. 10 screw that reaches far enough into a stud.
    How many there are and where they go hangs on the wall's studs: the plan lists them by cabinet and place.
    """
    lining = USUAL_LINING if request.wall is None else request.wall.lining
    fastener = _named(request, options) or _shortest(request, packed + lining + INTO_STUD)
    return "" if fastener is None else fastener.id


def _named(request: MountRequest, options: Options) -> Screw | Lag | None:
    key = options.get("fastener")
    if key is None:
        return None
    known: tuple[Screw | Lag, ...] = (*request.catalogue.screws, *request.catalogue.lags)
    for fastener in known:
        if fastener.id == key:
            return fastener
    near = nearest_words(key, [fastener.id for fastener in known], 1)
    such = f", such as {near[0]}" if near else ""
    fix = f"Use an id that /v1/materials lists{such}, or leave it out: a No. 10 screw that reaches is then chosen."
    raise CannotError("a wood screw or lag screw of the catalogue", key, fix, "fastener")


def _shortest(request: MountRequest, length: int) -> Screw | None:
    longer = [s for s in request.catalogue.screws if s.gauge == 10 and s.length >= length]
    return min(longer, key=lambda s: (s.length, s.id), default=None) or screw_within(request.catalogue, 10, length)


def through_screw(request: MountRequest, span: tuple[int, int], z: int, strip: int) -> tuple[HardwareUse, ...]:
    """Return two screws through the back into the wall cleat that stop the cabinet lifting off."""
    if request.back is None:
        return ()
    back = request.back.y1 - request.back.y0
    screw = screw_within(request.catalogue, 8, back + strip - MM, least=back + MM)
    if screw is None:
        return ()
    inset = min(2 * INCH, (span[1] - span[0]) // 4)
    where = "through the back into the wall cleat against lifting"
    points = tuple((x, request.back.y0, z) for x in (span[0] + inset, span[1] - inset))
    return (HardwareUse(screw.id, screw.title, points, 2, where=where),)


def anti_lift_strip(
    request: MountRequest, x0: int, x1: int, wall_face: int, material: Material
) -> tuple[PartSpec, str]:
    """Return a strip lying on the case's top, its rear edge at the wall, and the id of the lag screw through it."""
    z = request.top.z1
    box = Box(x0, wall_face - TOP_STRIP, z, x1, wall_face, z + material.thickness)
    part = PartSpec(
        key="top-strip",
        role="strip",
        name="anti-lift strip on the top",
        material=material.key,
        box=box,
        length_axis=1,
        width_axis=2,
        why_length=(Term("room between the sides", x1 - x0),),
        why_width=(Term("strip width", TOP_STRIP),),
    )
    lining = USUAL_LINING if request.wall is None else request.wall.lining
    length = TOP_STRIP + lining + INTO_STUD
    lags = [g for g in request.catalogue.lags if g.length >= length and g.washer <= material.thickness]
    lag = min(lags, key=lambda g: (g.diameter, g.length, g.id), default=None)
    return part, "" if lag is None else lag.id


def strip_findings(request: MountRequest, height: int, material: Material) -> tuple[Finding, ...]:
    """Check a hanging strip against the anchor strip of the woodwork standard, at least 1/2 in by 2 1/2 in."""
    return (
        *check_least(
            "low-hanging-strip",
            f"The hanging strip is {request.write.length(height)} high; "
            f"the woodwork standard's anchor strip is at least {request.write.cut(STRIP_HEIGHT)}.",
            height,
            Bound(STRIP_HEIGHT, source=ANCHOR),
        ),
        *check_least(
            "thin-hanging-strip",
            f"The hanging strip is {request.write.length(material.thickness)} thick; "
            f"the woodwork standard's anchor strip is at least {request.write.cut(STRIP_THICKNESS)}.",
            material.thickness,
            Bound(STRIP_THICKNESS, source=ANCHOR),
        ),
    )
