"""The mounting: asking the method for its parts and putting them in place."""

from types import MappingProxyType

from casewright.api.engine.construction.case import BACK, BOTTOM, TOP, Shell, top_box
from casewright.api.engine.construction.draft import Work, ask
from casewright.api.engine.construction.faults import look_over_mount
from casewright.api.engine.construction.fronts import add_joint, add_spec
from casewright.api.engine.construction.inside import Leaf
from casewright.api.engine.construction.pins import clear_rooms
from casewright.sdk.geometry import Box, Place
from casewright.sdk.methods import Hanging, MountDesign, MountRequest
from casewright.sdk.model import Mounted
from casewright.sdk.writer import writer


def add_mounting(work: Work, shell: Shell, leaves: list[Leaf]) -> Hanging | None:
    """Add the cabinet's mounting, if it has one, and return what hanging turns on."""
    mounting = work.cabinet.mounting
    if mounting is None:
        return None
    method = work.registry.mountings[mounting.choice.method]
    request = _request(work, shell, leaves)
    choice = mounting.choice
    design: MountDesign = ask(
        work,
        "mountings",
        choice.method,
        choice.pointer,
        lambda: method.build(request, MappingProxyType(choice.options)),
    )
    look_over_mount(work, choice.method, design)
    place = Place((0, 0, 0), 1, 2, 3)
    for spec in design.assembly.parts:
        add_spec(work, spec, place, "mounting", "", "")
    for joint in design.assembly.joints:
        add_joint(work, joint, place, "")
    for key, feature in design.features:
        work.drafts[key].features.append(feature)
    work.use(design.assembly.hardware, f"{work.id}/mounting")
    for finding in design.assembly.findings:
        work.find(f"{work.id}/mounting", finding)
    hanging = design.hanging
    work.mounted.append(Mounted(work.id, choice.method, hanging.lift, hanging.lengths, design.cautions))
    return hanging


def _request(work: Work, shell: Shell, leaves: list[Leaf]) -> MountRequest:
    room = shell.room
    back = work.drafts.get(BACK)
    behind = back.box.y1 if back else shell.inner_back
    case = work.cabinet.case
    return MountRequest(
        outside=Box(0, 0, shell.foot, shell.width, shell.depth, shell.height),
        inside=Box(room.x0, shell.front, room.z0, room.x1, shell.inner_back, room.z1),
        behind=Box(room.x0, min(behind, shell.depth), room.z0, room.x1, shell.depth, room.z1),
        top=top_box(work),
        bottom=work.drafts[BOTTOM].box,
        back=back.box if back else None,
        back_material=back.material if back else None,
        materials=MappingProxyType(dict(work.job.materials)),
        catalogue=work.registry.catalogue,
        fit=work.job.shop.fit,
        wall=work.job.wall,
        wall_allowance=work.job.shop.wall_allowance,
        case_material=work.material(case.material),
        under_top=tuple([_room(work, shell, leaf, -1) for leaf in leaves if leaf.region.roof == TOP]),
        over_bottom=tuple([_room(work, shell, leaf, 0) for leaf in leaves if leaf.region.floor == BOTTOM]),
        write=writer(work.job.units),
    )


def _room(work: Work, shell: Shell, leaf: Leaf, which: int) -> Box:
    """Return the leaf's clear room under the top (-1) or over the bottom (0)."""
    low, high = clear_rooms(work, leaf)[which]
    region = leaf.region
    return Box(region.x0, shell.front, low, region.x0 + region.width, shell.inner_back, high)
