"""Door styles: the size of a door in, its parts and the wood for hinge cups out."""

from abc import abstractmethod
from dataclasses import dataclass
from typing import ClassVar

from casewright.sdk.materials import Catalogue, Stuff
from casewright.sdk.methods.method import Method
from casewright.sdk.model.choices import Material, Options
from casewright.sdk.model.parts import Assembly, Term
from casewright.sdk.writer import MILLIMETRES, Writer


@dataclass(frozen=True, slots=True)
class DoorRequest:
    """A door to be made, in the door frame: x right, y back, z up, origin at its lower left front corner.

    `why_width` and `why_height` explain the finished door and sum to `width` and `height`. `frame` is the
    stock of its stiles and rails, or of the whole door for a slab; `panel` what fills it, if anything. `laps` is how
    far its back lies on the wood round its opening at each edge, zero for an inset door. `write` puts quantities
    into words in the job's units.
    """

    width: int
    height: int
    why_width: tuple[Term, ...]
    why_height: tuple[Term, ...]
    frame: Material
    frame_stuff: Stuff
    panel: Material | None
    panel_stuff: Stuff | None
    fit: int
    catalogue: Catalogue
    laps: int = 0
    write: Writer = MILLIMETRES


@dataclass(frozen=True, slots=True)
class Land:
    """Wood that a hinge cup may be bored in, on one hanging edge of a door.

    `part` is the key of the part bored, `clear` the distance from the door's edge to the next cut (the panel
    groove, say), `inner_edge` to the member's inner edge, `panel` to the panel's edge (`None`: no panel).
    """

    part: str
    clear: int
    inner_edge: int
    panel: int | None


@dataclass(frozen=True, slots=True)
class DoorDesign:
    """A door as its style makes it: its parts in the door frame and where hinges and pulls may go."""

    assembly: Assembly
    left: Land
    right: Land
    thickness: int


class DoorStyle(Method):
    """A way to make a door."""

    needs_panel: ClassVar[bool] = False

    def thickness(self, frame: Material, panel: Material | None, options: Options) -> int:
        """Return the finished door's thickness in nm."""
        return frame.thickness

    def reach_behind(self, frame: Material, options: Options) -> int:
        """Return how far, in nm, anything of the door stands behind its back face (battens, say)."""
        return 0

    @abstractmethod
    def build(self, request: DoorRequest, options: Options) -> DoorDesign:
        """Make one door. Pure. Raises `CannotError` if there is none."""
