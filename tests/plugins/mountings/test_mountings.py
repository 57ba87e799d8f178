"""Ways to hang a cabinet: geometry against the trade facts, and both cleats hooked together as solids.

Trade facts (common practice, no source): a cleat is one strip ripped at 45 degrees; a back set in by one cleat
thickness lets the cabinet meet the wall; a strip on top takes the bolt that stops the cabinet lifting off.
"""

from dataclasses import replace
from itertools import combinations
from typing import Any

import pytest
from casewright.api.engine.solid.solids import Solid, common_volume, share_when_moved
from casewright.sdk.geometry import Box
from casewright.sdk.loader import load
from casewright.sdk.methods import CannotError, MountDesign, MountRequest
from casewright.sdk.model import Material, PartSpec, total
from casewright.sdk.units import INCH, MM, inches
from hypothesis import given, seed, settings
from hypothesis import strategies as st
from solids import exact

REGISTRY = load(discover="built-in")
CLEAT, STRIP = REGISTRY.mountings["bevel-cleat"], REGISTRY.mountings["screw-strip"]


def request(
    *,
    inset: int = inches("3/4"),
    thickness: int = inches("3/4"),
    back: int | None = inches("3/4"),
    top_inset: int = inches("3/4"),
    allowance: int = 0,
) -> MountRequest:
    """Return a cabinet 28 × 33 × 11 in whose back stands `inset` in from the rear."""
    w, d, h, t = inches(28), inches(11), inches(33), inches("3/4")
    case = Material("case", "sheet", "birch-plywood", thickness)
    y1 = d - inset
    y0 = y1 - (back or 0)
    top = Box(t, 0, h - top_inset - t, w - t, d, h - top_inset)
    bottom = Box(t, 0, top_inset, w - t, d, top_inset + t)
    inside = Box(t, 0, bottom.z1, w - t, y0, top.z0)
    return MountRequest(
        outside=Box(0, 0, 0, w, d, h),
        inside=inside,
        behind=Box(t, y1, bottom.z1, w - t, d, top.z0),
        top=top,
        bottom=bottom,
        back=None if back is None else Box(t, y0, bottom.z1, w - t, y1, top.z0),
        back_material=case,
        materials={"case": case, "thin": Material("thin", "sheet", "birch-plywood", inches("3/8"))},
        catalogue=REGISTRY.catalogue,
        fit=0,
        wall=None,
        wall_allowance=allowance,
        case_material=case,
        under_top=(inside,),
        over_bottom=(inside,),
    )


def part(design: MountDesign, key: str) -> PartSpec:
    return next(p for p in design.assembly.parts if p.key == key)


def keys(design: MountDesign) -> set[str]:
    return {p.key for p in design.assembly.parts}


def codes(design: MountDesign) -> dict[str, Any]:
    return {f.code: f.value for f in design.assembly.findings}


def holds(question: MountRequest, design: MountDesign) -> None:
    """Nothing overlaps the case or each other; the cabinet cleat bears on the wall cleat along the bevel."""
    solids = {p.key: exact(p) for p in design.assembly.parts}
    boards = {"top": question.top, "bottom": question.bottom, "back": question.back}
    case = {key: Solid(key, (box,), (), (), ()) for key, box in boards.items() if box is not None}
    for a, b in [*combinations(solids.values(), 2), *((s, c) for s in solids.values() for c in case.values())]:
        assert common_volume(a, b) == 0, (a.id, b.id)
    for joint in design.assembly.joints:
        host, guest = {**case, **solids}[joint.host], solids[joint.guest]
        assert share_when_moved(host, guest, joint.press, joint.clearance + 1)
    for spec in design.assembly.parts:
        assert total(spec.why_length) == spec.box.size[abs(spec.length_axis) - 1]
        assert total(spec.why_width) == spec.box.size[abs(spec.width_axis) - 1]
        assert all(spec.box.holds(f.envelope()) for f in spec.features)


def test_cleat_at_45_degrees_drops_its_own_thickness() -> None:
    design = CLEAT.build(request(), {})
    lengths = dict(design.hanging.lengths)
    assert lengths["height of the bevel"] == inches("3/4")
    assert lengths["strip to rip both cleats from, saw cut not counted"] == inches("5 1/4")
    assert design.hanging.lift == inches("7/8")
    assert design.hanging.bevel_deg == 45.0


