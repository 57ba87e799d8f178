"""The mounting: asking the method for its parts and putting them in place."""

from collections.abc import Sequence
from types import MappingProxyType

from casewright.api.engine.construction.answers import validate_mount
from casewright.api.engine.construction.assemblies import Standing, add_assembly
from casewright.api.engine.construction.case import BACK, BOTTOM, LEFT, RIGHT, TOP, Shell, keys_at, top_box
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.inside import Leaf
from casewright.api.engine.construction.pins import clear_rooms
from casewright.sdk.geometry import Box, Place
from casewright.sdk.methods import MountDesign, MountRequest


def add_mounting(built: Construction, shell: Shell, leaves: Sequence[Leaf]) -> tuple[Construction, MountDesign | None]:
    """Add the cabinet's mounting, if it has one, and return it as its method made it."""
    mounting = built.cabinet.mounting
    if mounting is None:
        return built, None
    choice = mounting.choice
    method, request, options = (
        built.registry.mountings[choice.method],
        _request(built, shell, leaves),
        MappingProxyType(choice.options),
    )
    design = built.context.call("mountings", choice.method, choice.pointer, lambda: method.build(request, options))
    validate_mount(built, choice.method, design, request.outside)
    built = add_assembly(built, design.assembly, Standing(Place((0, 0, 0), 1, 2, 3), "mounting"))
    for key, feature in design.features:
        built = built.with_cuts(key, feature)
    return built, design


def _request(built: Construction, shell: Shell, leaves: Sequence[Leaf]) -> MountRequest:
    room, job = shell.room, built.job
    back = built.drafts.get(BACK)
    behind = back.box.y1 if back else shell.inner_back
    return MountRequest(
        outside=Box(0, 0, shell.foot, shell.width, shell.depth, shell.height),
        inside=Box(room.x0, shell.front, room.z0, room.x1, shell.inner_back, room.z1),
        behind=Box(room.x0, min(behind, shell.depth), room.z0, room.x1, shell.depth, room.z1),
        top=top_box(built),
        bottom=built.drafts[BOTTOM].box,
        back=back.box if back else None,
        back_material=back.material if back else None,
        materials=MappingProxyType(dict(job.materials)),
        catalogue=built.registry.catalogue,
        fit=job.shop.fit,
        wall=job.wall,
        wall_allowance=job.shop.wall_allowance,
        case_material=built.material(built.cabinet.case.material),
        under_top=tuple([_room(built, shell, leaf, -1) for leaf in leaves if leaf.region.roof == TOP]),
        over_bottom=tuple([_room(built, shell, leaf, 0) for leaf in leaves if leaf.region.floor == BOTTOM]),
        top_key=keys_at(built, TOP)[-1],
        bottom_key=BOTTOM,
        back_key=BACK,
        left_key=LEFT,
        right_key=RIGHT,
        write=built.write,
    )


def _room(built: Construction, shell: Shell, leaf: Leaf, which: int) -> Box:
    """Return the leaf's clear room under the top (-1) or over the bottom (0)."""
    low, high = clear_rooms(built, leaf)[which]
    region = leaf.region
    return Box(region.x0, shell.front, low, region.x0 + region.width, shell.inner_back, high)
