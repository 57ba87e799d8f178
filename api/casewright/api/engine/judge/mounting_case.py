"""The case of one cabinet on its wall, collected from the job and the parts for the equations of hanging."""

import math
from collections.abc import Sequence
from itertools import pairwise

from casewright.api.engine.construction.case import LEFT, RIGHT
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.construction.inside import Leaf
from casewright.sdk.engineering import adjust, weights
from casewright.sdk.engineering.hanging_case import Anchor, HangingCase, Strip
from casewright.sdk.engineering.hanging_case import Wall as WallCase
from casewright.sdk.engineering.units import NM_PER_MM, mm
from casewright.sdk.errors import pointer_to
from casewright.sdk.geometry import Box
from casewright.sdk.loader import Registry
from casewright.sdk.materials import Lag, Screw
from casewright.sdk.methods import Hanging
from casewright.sdk.model import Check, Finding, Spot, Wall, Weight

NO_PLACE: tuple[Spot | None, ...] = (None,)


def spots_of(built: Construction) -> tuple[Spot | None, ...]:
    """Return the cabinet's places on the wall; one `None` where the job gives none."""
    wall = built.job.wall
    spots: tuple[Spot | None, ...] = tuple(wall.cabinets_at.get(built.id, ())) if wall else ()
    return spots or NO_PLACE


def place_checks(built: Construction) -> tuple[Check, ...]:
    """Return the stop for a cabinet without a place on a wall whose studs or masonry the job gives."""
    wall = built.job.wall
    if wall is None or not (wall.studs or wall.masonry) or spots_of(built) != NO_PLACE:
        return ()
    message = f"where {built.id} hangs is not given; add its places to wall.cabinets_at so that studs can be judged"
    return (Check(mounting_pointer(built), Finding("place-unknown", "stop", message, source="statics")),)


def mounting_pointer(built: Construction) -> str:
    """Return the JSON Pointer of the cabinet's mounting."""
    return built.cabinet.pointer + pointer_to("mounting")


def spot_pointer(built: Construction, spot: Spot | None) -> str:
    """Return the JSON Pointer of a place on the wall, or of the mounting where no place is given."""
    return mounting_pointer(built) if spot is None else spot.pointer


def strips_of(built: Construction, fixing: Hanging) -> list[Draft]:
    """Return the parts that the wall fasteners pass through, left to right."""
    named = [d for d in built.drafts.values() if fixing.wall_strip and d.key.startswith(fixing.wall_strip)]
    return sorted(named, key=lambda draft: draft.box.x0)


def _before(built: Construction, fixing: Hanging, strips: Sequence[Draft]) -> int:
    """Return how thick the wood is, in nm, that fasteners go through before they reach screwed strips: a back, say."""
    strip = Box.union([draft.box for draft in strips])
    front = strip.y0
    others = sorted((d.box for d in built.drafts.values() if d not in strips), key=lambda box: -box.y1)
    for box in others:  # the nearest first
        if box.y1 == front and box.x0 < strip.x1 and strip.x0 < box.x1 and box.z0 < fixing.screw_z < box.z1:
            front = box.y0
    return strip.y0 - front


def mounting_case(
    built: Construction, fixing: Hanging, weight: Weight, leaves: Sequence[Leaf], spot: Spot | None
) -> HangingCase:
    """Return one cabinet at one place as the equations take it."""
    cabinet = built.cabinet
    wall = built.job.wall if spot else None
    x = spot.x if spot else 0
    hooked = fixing.bevel_deg is not None
    strips = strips_of(built, fixing)
    strip = Box.union([d.box for d in strips])
    contents_kg, assumed = _contents_kg(built)
    mounting = built.cabinet.mounting
    placed = mounting is not None and None not in (mounting.contents_from_left, mounting.contents_from_front)
    centre_x, centre_y = _centre(built, weight, leaves, contents_kg)
    rear = max(d.box.y1 for d in built.drafts.values() if d.group == "case")
    wall_y = max(strip.y1, rear) if hooked else rear
    return HangingCase(
        mounting="bevel-cleat" if hooked else "screw-strip",
        cabinet_kg=weight.mass_kg,
        contents_kg=contents_kg,
        left_mm=mm(x),
        width_mm=mm(cabinet.width),
        height_mm=mm(cabinet.height),
        depth_mm=mm(cabinet.depth),
        centre_x_mm=(x + centre_x) / NM_PER_MM,
        centre_out_mm=(wall_y - centre_y) / NM_PER_MM,
        strip=Strip(
            thickness_mm=mm(strip.y1 - strip.y0),
            width_mm=mm(strip.z1 - strip.z0),
            length_mm=mm(strip.x1 - strip.x0),
            left_mm=mm(x + strip.x0),
            low_mm=mm(strip.z0 - fixing.bearing_z),
            stuff=built.stuff(strips[0].material),
            breaks_mm=tuple([(mm(x + a.box.x1), mm(x + b.box.x0)) for a, b in pairwise(strips)]),
        ),
        wall=_wall(built.registry, wall, fixing.packed if hooked else 0),
        fastener=None if wall and wall.masonry else _fastener(built.registry, fixing.fastener),
        per_stud=fixing.per_stud,
        bevel_deg=fixing.bevel_deg if fixing.bevel_deg is not None else 45.0,
        behind_strip_mm=0.0 if hooked else mm(fixing.packed),
        before_strip_mm=0.0 if hooked else mm(_before(built, fixing, strips)),
        bottom_mm=mm(spot.z if spot else 0),
        bearing_mm=mm(fixing.bearing_z),
        anti_lift=_fastener(built.registry, fixing.anti_lift),
        anti_lift_side_mm=mm(fixing.anti_lift_side),
        anti_lift_gap_mm=mm(wall.lining) if wall else None,
        duration=adjust.DURATION[mounting.contents_duration] if mounting else adjust.DURATION["permanent"],
        contents_assumed_pa=built.cabinet.loading.shelf_pa if assumed else None,
        contents_placed=placed,
        reach_mm=_reach(built, strip, rear, spot) if hooked and spot else None,
    )


