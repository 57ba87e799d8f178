"""Whether each cabinet stays on its wall: the hanging equations asked for every place it hangs at."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import orjson
from casewright.api.engine.construction.draft import Work
from casewright.api.engine.construction.inside import Leaf
from casewright.sdk.engineering import hanging, weights
from casewright.sdk.engineering.hanging_case import Anchor, HangingCase, HangingResult, Strip
from casewright.sdk.engineering.hanging_case import Wall as WallCase
from casewright.sdk.engineering.hanging_places import share_strip
from casewright.sdk.errors import pointer_to
from casewright.sdk.geometry import Box
from casewright.sdk.loader import Registry
from casewright.sdk.materials import Lag, Screw
from casewright.sdk.methods import Hanging
from casewright.sdk.model import Finding, Job, Mounted, Spot, Wall, Weight

NM_PER_MM = 1e6


@dataclass(frozen=True, slots=True)
class Held:
    """One cabinet at one place: its pointer in the job, the case asked and the answer."""

    cabinet: str
    pointer: str
    case: HangingCase
    result: HangingResult


def hold(work: Work, how: Hanging | None, weight: Weight, leaves: list[Leaf]) -> list[Held]:
    """Ask the hanging equations for every place the cabinet hangs at; findings become checks.

    A mounting whose place on the wall is not given is a `stop`: nothing can be said of studs.
    """
    mounting = work.cabinet.mounting
    if how is None or mounting is None:
        return []
    if how.wall_strip is None:
        work.find(
            f"{work.cabinet.pointer}/mounting",
            Finding(
                "strip-unknown",
                "stop",
                "the mounting names no part that its wall fasteners pass through; whether it holds is not judged",
                source="statics",
            ),
        )
        return []
    base = work.mounted.pop()
    spots = spots_of(work)
    found: list[Held] = []
    for number, spot in enumerate(spots):
        case = case_of(work, how, weight, leaves, spot)
        result = hanging.hang(case)
        pointer = place_of(work, number, spot)
        found.append(Held(work.id, pointer, case, result))
        for finding in result.findings:
            if finding.code == "anti-lift-missing" and how.guarded:
                continue
            work.find(
                pointer,
                Finding(
                    finding.code, finding.level, finding.message,
                    finding.value, finding.limit, finding.unit, finding.source,
                ),
            )  # fmt: skip
        cautions = tuple(dict.fromkeys((*base.cautions, *result.cautions)))
        work.mounted.append(
            Mounted(base.cabinet, base.method, base.lift, base.lengths, cautions, _document(pointer, case, result))
        )
    return found


def place_of(work: Work, number: int, spot: Spot | None) -> str:
    """Return the JSON Pointer of a place on the wall, or of the mounting where no place is given."""
    if spot is None:
        return work.cabinet.pointer + pointer_to("mounting")
    return pointer_to("wall", "cabinets_at", work.id, number)


def spots_of(work: Work) -> list[Spot | None]:
    """Return the cabinet's places on the wall; one `None` where the job gives none."""
    wall = work.job.wall
    spots = wall.cabinets_at.get(work.id, ()) if wall else ()
    if not spots and wall is not None and (wall.studs or wall.masonry):
        work.find(
            f"{work.cabinet.pointer}/mounting",
            Finding(
                "place-unknown",
                "stop",
                f"where {work.id} hangs is not given; add its places to wall.cabinets_at so that studs can be judged",
                source="statics",
            ),
        )
    return list(spots) or [None]


def case_of(work: Work, how: Hanging, weight: Weight, leaves: list[Leaf], spot: Spot | None) -> HangingCase:
    """Return the hanging equations' question for one cabinet at one place."""
    cabinet, mounting = work.cabinet, work.cabinet.mounting
    assert mounting is not None
    wall = work.job.wall if spot else None
    strips = [d for d in work.drafts.values() if how.wall_strip and d.key.startswith(how.wall_strip)]
    strip_box = _round([d.box for d in strips])
    stuff = work.stuff(strips[0].material)
    x = spot.x if spot else 0
    contents, assumed = _contents(work, leaves)
    room = _round([Box(leaf.region.x0, 0, leaf.region.z0, leaf.region.x1, 1, leaf.region.z1) for leaf in leaves])
    rear = max(d.box.y1 for d in work.drafts.values() if d.group == "case")
    wall_y = max(strip_box.y1, rear) if how.bevel_deg is not None else rear
    inside_y = work.drafts["back"].box.y0 / 2 if "back" in work.drafts else cabinet.depth / 2
    mass = weight.mass_kg + contents
    centre_x = (weight.mass_kg * weight.centre[0] + contents * (room.x0 + room.x1) / 2) / mass
    centre_y = (weight.mass_kg * weight.centre[1] + contents * inside_y) / mass
    bevel = how.bevel_deg is not None
    return HangingCase(
        mounting="bevel-cleat" if bevel else "screw-strip",
        cabinet_kg=weight.mass_kg,
        contents_kg=contents,
        left_mm=x / NM_PER_MM,
        width_mm=cabinet.width / NM_PER_MM,
        height_mm=cabinet.height / NM_PER_MM,
        depth_mm=cabinet.depth / NM_PER_MM,
        centre_x_mm=(x + centre_x) / NM_PER_MM,
        centre_out_mm=(wall_y - centre_y) / NM_PER_MM,
        strip=Strip(
            thickness_mm=(strip_box.y1 - strip_box.y0) / NM_PER_MM,
            width_mm=(strip_box.z1 - strip_box.z0) / NM_PER_MM,
            length_mm=(strip_box.x1 - strip_box.x0) / NM_PER_MM,
            left_mm=(x + strip_box.x0) / NM_PER_MM,
            low_mm=(strip_box.z0 - how.bearing_z) / NM_PER_MM,
            stuff=stuff,
        ),
        wall=_wall(work.registry, wall, how.packed if bevel else 0),
        fastener=_fastener(work.registry, how.fastener),
        per_stud=how.per_stud,
        bevel_deg=how.bevel_deg if how.bevel_deg is not None else 45.0,
        behind_strip_mm=0.0 if bevel else how.packed / NM_PER_MM,
        bottom_mm=(spot.z if spot else 0) / NM_PER_MM,
        anti_lift=_fastener(work.registry, how.anti_lift),
        anti_lift_side_mm=how.anti_lift_side / NM_PER_MM,
        anti_lift_gap_mm=wall.lining / NM_PER_MM if wall else None,
        contents_assumed=assumed,
    )


