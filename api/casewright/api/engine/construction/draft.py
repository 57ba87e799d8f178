"""Parts while they are being worked out: boxes in the cabinet frame that joints still make longer."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from casewright.api.engine.construction.allowance import answer_of
from casewright.sdk.errors import NoGeometryError, PluginFaultError, Problem
from casewright.sdk.geometry import Axis, Box, seated
from casewright.sdk.loader import Registry
from casewright.sdk.materials import Stuff
from casewright.sdk.methods import Body, CannotError
from casewright.sdk.model import (
    Band,
    Cabinet,
    Check,
    DoorLeaf,
    Feature,
    Finding,
    GrainRule,
    HardwareLine,
    HardwareUse,
    Job,
    Joint,
    Material,
    Mounted,
    Part,
    Role,
    Term,
)

ALIKE = 1000
"""Sizes that differ by less than this (1 µm, in nm) come from one equal division and are made alike."""

ACROSS: Mapping[int, str] = {1: "width", 2: "depth", 3: "height"}


@dataclass(slots=True)
class Draft:
    """A part in the cabinet frame. `why` is kept by cabinet axis: 1, 2 or 3."""

    key: str
    role: Role
    name: str
    material: Material
    box: Box
    length_axis: Axis
    width_axis: Axis
    why: dict[int, list[Term]]
    group: str
    grain: GrainRule = "along-length"
    features: list[Feature] = field(default_factory=list)
    bands: list[Band] = field(default_factory=list)

    @property
    def thickness_axis(self) -> int:
        """The cabinet axis (1, 2 or 3) the thickness lies along."""
        return 6 - abs(self.length_axis) - abs(self.width_axis)

    def finished(self, cabinet: str, count: int) -> Part:
        """Return the part as it stands, cuts and bands carried into its own frame."""
        place = seated(self.box, self.length_axis, self.width_axis)
        home = place.inverse()
        size = self.box.size
        length, width = abs(self.length_axis), abs(self.width_axis)
        return Part(
            id=f"{cabinet}/{self.key}",
            cabinet=cabinet,
            role=self.role,
            name=self.name,
            quantity=count,
            material=self.material.key,
            length=size[length - 1],
            width=size[width - 1],
            thickness=size[self.thickness_axis - 1],
            grain=self.grain,
            why_length=tuple(self.why[length]),
            why_width=tuple(self.why[width]),
            place=place,
            features=tuple([f.carried(home) for f in self.features]),
            bands=tuple([Band(b.material, home.box(b.box)) for b in self.bands]) if self.bands else (),
            group=self.group,
        )


@dataclass(frozen=True, slots=True)
class Region:
    """A clear region inside the case, seen from the front.

    `slack_x` and `slack_z` are nm by which the region is larger than its siblings from one equal division;
    parts are made to the smaller size. `left`, `right`, `floor` and `roof` are keys of the parts round it.
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

    @property
    def width(self) -> int:
        """Clear width that parts are made for, in nm."""
        return self.x1 - self.x0 - self.slack_x

    @property
    def height(self) -> int:
        """Clear height that parts are made for, in nm."""
        return self.z1 - self.z0 - self.slack_z


@dataclass(slots=True)
class Work:
    """All that is known of one cabinet while it is being planned."""

    job: Job
    cabinet: Cabinet
    registry: Registry
    drafts: dict[str, Draft] = field(default_factory=dict)
    joints: list[Joint] = field(default_factory=list)
    hardware: list[HardwareLine] = field(default_factory=list)
    checks: list[Check] = field(default_factory=list)
    doors: list[DoorLeaf] = field(default_factory=list)
    mounted: list[Mounted] = field(default_factory=list)
    stuffs: dict[str, Stuff] = field(default_factory=dict)
    id: str = field(init=False)
    """The cabinet's id."""

    def __post_init__(self) -> None:
        self.id = self.cabinet.id

    def material(self, key: str) -> Material:
        """Return a material of the job by key."""
        return self.job.materials[key]

    def stuff(self, material: Material) -> Stuff:
        """Return what a material is made of; each is looked up once."""
        known = self.stuffs.get(material.stuff)
        if known is None:
            known = self.stuffs[material.stuff] = self.registry.catalogue.stuff(material.stuff)
        return known

    def body(self, draft: Draft) -> Body:
        """Return a draft as a joint method may know it."""
        thickness = draft.box.size[draft.thickness_axis - 1]
        return Body(draft.name, draft.role, draft.material, self.stuff(draft.material), thickness)

    def add(self, draft: Draft) -> Draft:
        """Add a draft part and return it."""
        self.drafts[draft.key] = draft
        return draft

    def find(self, subject: str, finding: Finding) -> None:
        """Record a finding as a check about `subject`."""
        self.checks.append(Check(subject, finding))

    def use(self, uses: tuple[HardwareUse, ...], used_for: str) -> None:
        """Record hardware given in the cabinet frame, for one cabinet; quantities are over its count."""
        for use in uses:
            self.hardware.append(
                HardwareLine(use.item, use.name, self.id, used_for, use.count * self.cabinet.count, use.at)
            )


def ask(work: Work, family: str, method: str, pointer: str, call: Callable[[], Any]) -> Any:
    """Call a method and turn what it raises into a problem that names the place or the plugin.

    `CannotError` becomes a 422 at `pointer`; anything else is the plugin's fault and names it.
    """
    try:
        return answer_of(work.registry, family, method, call)
    except CannotError as error:
        raise NoGeometryError(error.problem(pointer)) from error
    except PluginFaultError:
        raise
    except Exception as error:
        owner = work.registry.owner(family, method)
        raise PluginFaultError(owner, method, f"raised {type(error).__name__}: {error}") from error


def require_room(size: int, pointer: str, what: str, fix: str) -> None:
    """Refuse a job in which `what` comes out at zero or less."""
    if size <= 0:
        raise NoGeometryError(Problem(pointer, f"{what} must be greater than zero", f"{size / 1e6:g} mm", fix))


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
