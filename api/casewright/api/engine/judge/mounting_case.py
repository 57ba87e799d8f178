"""The case of one cabinet on its wall, collected from the job and the parts for the equations of hanging."""

from collections.abc import Sequence

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.inside import Leaf
from casewright.sdk.engineering import weights
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


def spot_pointer(built: Construction, number: int, spot: Spot | None) -> str:
    """Return the JSON Pointer of a place on the wall, or of the mounting where no place is given."""
    if spot is None:
        return mounting_pointer(built)
    return pointer_to("wall", "cabinets_at", built.id, number)


def mounting_case(
    built: Construction, fixing: Hanging, weight: Weight, leaves: Sequence[Leaf], spot: Spot | None
) -> HangingCase:
    """Return one cabinet at one place as the equations take it."""
    cabinet = built.cabinet
    wall = built.job.wall if spot else None
    x = spot.x if spot else 0
    hooked = fixing.bevel_deg is not None
    strips = [d for d in built.drafts.values() if fixing.wall_strip and d.key.startswith(fixing.wall_strip)]
    strip = Box.union([d.box for d in strips])
    contents_kg, assumed = _contents_kg(built)
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
        ),
        wall=_wall(built.registry, wall, fixing.packed if hooked else 0),
        fastener=_fastener(built.registry, fixing.fastener),
        per_stud=fixing.per_stud,
        bevel_deg=fixing.bevel_deg if fixing.bevel_deg is not None else 45.0,
        behind_strip_mm=0.0 if hooked else mm(fixing.packed),
        bottom_mm=mm(spot.z if spot else 0),
        anti_lift=_fastener(built.registry, fixing.anti_lift),
        anti_lift_side_mm=mm(fixing.anti_lift_side),
        anti_lift_gap_mm=mm(wall.lining) if wall else None,
        contents_assumed=assumed,
    )


def _centre(built: Construction, weight: Weight, leaves: Sequence[Leaf], contents_kg: float) -> tuple[float, float]:
    """Return x and y (nm, cabinet frame) of the centre of cabinet and contents, which lie in the middle inside."""
    room = Box.union([Box(leaf.region.x0, 0, leaf.region.z0, leaf.region.x1, 1, leaf.region.z1) for leaf in leaves])
    inside_y = built.drafts["back"].box.y0 / 2 if "back" in built.drafts else built.cabinet.depth / 2
    mass = weight.mass_kg + contents_kg
    x = (weight.mass_kg * weight.centre[0] + contents_kg * (room.x0 + room.x1) / 2) / mass
    y = (weight.mass_kg * weight.centre[1] + contents_kg * inside_y) / mass
    return x, y


def _contents_kg(built: Construction) -> tuple[float, bool]:
    """Return the contents' mass and whether it had to be assumed."""
    mounting = built.cabinet.mounting
    if mounting is not None and mounting.contents_kg is not None:
        return mounting.contents_kg, False
    pressure = built.cabinet.loading.shelf_pa
    levels = [d.box.size for d in built.drafts.values() if d.role in ("shelf", "bottom")]
    assumed = sum(weights.assumed_contents_kg(mm(size[0]), mm(size[1]), 1, pressure) for size in levels)
    return assumed, True


def _wall(registry: Registry, wall: Wall | None, packed: int) -> WallCase:
    if wall is None:
        return WallCase(kind="unknown")
    ceiling = None if wall.ceiling is None else mm(wall.ceiling)
    lining = mm(wall.lining + packed)
    if wall.masonry is not None:
        anchor = Anchor(wall.masonry.tension_n, wall.masonry.shear_n, wall.masonry.approval)
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