def test_back_inset_of_one_cleat_thickness_meets_the_wall() -> None:
    question = request()
    design = CLEAT.build(question, {})
    assert part(design, "cleat").box.y1 == part(design, "wall-cleat").box.y1 == question.outside.y1
    assert dict(design.hanging.lengths)["cabinet stands off the wall"] == 0
    assert "spacer" not in keys(design)
    assert design.hanging.bearing_z == question.outside.z0


def test_longer_faces() -> None:
    """The cabinet cleat's longer face is toward the wall, the wall cleat's toward the cabinet."""
    design = CLEAT.build(request(), {})
    upper, lower = exact(part(design, "cleat")), exact(part(design, "wall-cleat"))
    box, under = part(design, "cleat").box, part(design, "wall-cleat").box
    sliver = 10_000
    at_wall = Solid("w", (Box(box.x0, box.y1 - sliver, box.z0, box.x1, box.y1, box.z0 + MM),), (), (), ())
    at_back = Solid("b", (Box(box.x0, box.y0, box.z0, box.x1, box.y0 + sliver, box.z0 + MM),), (), (), ())
    assert common_volume(upper, at_wall) > 0
    assert common_volume(upper, at_back) == 0
    tip = Solid("t", (Box(under.x0, under.y0, under.z1 - MM, under.x1, under.y0 + sliver, under.z1),), (), (), ())
    assert common_volume(lower, tip) > 0


