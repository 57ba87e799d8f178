"""Mountings: the back of a case and its wall in, strips and fasteners and what hanging turns on out."""

from abc import abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass

from casewright.sdk.geometry import Box
from casewright.sdk.materials import Catalogue
from casewright.sdk.methods.method import Method
from casewright.sdk.model.choices import Material, Options
from casewright.sdk.model.job import Wall
from casewright.sdk.model.parts import Assembly, Feature
from casewright.sdk.writer import MILLIMETRES, Writer


@dataclass(frozen=True, slots=True)
class MountRequest:
    """A cabinet to be hung, in the cabinet frame.

    `outside` is the case without face frame and doors; `inside` the clear box between sides, top and bottom,
    from the case front to the back panel's front; `behind` the room behind the back panel between the sides
    (zero thick for a back that is flush), where a cleat may lie. `top` and `bottom` give the boxes of the
    case's top and bottom. `back` is the back panel's box or `None`; `case_material` what the case is made of.
    `under_top` and `over_bottom` are the clear rooms, left to right, right under the top and over the bottom, as
    dividers and fixed shelves leave them. `top_key` (the rear stretcher's where that stands for a top), `bottom_key`
    and `back_key` are keys that a joint of the mounting may name as its host, `left_key` and `right_key` those of the
    sides, which it may cut. `write` puts quantities into words in the job's units.
    """

    outside: Box
    inside: Box
    behind: Box
    top: Box
    bottom: Box
    back: Box | None
    back_material: Material | None
    materials: Mapping[str, Material]
    catalogue: Catalogue
    fit: int
    wall: Wall | None
    wall_allowance: int
    case_material: Material | None = None
    under_top: tuple[Box, ...] = ()
    over_bottom: tuple[Box, ...] = ()
    top_key: str = "top"
    bottom_key: str = "bottom"
    back_key: str = "back"
    left_key: str = "side-left"
    right_key: str = "side-right"
    write: Writer = MILLIMETRES


@dataclass(frozen=True, slots=True)
class Hanging:
    """The geometry that hanging turns on, in the cabinet frame, nm.

    `hook_z` is the height of the line that carries the cabinet, `bearing_z` of the lowest bearing on the
    wall, `bevel_deg` the hook's bevel from horizontal (`None` for a cabinet that is screwed, not hooked).
    `lift` is how far the cabinet must rise to engage. `wall_strip` is the key of the part (or parts that begin
    with it) that the wall fasteners pass through; `fastener` is their catalogue id, `per_stud` how many each stud
    takes and `packed` wood between strip and wall that is not counted. `anti_lift` is the id of a fastener
    through `anti_lift_side` of wood into a stud, from the front of the part `anti_lift_strip`; `guarded` tells of
    something that stops knocks upward. `through` tells at which ends, left and right, the wall strip reaches the case's
    outside, to be made one with a neighbour's; `end_play` how far short of a side it ends elsewhere. The plan lists
    these fasteners with their places; the hardware of the design is what else there is.
    """

    hook_z: int
    bearing_z: int
    bevel_deg: float | None
    lift: int
    wall_strip: str | None
    screw_z: int
    lengths: tuple[tuple[str, int], ...] = ()
    fastener: str = ""
    per_stud: int = 2
    packed: int = 0
    anti_lift: str = ""
    anti_lift_side: int = 0
    anti_lift_strip: str = ""
    guarded: bool = False
    through: tuple[bool, bool] = (False, False)
    end_play: int = 0


@dataclass(frozen=True, slots=True)
class MountDesign:
    """A mounting as its method makes it: parts in the cabinet frame, hardware, and what hanging turns on."""

    assembly: Assembly
    hanging: Hanging
    features: tuple[tuple[str, Feature], ...] = ()
    cautions: tuple[str, ...] = ()


class MountingMethod(Method):
    """A way to hang a cabinet."""

    @abstractmethod
    def build(self, request: MountRequest, options: Options) -> MountDesign:
        """Make the mounting. Pure. Raises `CannotError` if there is none."""
