"""A small job in which a method is used: the plainest of a few that is planned without a stop."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from casewright.api.use.planning import make
from casewright.sdk.errors import PluginFaultError, ProblemsError
from casewright.sdk.loader import Registry
from casewright.sdk.methods import JointMethod, MeetingKind
from casewright.sdk.model import Plan

PLACES: Mapping[str, tuple[str, ...]] = {
    "corner": ("case.corner.method", "case.bottom_corner.method"),
    "tee": ("case.fixed_joint.method",),
    "panel": ("case.back.joint.method", "drawers.bottom_joint.method"),
    "frame": ("face_frame.joint.method",),
    "box": ("drawers.corner.method",),
    "doors": ("doors.style",),
    "mountings": ("mounting.method",),
}
"""Where in a cabinet, or in a job's `house`, a method of a kind of meeting or a family is named."""

_MATERIALS = {
    "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
    "thin": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 6},
    "oak": {"kind": "board", "stuff": "red-oak", "thickness": 20},
}
_INSETS: tuple[dict[str, int], ...] = ({}, {"top_inset": 20, "bottom_inset": 20})
_WALL = {
    "studs": {"at": [100, 500, 900, 1300], "stuff": "spruce-pine-fir"},
    "lining": 12.5,
    "ceiling": 2400,
    "cabinets_at": {"bay": [{"x": 300, "z": 1400}]},
}


@dataclass(frozen=True, slots=True)
class ExampleJob:
    """A job document that uses a method, and its plan; `refused` says in words why none could be planned."""

    job: dict[str, Any]
    plan: Plan | None
    refused: str = ""

    @property
    def stops(self) -> tuple[str, ...]:
        """What of the plan says not to cut."""
        return () if self.plan is None else tuple(c.message for c in self.plan.checks if c.level == "stop")


def example_of(
    registry: Registry, family: str, method: str, kind: MeetingKind | None = None, options: Mapping[str, Any] = {}
) -> ExampleJob:
    """Return the first job without a stop that uses a method, else the first that plans, else one with its refusal.

    `kind` is the kind of meeting of a joint or drawer corner, its first where none is given.
    """
    if kind is None and family in ("joints", "boxes"):
        joint: JointMethod = getattr(registry, family)[method]
        kind = min(joint.does)
    with_stop: ExampleJob | None = None
    refused: ExampleJob | None = None
    for job in _jobs(family, method, kind, dict(options)):
        try:
            plan = make(job, registry)
        except ProblemsError as error:
            refused = refused or ExampleJob(job, None, "; ".join(f"{p.rule}. {p.fix}" for p in error.problems))
            continue
        except PluginFaultError as error:
            refused = refused or ExampleJob(job, None, str(error))
            continue
        tried = ExampleJob(job, plan)
        if not tried.stops:
            return tried
        with_stop = with_stop or tried
    example = with_stop or refused
    assert example is not None
    return example


def _jobs(family: str, method: str, kind: MeetingKind | None, options: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """Yield jobs that use a method, the plainest first."""
    chosen = {"method": method, **options}
    if family == "doors":
        for wood, panel in (("oak", "thin"), ("ply", "thin"), ("oak", "oak")):
            doors = {"style": method, "material": wood, "panel": panel, **options}
            yield _job(method, doors=doors, space={"front": "door"})
    elif family == "mountings":
        for insets, back in zip(_INSETS, ("thin", "ply"), strict=True):
            case = {**insets, "back": {"material": back, "inset": 20}}
            job = _job(method, case=case, mounting={**chosen, "contents_kg": 10}, width=900)
            yield {**job, "wall": _WALL}
    elif kind == "box":
        drawers = {"material": "ply", "bottom": "thin", "corner": chosen}
        yield _job(method, drawers=drawers, space={"front": "drawer"})
        yield _job(method, drawers={**drawers, "material": "oak"}, space={"front": "drawer"})
    elif kind == "frame":
        yield _job(method, face_frame={"material": "oak", "joint": chosen})
        yield _job(method, face_frame={"material": "oak", "stile": 65, "rail": 65, "joint": chosen})
    elif kind == "panel":
        for material, inset in (("thin", 20), ("thin", 0), ("ply", 20), ("ply", 0)):
            yield _job(method, case={"back": {"material": material, "inset": inset, "joint": chosen}})
    else:
        for insets in _INSETS:
            own = {"corner": chosen} if kind == "corner" else {"fixed_joint": chosen}
            space = {"space": {"fixed_shelves": 1}} if kind == "tee" else {}
            yield _job(method, case={**insets, **own}, **space)


def _job(method: str, case: Mapping[str, Any] = {}, **more: Any) -> dict[str, Any]:
    """Return a job of one small cabinet; it holds only the materials that it uses."""
    size = {"width": more.pop("width", 450), "height": 600, "depth": 300}
    case = {"material": "ply", "back": {"material": "thin", "inset": 20}, **case}
    cabinet: dict[str, Any] = {"id": "bay", **size, "case": case, **more}
    text = repr(cabinet)
    used = {key: stuff for key, stuff in _MATERIALS.items() if repr(key) in text}
    return {"title": f"Repair bay, with {method}", "units": "mm", "materials": used, "cabinets": [cabinet]}
