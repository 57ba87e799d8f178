"""Parts while they are being worked out: boxes in the cabinet frame that joints still make longer."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from casewright.api.engine.solid.solids import Solid
from casewright.sdk.geometry import Axis, Box, seated
from casewright.sdk.model import Band, BuiltPart, Feature, GrainRule, Matched, Material, Part, Role, Term

ALIKE = 1000
"""Sizes that differ by less than this (1 µm, in nm) come from one equal division and are made alike."""

SIDES: Mapping[int, str] = {1: "right", -1: "left", 2: "back", -2: "front", 3: "upper", -3: "lower"}
"""Which of a part's sides faces the way of a signed axis of the cabinet frame, in plain words."""

AWAY: Mapping[Role, Axis] = {"top": 3, "bottom": -3, "shelf": 3, "back": 2, "box-bottom": 3}
"""The way to the side of a part that bounds nothing, in the cabinet frame: there it may be thicker than planned."""


@dataclass(frozen=True, slots=True)
class Draft:
    """A part in the cabinet frame. `why_length` and `why_width` sum to its size along their axes."""

    key: str
    role: Role
    name: str
    material: Material
    box: Box
    length_axis: Axis
    width_axis: Axis
    why_length: tuple[Term, ...]
    why_width: tuple[Term, ...]
    group: str
    grain: GrainRule = "along-length"
    features: tuple[Feature, ...] = ()
    bands: tuple[Band, ...] = ()
    matched: Matched | None = None

    @property
    def thickness_axis(self) -> int:
        """The cabinet axis (1, 2 or 3) the thickness lies along."""
        return 6 - abs(self.length_axis) - abs(self.width_axis)

    @property
    def thickness(self) -> int:
        """The part's thickness in nm."""
        return self.box.size[self.thickness_axis - 1]

    def grown(self, way: Axis, by: int, why: tuple[Term, ...]) -> "Draft":
        """Return the part with its end on the signed axis `way` moved outward by `by` nm, for the reason `why`."""
        box = self.box.grown(way, by)
        if abs(way) == abs(self.length_axis):
            return replace(self, box=box, why_length=self.why_length + why)
        return replace(self, box=box, why_width=self.why_width + why)

    def as_built(self, out: BuiltPart) -> "Draft":
        """Return the part, before it is fitted, as much shorter and narrower as it came out, and as thick.

        One that has cuts already stays as it is planned: they lie by its ends. A thickness is off on the side away from
        what the part bounds.
        """
        if self.features:
            return self
        draft = self
        for axis, by in ((self.length_axis, out.length), (self.width_axis, out.width)):
            if by:
                draft = draft.grown(axis, by, (Term("came out so, as measured", by),))
        if out.thickness and self.role in AWAY:
            draft = replace(draft, box=draft.box.grown(AWAY[self.role], out.thickness))
        return draft

    def cut(self, *features: Feature) -> "Draft":
        """Return the part with more cuts."""
        return replace(self, features=self.features + features)

    def solid(self, cabinet: str) -> Solid:
        """Return the part as a solid in the cabinet frame."""
        return Solid(
            f"{cabinet}/{self.key}",
            (self.box, *(band.box for band in self.bands)),
            tuple([box for feature in self.features for box in feature.boxes]),
            tuple([wedge for feature in self.features for wedge in feature.wedges]),
            tuple([drilled for feature in self.features for drilled in feature.holes]),
        )

    def finished(self, cabinet: str, count: int, built: int = 0) -> Part:
        """Return the part as it stands, cuts and bands carried into its own frame; `built` of `count` are cut."""
        place = seated(self.box, self.length_axis, self.width_axis)
        home = place.inverse()
        size = self.box.size
        return Part(
            id=f"{cabinet}/{self.key}",
            cabinet=cabinet,
            role=self.role,
            name=self.name,
            quantity=count,
            material=self.material.key,
            length=size[abs(self.length_axis) - 1],
            width=size[abs(self.width_axis) - 1],
            thickness=self.thickness,
            grain=self.grain,
            why_length=self.why_length,
            why_width=self.why_width,
            place=place,
            features=tuple([feature.carried(home) for feature in self.features]),
            bands=tuple([Band(band.material, home.box(band.box)) for band in self.bands]),
            group=self.group,
            built=built,
            matched=self.matched,
        )


@dataclass(frozen=True, slots=True)
class Region:
    """A clear region inside the case, seen from the front.

    `slack_x` and `slack_z` are nm by which the region is larger than those that its parts are made alike with (its
    siblings of one equal division, or regions nearly as large); parts are made to the smaller size. `moved_x` and
    `moved_z` are nm by which it is larger than asked for, as what bounds it is set like other parts nearly there.
    `over_x` and `over_z` are nm of a division that its shares leave over. `left`, `right`, `floor` and `roof` are keys
    of the parts round it.
    """

    x0: int
    x1: int
    z0: int
    z1: int
    left: str
    right: str
    floor: str
    roof: str
    slack_x: int = 0
    slack_z: int = 0
    moved_x: int = 0
    moved_z: int = 0
    over_x: int = 0
    over_z: int = 0

    @property
    def width(self) -> int:
        """Clear width that parts are made for, in nm."""
        return self.x1 - self.x0 - self.slack_x

    @property
    def height(self) -> int:
        """Clear height that parts are made for, in nm."""
        return self.z1 - self.z0 - self.slack_z


def alike(sizes: list[int]) -> list[int]:
    """Return sizes with those within `ALIKE` of one another made equal to the smallest of them."""
    order = sorted(set(sizes))
    least: dict[int, int] = {}
    anchor: int | None = None
    for size in order:
        if anchor is None or size - anchor >= ALIKE:
            anchor = size
        least[size] = anchor
    return [least[s] for s in sizes]