def _round(boxes: list[Box]) -> Box:
    out = boxes[0]
    for box in boxes[1:]:
        out = out.around(box)
    return out


def _contents(work: Work, leaves: list[Leaf]) -> tuple[float, bool]:
    """Return the contents' mass in kg and whether it had to be assumed."""
    mounting = work.cabinet.mounting
    assert mounting is not None
    if mounting.contents_kg is not None:
        return mounting.contents_kg, False
    shelves = [d for d in work.drafts.values() if d.role in ("shelf", "bottom")]
    assumed = sum(
        weights.assumed_contents_kg(
            d.box.size[0] / NM_PER_MM, d.box.size[1] / NM_PER_MM, 1, work.cabinet.loading.shelf_pa
        )
        for d in shelves
    )
    return assumed, True


def _wall(registry: Registry, wall: Wall | None, packed: int) -> WallCase:
    if wall is None or (wall.studs is None and wall.masonry is None):
        return WallCase(kind="unknown", ceiling_mm=wall.ceiling / NM_PER_MM if wall and wall.ceiling else None)
    ceiling = None if wall.ceiling is None else wall.ceiling / NM_PER_MM
    lining = (wall.lining + packed) / NM_PER_MM
    if wall.masonry is not None:
        anchor = Anchor(wall.masonry.tension_n, wall.masonry.shear_n, wall.masonry.approval)
        return WallCase(
            kind="masonry", lining_mm=lining, ceiling_mm=ceiling, anchor=anchor, anchors=wall.masonry.anchors
        )
    assert wall.studs is not None
    return WallCase(
        kind="studs",
        studs_at_mm=tuple(sorted(at / NM_PER_MM for at in wall.studs.at)),
        stud=registry.catalogue.stuff(wall.studs.stuff),
        stud_width_mm=wall.studs.width / NM_PER_MM,
        stud_depth_mm=wall.studs.depth / NM_PER_MM,
        lining_mm=lining,
        ceiling_mm=ceiling,
    )


def _fastener(registry: Registry, item: str) -> Screw | Lag | None:
    if not item:
        return None
    for screw in registry.catalogue.screws:
        if screw.id == item:
            return screw
    return next((lag for lag in registry.catalogue.lags if lag.id == item), None)


def _document(pointer: str, case: HangingCase, result: HangingResult) -> Mapping[str, Any]:
    """Return the answer as plain values; the case's own numbers stand beside it so that it can be followed."""
    answer = _plain(result)
    del answer["findings"], answer["cautions"]
    return {
        "place": pointer,
        "given": {
            "cabinet_kg": case.cabinet_kg,
            "contents_kg": case.contents_kg,
            "contents_assumed": case.contents_assumed,
            "centre_out_mm": case.centre_out_mm,
            "centre_x_mm": case.centre_x_mm,
            "cleat_low_mm": case.strip.low_mm,
            "cleat_left_mm": case.strip.left_mm,
            "cleat_length_mm": case.strip.length_mm,
            "cleat_thickness_mm": case.strip.thickness_mm,
            "lining_gap_mm": case.wall.lining_mm,
            "fastener": case.fastener.id if case.fastener else None,
            "duration_factor": case.duration,
            "wall": case.wall.kind,
        },
        **answer,
    }


def _plain(record: Any) -> dict[str, Any]:
    """Return an answer of the equations as JSON values, records as objects."""
    plain: dict[str, Any] = orjson.loads(orjson.dumps(record))
    return plain


def shared_cleats(job: Job, found: list[Held]) -> list[dict[str, Any]]:
    """Say, for cabinets that hang side by side in one row, whether one unbroken wall cleat may serve both."""
    studded = [h for h in found if h.case.wall.kind == "studs"]
    ordered = sorted(studded, key=lambda h: (h.case.bottom_mm, h.case.left_mm))
    reach = job.shop.wall_allowance / NM_PER_MM + 50.0
    answers: list[dict[str, Any]] = []
    for first, second in pairwise(ordered):
        a, b = first.case, second.case
        apart = b.left_mm - (a.left_mm + a.width_mm)
        if {a.mounting, b.mounting} != {"bevel-cleat"} or a.bottom_mm != b.bottom_mm or apart > reach:
            continue
        held = first.result.capacity
        if held is None:
            continue
        answer = share_strip((a, b), held)
        answers.append({"places": [first.pointer, second.pointer], **_plain(answer)})
    return answers
