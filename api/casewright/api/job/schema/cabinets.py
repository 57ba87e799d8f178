"""Schemas of a cabinet and of a house, made from what the registry holds: each method brings its own options."""

from collections.abc import Iterable
from typing import Any

from casewright.api.job import limits
from casewright.api.job.fields import Branch, Key, MaterialKey, Pick, PickWords
from casewright.api.job.schema.pieces import Base, Counter, Loading, Pins, Pull, Space, about, detail
from casewright.api.job.schema.run import Ends
from casewright.sdk.engineering import adjust
from casewright.sdk.engineering.hinges import LEAST_HINGES
from casewright.sdk.fields import Choice, Count, Length, Number, OptionSchema, Text
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Method
from casewright.sdk.units import inches, mm
from marshmallow import Schema, fields

NEEDED = {"needed": True}
"""Marks a key that a cabinet or its house must give."""


class DoorsCommon(OptionSchema):
    """What every door of a cabinet shares, whatever its style."""

    hang = Choice("overlay", "inset", load_default="overlay", about="before the opening, or in it")
    overlay = detail(about="how far a door laps the wood; default: 1/2 in, less where there is no room")
    gap = detail(mm(2), about="round an inset door")
    meeting_gap = detail(inches("1/8"), about="between the doors of a pair")
    stand_off = detail(0, about="between a door's back and what it closes on")
    material = MaterialKey("sheet", "board", about="default: the face frame's, else the case's")
    panel = MaterialKey("sheet", "board", allow_none=True, load_default=None, about="of panels; default: the doors'")
    hinge = Key(load_default="cup-35", about="an id listed by /v1/materials")
    bore = Length(least=mm(1), most=mm(100), allow_none=True, load_default=None, about="default: the hinge's")
    bore_edge = Length(
        most=mm(50), allow_none=True, load_default=None, about="from door edge to bore; default: the hinge's"
    )
    hinges = Count(
        least=LEAST_HINGES,
        most=limits.HINGES,
        allow_none=True,
        load_default=None,
        about="hinges on each door; default: by its height, width and mass, as the hinge's tables say",
    )
    pull = fields.Nested(Pull, allow_none=True, load_default=None, metadata=about("null: none"))
    band = MaterialKey(
        "band", allow_none=True, load_default=None, about="edge band round slab doors, taken off their wood"
    )


class MountingCommon(OptionSchema):
    """What every mounting shares: what will be in the cabinet, where, and for how long."""

    contents_kg = Number(most=5000, about="mass of the contents in kilograms")
    contents_lb = Number(most=11000, about="the same in pounds")
    contents_from_left = Length(
        most=limits.GREATEST_CABINET,
        allow_none=True,
        load_default=None,
        about="from the case's left side to the contents' centre; default: the middle of the inside",
    )
    contents_from_front = Length(
        most=limits.GREATEST_CABINET,
        allow_none=True,
        load_default=None,
        about="from the case's front edge to the contents' centre; default: the middle of the inside",
    )
    contents_duration = Choice(
        *adjust.DURATION,
        load_default="permanent",
        about="how long the contents stay, all their time added up; the cabinet itself always counts as permanent",
    )


def branches(family: str, methods: Iterable[Method], registry: Registry) -> dict[str, Branch]:
    """Return the branches of a family of methods."""
    return {m.id: Branch(m.id, m.title, family, registry.owner(family, m.id), m.options) for m in methods}


def clear_of(common: type[Schema], tag: str, methods: dict[str, Branch], faults: list[str]) -> dict[str, Branch]:
    """Drop methods whose options would hide a key that every method shares, noting each."""
    taken = {tag, *common().fields}
    clean = {}
    for method_id, branch in methods.items():
        clash = sorted(taken & set(branch.options().fields))
        if clash:
            faults.append(f"{branch.plugin}: {branch.family}/{method_id} options hide {', '.join(clash)}")
        else:
            clean[method_id] = branch
    return clean


def joint_field(registry: Registry, kind: str, default: str | None, **kwargs: Any) -> Pick:
    """Return the field that picks a joint method for one kind of meeting."""
    does = [m for m in registry.joints.values() if kind in m.does]
    return Pick(
        branches("joints", does, registry),
        PickWords(f"{kind} joint", "Joint"),
        default_method=default,
        **kwargs,
    )


def _case(registry: Registry) -> type[Schema]:
    back = {
        "material": MaterialKey("sheet", "board", about="default: the case's"),
        "inset": detail(inches("3/4"), about="from the case's back edge to the groove's near face"),
        "joint": joint_field(registry, "panel", "housed-groove"),
    }
    own = {
        "material": MaterialKey("sheet", "board", metadata=NEEDED),
        "shelf_material": MaterialKey("sheet", "board", about="default: the case's"),
        "corner": joint_field(registry, "corner", "rabbet", metadata=about("of top and bottom; default: rabbet")),
        "bottom_corner": joint_field(
            registry, "corner", None, allow_none=True, metadata=about("of the bottom; default: as `corner`")
        ),
        "fixed_joint": joint_field(registry, "tee", "housed-groove", metadata=about("of fixed shelves and dividers")),
        "top_inset": detail(0, about="from the sides' upper end to the top's upper face"),
        "bottom_inset": detail(0, about="from the sides' lower end to the bottom's lower face"),
        "back": fields.Nested(made("Back", back), allow_none=True, metadata=about("null: none")),
        "pins": fields.Nested(Pins, metadata=about("holes for loose shelves")),
        "case_band": MaterialKey("band", allow_none=True, load_default=None, about="edge band of the case's front"),
        "shelf_band": MaterialKey("band", allow_none=True, load_default=None, about="edge band of shelves' fronts"),
        "shelf_setback": detail(0, about="of fixed and loose shelves from the case front"),
        "top_kind": Choice("full", "stretchers", load_default="full", about="what the top is"),
        "stretcher": detail(inches("4"), least=mm(20), about="width of the two stretchers that stand for a full top"),
    }
    return made("Case", own)


