"""Mountings and doors that lie: a sound built-in's answer with one thing in it untrue is refused by name.

Figures: the cabinet is 900 mm high and 320 mm deep; 18 mm cleats 76.2 mm high (3 in) at 45 degrees drop 18 mm.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from casewright.api import plan
from casewright.sdk.errors import PluginFaultError
from casewright.sdk.geometry import Box
from casewright.sdk.loader import Registry, load
from casewright.sdk.methods import DoorDesign, DoorStyle, MountDesign, MountingMethod
from casewright.sdk.model import groove
from casewright.sdk.units import mm

BUILT_IN = load(discover="built-in")


def job(**cabinet: Any) -> dict[str, Any]:
    ply = {"kind": "sheet", "stuff": "birch-plywood"}
    return {
        "units": "mm",
        "materials": {
            "ply": {**ply, "thickness": 18},
            "thin": {**ply, "thickness": 6},
            "oak": {"kind": "board", "stuff": "red-oak", "thickness": 20},
        },
        "cabinets": [
            {
                "id": "tools",
                "width": 600,
                "height": 900,
                "depth": 320,
                "case": {"material": "ply", "back": {"material": "thin", "inset": 20}},
                **cabinet,
            }
        ],
    }


def lying(family: str, method: str, lie: Callable[[Any], Any]) -> Registry:
    """Return the built-ins with one method whose answer is changed by `lie`."""
    sound = getattr(BUILT_IN, family)[method]

    def build(self: Any, request: Any, options: Any) -> Any:
        return lie(sound.build(request, options))

    base: type = MountingMethod if family == "mountings" else DoorStyle
    body = {"id": method, "title": "Lying", "options": sound.options, "build": build}
    made = type("Lying", (base,), body)()
    return replace(BUILT_IN, **{family: {**getattr(BUILT_IN, family), method: made}})


def fault(registry: Registry, document: dict[str, Any]) -> str:
    with pytest.raises(PluginFaultError) as caught:
        plan(document, registry)
    assert caught.value.at.startswith("test_hanging_rules.py:")
    return caught.value.fault


def hanging(**changes: Any) -> Callable[[MountDesign], MountDesign]:
    return lambda design: replace(design, hanging=replace(design.hanging, **changes))


def cut(key: str, add: Box) -> Callable[[MountDesign], MountDesign]:
    return lambda design: replace(design, features=((key, groove("out", add, -3, 1)),))


def bevels_gone(design: MountDesign) -> MountDesign:
    parts = tuple(replace(part, features=()) for part in design.assembly.parts)
    return replace(design, assembly=replace(design.assembly, parts=parts))


def joints_gone(design: MountDesign) -> MountDesign:
    return replace(design, assembly=replace(design.assembly, joints=design.assembly.joints[1:]))


def unheld(design: MountDesign) -> MountDesign:
    return replace(design, assembly=replace(design.assembly, joints=()))


@pytest.mark.parametrize("method", ["bevel-cleat", "screw-strip"])
def test_sound_mountings_are_believed(method: str) -> None:
    assert plan(job(mounting={"method": method}), BUILT_IN)["parts"]


@pytest.mark.parametrize(
    ("lie", "words"),
    [
        (hanging(bevel_deg=30.0), "bevel_deg is 30, but 'wall-cleat' is cut at 45.00 degrees"),
        (hanging(bevel_deg=120.0), "bevel_deg is 120.0, which is no angle between 0 and 90"),
        (hanging(bevel_deg="45"), "bevel_deg is '45', which is no angle"),
        (bevels_gone, "bevel_deg is 45, but no bevel is cut along 'wall-cleat'"),
        (hanging(lift=mm(10)), "lift is 10 mm, but the hook is 18 mm deep"),
        (hanging(lift=-1), "lift is -1 nm, below zero"),
        (hanging(hook_z=mm(2)), "hook_z is 2 mm, but the wall strip's wood is from"),
        (hanging(screw_z=mm(900)), "screw_z is 900 mm, but the wall strip's wood is from"),
        (hanging(bearing_z=mm(5)), "bearing_z is 5 mm; case and mounting begin at"),
        (hanging(packed=mm(7)), "packed is 7 mm, but the parts leave"),
        (hanging(packed=-mm(7)), "packed is -7 mm, below zero"),
        (hanging(fastener="nail-gun"), "fastener is 'nail-gun', which is no screw or lag screw of the catalogue"),
        (hanging(anti_lift="string"), "anti_lift is 'string', which is no screw or lag screw"),
        (hanging(anti_lift="lag-1-4-3", anti_lift_strip="ghost"), "anti_lift_strip is 'ghost', which is no part"),
        (hanging(per_stud=0), "per_stud is 0, which is no number of fasteners"),
        (hanging(wall_strip="ghost"), "the wall strip 'ghost' is no part of the mounting"),
        (hanging(wall_strip=None), "bevel_deg is given, but no wall_strip"),
        (hanging(lengths=(("play", 1.5),)), "lengths holds ('play', 1.5)"),
        (joints_gone, "is in no joint: nothing says what holds it"),
        (unheld, "is in no joint: nothing says what holds it"),
        (cut("top", Box(0, 0, 0, 1, 1, 1)), "reaches outside part 'top'"),
    ],
)
def test_each_lie_of_a_bevel_cleat_is_refused(lie: Callable[[Any], Any], words: str) -> None:
    items = [lag.id for lag in BUILT_IN.catalogue.lags]
    assert "string" not in items
    assert words in fault(lying("mountings", "bevel-cleat", lie), job(mounting={"method": "bevel-cleat"}))


@pytest.mark.parametrize(
    ("lie", "words"),
    [
        (hanging(screw_z=mm(450)), "screw_z is 450 mm, but the wall strip's wood is from"),
        (hanging(packed=0), "packed is 0 mm, but the parts leave"),
        (hanging(bearing_z=mm(880)), "bearing_z is 880 mm"),
        (hanging(bevel_deg=45.0), "bevel_deg is 45, but no bevel is cut along 'strip-top'"),
    ],
)
def test_each_lie_of_a_screw_strip_is_refused(lie: Callable[[Any], Any], words: str) -> None:
    assert words in fault(lying("mountings", "screw-strip", lie), job(mounting={"method": "screw-strip"}))


def shorter(design: DoorDesign) -> DoorDesign:
    (slab,) = design.assembly.parts
    box, (first, *rest) = slab.box, slab.why_length
    smaller = replace(
        slab,
        box=Box(box.x0, box.y0, box.z0, box.x1, box.y1, box.z1 - mm(3)),
        why_length=(replace(first, nm=first.nm - mm(3)), *rest),
    )
    return replace(design, assembly=replace(design.assembly, parts=(smaller,)))


def too_much_land(design: DoorDesign) -> DoorDesign:
    return replace(design, left=replace(design.left, clear=design.left.clear + mm(3)))


def dug(design: DoorDesign) -> DoorDesign:
    (slab,) = design.assembly.parts
    whole = slab.box
    deep = groove("out", Box(0, 0, 0, mm(5), whole.y1 + 1, mm(5)), -3, 1)
    return replace(design, assembly=replace(design.assembly, parts=(replace(slab, features=(deep,)),)))


@pytest.mark.parametrize(
    ("style", "lie", "words"),
    [
        ("slab", shorter, "the door comes out"),
        ("slab", too_much_land, "clear of the left hinge land is 592.4 mm, but 'slab' is 589.4 mm wide there"),
        ("slab", dug, "reaches outside part"),
        ("mortise-and-tenon", unheld, "is in no joint: nothing says what holds it"),
    ],
)
def test_each_lie_of_a_door_is_refused(style: str, lie: Callable[[Any], Any], words: str) -> None:
    material = {"material": "ply"} if style == "slab" else {"material": "oak", "panel": "thin"}
    document = job(doors={"style": style, **material}, space={"front": "door"})
    assert words in fault(lying("doors", style, lie), document)
