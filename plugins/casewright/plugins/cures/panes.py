"""Cures for parts that cannot be of what is bought to size, such as glass: another material for them."""

from collections.abc import Iterable, Mapping
from typing import ClassVar

from casewright.sdk.methods import Change, CureGenerator, Stop
from casewright.sdk.model.parts import Role
from casewright.sdk.patching import patch_setting

EACH = 3
"""Other materials tried for one part."""

PLACES: Mapping[Role, tuple[str, ...]] = {
    "door": ("doors", "material"),
    "door-stile": ("doors", "material"),
    "door-rail": ("doors", "material"),
    "door-panel": ("doors", "panel"),
    "back": ("case", "back", "material"),
    "shelf": ("case", "shelf_material"),
    "frame-stile": ("face_frame", "material"),
    "frame-rail": ("face_frame", "material"),
    "cleat": ("mounting", "material"),
    "wall-cleat": ("mounting", "material"),
    "box-side": ("drawers", "material"),
    "box-front": ("drawers", "material"),
    "box-back": ("drawers", "material"),
    "box-bottom": ("drawers", "bottom"),
    "drawer-front": ("drawers", "front"),
}
"""Where the job says what a part of a role is made of; all others are of the case's material."""


class PaneCures(CureGenerator):
    """Cures for what would be cut of glass, or would carry on it."""

    id: ClassVar[str] = "panes"
    title: ClassVar[str] = "Other materials for what cannot be a pane"
    codes: ClassVar[frozenset[str]] = frozenset({"pane-worked", "pane-carries"})

    def changes(self, stop: Stop) -> Iterable[Change]:
        """Yield the part of each other material of the job, then the material itself of another stuff."""
        part = next((one for one in stop.plan.parts if one.id == stop.check.subject), None)
        if part is None:
            return
        materials = stop.plan.job.materials
        others = [one for one in materials.values() if not one.to_size and one.kind != "band"]
        at = stop.at(*PLACES.get(part.role, ("case", "material")))
        for one in sorted(others, key=lambda one: (abs(one.thickness - part.thickness), one.key))[:EACH]:
            yield Change(f"{part.name} of {one.key}", patch_setting(stop.document, (at, one.key)))
        sheets = [one for one in stop.choices.catalogue.stuffs if one.kind == "sheet" and not one.to_size]
        for stuff in sheets[:1]:
            setting = (("materials", part.material, "stuff"), stuff.id)
            yield Change(f"{part.material} of {stuff.title}", patch_setting(stop.document, setting))