def test_lifting_by_the_bevel_unhooks_and_less_does_not() -> None:
    design = CLEAT.build(request(), {})
    cleat, wall = part(design, "cleat"), part(design, "wall-cleat")
    drop = dict(design.hanging.lengths)["height of the bevel"]
    out = -(wall.box.y1 - wall.box.y0)

    def clears(rise: int) -> bool:
        up = exact(cleat)
        lifted = Solid(
            up.id, tuple(b.moved(dz=rise) for b in up.wood), (), tuple(w.moved(dz=rise) for w in up.wedges), ()
        )
        return all(not share_when_moved(exact(wall), lifted, 2, out * i // 40) for i in range(1, 41))

    assert clears(drop)
    assert not clears(drop - MM)


def test_flush_back_stands_off_with_a_spacer() -> None:
    question = request(inset=0)
    design = CLEAT.build(question, {})
    assert dict(design.hanging.lengths)["cabinet stands off the wall"] == inches("3/4")
    assert part(design, "spacer").box.y0 == question.outside.y1
    assert design.hanging.bearing_z == part(design, "spacer").box.z0
    holds(question, design)


def test_deeper_room_says_what_to_pack() -> None:
    assert codes(CLEAT.build(request(inset=inches("1")), {}))["pack-wall-cleat"] == inches("1/4")
    allowed = CLEAT.build(request(inset=inches("7/8"), allowance=inches("1/8")), {})
    assert "pack-wall-cleat" not in codes(allowed)


def test_anti_lift_fastening() -> None:
    with_strip = CLEAT.build(request(), {})
    strip = part(with_strip, "top-strip").box
    assert strip.z0 == request().top.z1
    assert strip.z1 <= request().outside.z1
    # 1 1/2 in of strip, 1/2 in of wallboard and an inch of stud: 3 in at least (common practice, no source).
    assert REGISTRY.catalogue.lag(with_strip.hanging.anti_lift).length >= inches(3)
    without = CLEAT.build(request(top_inset=inches("1/2")), {})
    assert "top-strip" not in keys(without)
    assert any("against lifting" in use.where for use in without.assembly.hardware)
    with pytest.raises(CannotError):
        CLEAT.build(request(top_inset=inches("1/2")), {"anti_lift": "top-strip"})
    unguarded = CLEAT.build(request(), {"anti_lift": "none"})
    assert not unguarded.hanging.anti_lift
    assert "top-strip" not in keys(unguarded)
    assert not any("against lifting" in use.where for use in unguarded.assembly.hardware)


def test_no_strip_on_a_top_that_ends_before_it() -> None:
    # The top ends 3/4 in before the rear, where a back is laid on, and the case stands 3/4 in off the wall: a strip
    # 1 1/2 in wide would just touch its rear edge. Cautious reading, no source: half of its width lies on the top.
    question = request(inset=0)
    question = replace(question, top=question.top._replace(y1=question.top.y1 - inches("3/4")))
    assert "top-strip" not in keys(CLEAT.build(question, {}))
    with pytest.raises(CannotError, match="half its width"):
        CLEAT.build(question, {"anti_lift": "top-strip"})


def test_screws_do_not_come_through() -> None:
    question = request()
    design = CLEAT.build(question, {})
    inside = [use for use in design.assembly.hardware if use.item.startswith("screw-") and use.at]
    assert inside
    for use in inside:
        # through 3/4 in of back into 3/4 in of cleat: under 1 1/2 in.
        assert inches("3/4") < REGISTRY.catalogue.screw(use.item).length < inches("1 1/2")


def test_anchor_strip_of_the_woodwork_standard() -> None:
    # AWS 1st ed. 2009 p. 281 (document read): at least 1/2 × 2 1/2 in; a back of 1/2 in needs none at the bottom.
    assert "low-hanging-strip" not in codes(STRIP.build(request(inset=0), {"height": inches("2 1/2")}))
    low = STRIP.build(request(inset=0), {"height": inches("2 7/16")})
    assert "low-hanging-strip" in codes(low)
    assert any("at least 2 1/2 in" in one.message or "at least 63.5 mm" in one.message for one in low.assembly.findings)
    assert "thin-hanging-strip" in codes(STRIP.build(request(inset=0), {"material": "thin"}))
    assert keys(STRIP.build(request(inset=0, back=inches("1/2")), {})) == {"strip-top"}
    assert keys(STRIP.build(request(inset=0, back=inches("1/4")), {})) == {"strip-top", "strip-bottom"}


def test_screw_strip_lies_under_the_top_against_the_back() -> None:
    question = request(inset=0)
    design = STRIP.build(question, {})
    box = part(design, "strip-top").box
    assert box.z1 == question.top.z0
    assert question.back is not None
    assert box.y1 == question.back.y0
    assert design.hanging.bevel_deg is None
    assert design.hanging.screw_z == box.z1 - inches("1 1/2")
    holds(question, design)


def test_refusals_name_what_would_do() -> None:
    with pytest.raises(CannotError) as no_back:
        CLEAT.build(request(back=None), {})
    assert "screw-strip" in no_back.value.fix
    with pytest.raises(CannotError) as unknown:
        CLEAT.build(request(), {"material": "oak"})
    assert unknown.value.field == "material"
    with pytest.raises(CannotError) as screw:
        CLEAT.build(request(), {"fastener": "10x3"})
    assert screw.value.fix.endswith("or leave it out: a No. 10 screw that reaches is then chosen.")
    with pytest.raises(CannotError) as near:
        CLEAT.build(request(), {"fastener": "screw-10-3s"})
    assert "such as screw-10-3, or" in near.value.fix
    with pytest.raises(CannotError) as high:
        CLEAT.build(request(), {"height": 18 * INCH})
    assert high.value.field == "height"


def test_every_mounting_carries_cautions() -> None:
    for method in (CLEAT, STRIP):
        text = " ".join(method.build(request(), {}).cautions)
        assert "As many people lift as the cabinet's weight asks for" in text
        assert "code" in text
        assert "licensed" in text


@seed(20261125)
@settings(max_examples=60, database=None)
@given(
    inset=st.integers(0, 40 * MM),
    thickness=st.integers(12 * MM, 25 * MM),
    top_inset=st.integers(0, 40 * MM),
    bevel=st.floats(30, 55),
    play=st.integers(0, 30 * MM),
)
def test_any_bevel_cleat_holds(inset: int, thickness: int, top_inset: int, bevel: float, play: int) -> None:
    question = request(inset=inset, thickness=thickness, top_inset=top_inset)
    holds(question, CLEAT.build(question, {"bevel_deg": bevel, "side_play": play}))