def _reach(built: Construction, strip: Box, rear: int, spot: Spot) -> tuple[float, float]:
    """Return where along the wall a longer cleat may reach: between the sides, or behind them within the cabinet.

    The wall's ends and what the job says stands on it at the cleat's height bound it too.
    """
    sides = built.drafts[LEFT].box, built.drafts[RIGHT].box
    behind = strip.y0 >= rear
    low, high = (sides[0].x0, sides[1].x1) if behind else (sides[0].x1, sides[1].x0)
    wall = built.job.wall
    lows, highs = [float(spot.x + low), 0.0], [float(spot.x + high)]
    if wall is not None:
        highs.append(math.inf if wall.length is None else float(wall.length))
        for thing in wall.obstacles:
            clear = thing.keep_clear
            if thing.z - clear < spot.z + strip.z1 and thing.z + thing.height + clear > spot.z + strip.z0:
                middle = spot.x + (strip.x0 + strip.x1) / 2
                if thing.x + thing.width / 2 < middle:
                    lows.append(float(thing.x + thing.width + clear))
                else:
                    highs.append(float(thing.x - clear))
    return max(lows) / NM_PER_MM, min(highs) / NM_PER_MM


def _centre(built: Construction, weight: Weight, leaves: Sequence[Leaf], contents_kg: float) -> tuple[float, float]:
    """Return x and y (nm, cabinet frame) of the centre of cabinet and contents.

    The contents lie where the job says, else in the middle inside. The job measures from the case's front edge.
    """
    room = Box.union([Box(leaf.region.x0, 0, leaf.region.z0, leaf.region.x1, 1, leaf.region.z1) for leaf in leaves])
    inside_y = built.drafts["back"].box.y0 / 2 if "back" in built.drafts else built.cabinet.depth / 2
    mounting = built.cabinet.mounting
    contents_x, contents_y = (room.x0 + room.x1) / 2, inside_y
    if mounting is not None and mounting.contents_from_left is not None:
        contents_x = mounting.contents_from_left
    if mounting is not None and mounting.contents_from_front is not None:
        contents_y = mounting.contents_from_front
    mass = weight.mass_kg + contents_kg
    x = (weight.mass_kg * weight.centre[0] + contents_kg * contents_x) / mass
    y = (weight.mass_kg * weight.centre[1] + contents_kg * contents_y) / mass
    return x, y


def _contents_kg(built: Construction) -> tuple[float, bool]:
    """Return the contents' mass and whether it had to be assumed."""
    mounting = built.cabinet.mounting
    if mounting is not None and mounting.contents_kg is not None:
        return mounting.contents_kg, False
    pressure = built.cabinet.loading.shelf_pa
    levels = [d.box.size for d in built.drafts.values() if d.role in ("shelf", "bottom")]
    assumed = math.fsum(weights.assumed_contents_kg(mm(size[0]), mm(size[1]), 1, pressure) for size in levels)
    return assumed, True


def _wall(registry: Registry, wall: Wall | None, packed: int) -> WallCase:
    if wall is None:
        return WallCase(kind="unknown")
    ceiling = None if wall.ceiling is None else mm(wall.ceiling)
    lining = mm(wall.lining + packed)
    if wall.masonry is not None:
        given = wall.masonry
        sizes = mm(given.diameter), mm(given.head), mm(given.stand_off)
        anchor = Anchor(given.tension_n, given.shear_n, given.approval, *sizes)
        return WallCase("masonry", lining_mm=lining, ceiling_mm=ceiling, anchor=anchor, anchors=wall.masonry.anchors)
    if wall.studs is None:
        return WallCase(kind="unknown", ceiling_mm=ceiling)
    return WallCase(
        kind="studs",
        studs_at_mm=tuple(sorted(mm(at) for at in wall.studs.at)),
        stud=registry.catalogue.stuff(wall.studs.stuff),
        stud_width_mm=mm(wall.studs.width),
        stud_depth_mm=mm(wall.studs.depth),
        lining_mm=lining,
        ceiling_mm=ceiling,
    )


def _fastener(registry: Registry, item: str) -> Screw | Lag | None:
    if not item:
        return None
    catalogue = registry.catalogue
    screw = next((screw for screw in catalogue.screws if screw.id == item), None)
    return screw or next((lag for lag in catalogue.lags if lag.id == item), None)