def _face_frame(registry: Registry) -> type[Schema]:
    own = {
        "material": MaterialKey("board", metadata=NEEDED),
        "stile": detail(inches("1 1/2"), least=mm(5)),
        "rail": detail(inches("1 1/2"), least=mm(5)),
        "mid_stile": detail(inches("1 1/2"), least=mm(5)),
        "mid_rail": detail(inches("1 1/2"), least=mm(5)),
        "overhang": detail(0, about="how far the frame stands past the case at each side"),
        "bead": detail(0, about="thickness of a bead lining every opening; 0 for none"),
        "joint": joint_field(registry, "frame", "loose-tenon"),
    }
    return made("FaceFrame", own)


def _drawers(registry: Registry) -> type[Schema]:
    own = {
        "material": MaterialKey("sheet", "board", about="of the boxes; default: the case's"),
        "bottom": MaterialKey("sheet", "board", about="of the boxes' bottoms; default: the back's"),
        "front": MaterialKey("sheet", "board", about="default: the doors', else the face frame's, else the case's"),
        "slide": Key(
            allow_none=True, load_default=None, about="an id listed by /v1/materials; null: the longest that fits"
        ),
        "corner": Pick(
            branches("boxes", registry.boxes.values(), registry),
            PickWords("drawer corner", "DrawerCorner"),
            default_method="box-rabbet",
        ),
        "bottom_joint": joint_field(registry, "panel", "housed-groove"),
        "bottom_up": detail(inches("1/2"), about="from a box's lower edge to the groove for its bottom"),
        "hang": Choice("overlay", "inset", about="default: as the doors"),
        "overlay": Length(most=limits.GREATEST_DETAIL, about="default: as the doors"),
        "gap": Length(most=limits.GREATEST_DETAIL, about="round an inset front; default: as the doors"),
        "between": detail(inches("1/8"), about="gap between the fronts of a stack"),
        "below": detail(inches("1/2"), about="room under a box in its slot"),
        "above": detail(inches("1/2"), about="room over a box in its slot"),
        "pull": Key(allow_none=True, load_default=None, about="an id listed by /v1/materials"),
        "band": MaterialKey(
            "band", allow_none=True, load_default=None, about="edge band on all edges of fronts, taken off their wood"
        ),
    }
    return made("Drawers", own)


def fragment(registry: Registry, faults: list[str]) -> dict[str, Any]:
    """Return the fields that a cabinet and a house share."""
    styles = branches("doors", registry.doors.values(), registry)
    mountings = branches("mountings", registry.mountings.values(), registry)
    outside: dict[str, Any] = {"least": limits.LEAST_CABINET, "most": limits.GREATEST_CABINET}
    return {
        "form": Choice("wall", "base", "tall", load_default="wall", about="hung, low or tall"),
        "width": Length(**outside, metadata=NEEDED, about="finished outside of case and face frame"),
        "height": Length(**outside, metadata=NEEDED, about="finished outside"),
        "depth": Length(**outside, metadata=NEEDED, about="finished outside, doors not counted"),
        "case": fields.Nested(_case(registry), metadata={**NEEDED, **about("what it is built of")}),
        "space": fields.Nested(Space, metadata=about("the inside")),
        "face_frame": fields.Nested(
            _face_frame(registry), allow_none=True, load_default=None, metadata=about("null: none")
        ),
        "base": fields.Nested(Base, allow_none=True, load_default=None, metadata=about("what it stands on")),
        "counter": fields.Nested(Counter, allow_none=True, load_default=None, metadata=about("null: none")),
        "drawers": fields.Nested(
            _drawers(registry), allow_none=True, load_default=None, metadata=about("what drawers share")
        ),
        "loading": fields.Nested(Loading, metadata=about("what it carries")),
        "ends": fields.Nested(Ends, metadata=about("what is seen of its ends")),
        "doors": Pick(
            clear_of(DoorsCommon, "style", styles, faults),
            PickWords("door style", "Doors", "style"),
            common=DoorsCommon,
            allow_none=True,
            load_default=None,
            metadata=about("what doors share"),
        ),
        "mounting": Pick(
            clear_of(MountingCommon, "method", mountings, faults),
            PickWords("mounting", "Mounting"),
            common=MountingCommon,
            allow_none=True,
            load_default=None,
            metadata=about("how it is fixed to the wall"),
        ),
    }


def cabinet_schema(shared: dict[str, Any]) -> type[Schema]:
    """Return the schema of an entry of `cabinets`."""
    own = {
        "id": Key(required=True),
        "title": Text(most=limits.TITLE_LENGTH, load_default="", about="what it is called"),
        "count": Count(least=1, most=limits.COPIES, load_default=1, about="how many alike"),
    }
    return made("Cabinet", {**own, **shared})


def house_schema(shared: dict[str, Any]) -> type[Schema]:
    """Return the schema of `house`: what holds for every cabinet that does not say otherwise."""
    return made("House", {"style": Key(about="a registered house style to begin from"), **shared})


def made(name: str, declared: dict[str, Any]) -> type[Schema]:
    """Return a schema class of a name."""
    cls: type[Schema] = OptionSchema.from_dict(declared, name=name)
    return cls
