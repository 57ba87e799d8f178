"""Codes of the service's own checks: the levels each may have, and what it says.

A code stays what it is once it is published, so that what reads a plan may decide by it; a plugin's own checks have
codes of their own beside these.
"""

from dataclasses import dataclass
from typing import Final

from casewright.sdk.equation_codes import HOLDING, UNJUDGED
from casewright.sdk.findings import Level

__all__ = ["CODES", "Code"]

STOP: Final = ("stop",)
CAUTION: Final = ("caution",)
NOTE: Final = ("note",)
THIN: Final = ("stop", "caution")
USE: Final = ("stop", "note")
ANY: Final = ("stop", "caution", "note")


@dataclass(frozen=True, slots=True)
class Code:
    """One code: the levels it may have, gravest first, and what it means."""

    code: str
    levels: tuple[Level, ...]
    meaning: str


_SHAPES = (
    Code("clash", STOP, "two parts would both fill one place"),
    Code("not-seated", STOP, "a joint does not come home"),
    Code("outside-size", STOP, "the cabinet put together is not of the size asked for"),
    Code("drawer-blocked", STOP, "a drawer meets something as it is drawn out"),
    Code("locked-parts", STOP, "no order of moves puts these parts together"),
    Code("shelf-behind-frame", ("caution", "note"), "a shelf is longer than the opening it goes in by"),
    Code("work-not-carried-out", STOP, "the steps, carried out, do not make this part"),
    Code("web", THIN, "cuts from two sides leave little wood between them"),
    Code("holes-meet", CAUTION, "holes bored from one side run into each other"),
    Code("rounded-for-the-tape", CAUTION, "sizes are rounded in their text for the bench"),
    Code("frame-covers-edge", CAUTION, "the face frame leaves an edge of the case bare"),
    Code("end-panel-proud", NOTE, "an end panel stands proud of the frame"),
    Code("end-panel-screws", CAUTION, "no screw suits an end panel"),
    Code("band-unused", CAUTION, "edge band is asked for where no edge takes it"),
    Code("given-unused", CAUTION, "something is given that changes nothing of the plan"),
    Code("built-mistake", CAUTION, "something was made wrong; what puts it right"),
    Code("built-outside", THIN, "a cabinet comes out larger or smaller than asked for, by what is built of it"),
    Code("built-too-long", STOP, "what is built is larger than what goes with it"),
    Code("built-too-short", STOP, "what is built is smaller than what goes with it"),
    Code("out-of-square", THIN, "the diagonals of a case are not alike"),
    Code("check-failed", CAUTION, "a plugin's check failed, and did not judge the plan"),
    Code("fit-from-the-work", NOTE, "a part is cut later, from a measurement"),
)
_JOINTS = (
    Code("narrow-landing", THIN, "little wood is left to land on"),
    Code("deep-rabbet", CAUTION, "a rabbet takes much of the thickness"),
    Code("deep-groove", CAUTION, "a groove takes much of the thickness"),
    Code("thin-wood-outside-groove", THIN, "little wood is left outside a groove"),
    Code("thin-tongue", THIN, "a tongue is thin"),
    Code("long-tongue", CAUTION, "a tongue is long"),
    Code("narrow-shoulder", CAUTION, "little wood is left beside a tenon"),
    Code("long-tenon", CAUTION, "a tenon is long"),
    Code("thin-tenon", CAUTION, "a tenon is thin for its stock"),
    Code("thick-tenon", CAUTION, "a tenon is thick for its stock"),
    Code("tenon-thickness", CAUTION, "a loose tenon is not about a third of the stock"),
    Code("thin-mortise-cheek", THIN, "little wood is left beside a mortise"),
    Code("thin-web-behind-mortise", THIN, "little wood is left behind a mortise"),
    Code("thin-slot-cheek", THIN, "little wood is left beside a slot"),
    Code("thin-web-behind-slot", THIN, "little wood is left behind a slot"),
    Code("thin-web-behind-spline", THIN, "little wood is left behind a spline"),
    Code("thin-web-behind-pins", THIN, "little wood is left behind the pins of dovetails"),
    Code("thin-web-behind-dowel", THIN, "little wood is left behind a dowel"),
    Code("thin-wood-beside-dowel", THIN, "little wood is left beside a dowel"),
    Code("dowel-size", CAUTION, "a dowel is thick or thin for its wood"),
    Code("single-dowel", CAUTION, "one dowel lets a part turn"),
    Code("thin-lap", THIN, "little wood is left in front of dovetails"),
    Code("narrow-tails", CAUTION, "dovetails are narrow at their root"),
    Code("narrow-fingers", CAUTION, "fingers of a box joint are narrow"),
    Code("dovetail-in-sheet", CAUTION, "a dovetail in sheet breaks out"),
    Code("pocket-screw-bite", THIN, "a pocket screw holds in little wood"),
    Code("pocket-at-edge", THIN, "a pocket screw stands near an edge"),
    Code("screw-near-end", THIN, "a screw stands near an end"),
    Code("screw-in-thin-edge", THIN, "a screw goes into a thin edge"),
    Code("screw-in-sheet-edge", CAUTION, "a screw holds little in the edge of this sheet"),
    Code("butted-between-mitres", CAUTION, "a part is butted between mitred ones"),
    Code("mitre-glue", CAUTION, "a glued mitre holds little"),
    Code("end-grain-glue", CAUTION, "glue on end grain holds little"),
)
_DOORS = (
    Code("thin-door-frame", THIN, "a door's frame is thin"),
    Code("narrow-stile", CAUTION, "a door's stiles are narrow"),
    Code("tall-door", CAUTION, "a door is tall and may twist"),
    Code("thin-groove-wall", THIN, "little wood is left beside a panel groove"),
    Code("deep-panel-groove", CAUTION, "a panel groove is deep"),
    Code("panel-room", STOP, "a solid panel has no room to move"),
    Code("panel-movement", USE, "a solid panel swells and shrinks in its groove"),
    Code("panel-thicker-than-groove", STOP, "a panel is thicker than its groove"),
    Code("panel-rattles", CAUTION, "a panel is thinner than its groove"),
    Code("raised-field", CAUTION, "a raised panel is no thicker than its groove"),
    Code("solid-slab-moves", CAUTION, "a solid slab swells, shrinks and cups"),
    Code("planks-of-sheet", CAUTION, "planks are of sheet"),
    Code("planks-move", NOTE, "planks are screwed in their middles and not glued"),
    Code("battens-behind", NOTE, "battens stand behind a door"),
    Code("door-racking", ANY, "a door's weight racks its frame"),
    Code("door-past-cabinet", CAUTION, "a door stands past its cabinet"),
    Code("door-swing", ANY, "a door meets something before it is open"),
    Code("doors-too-close", THIN, "doors of neighbours meet"),
    Code("doors-meet-open", CAUTION, "doors meet when both are open"),
    Code("doors-one-at-a-time", NOTE, "doors can be opened one at a time"),
    Code("pair-gap", THIN, "the gap between a pair of doors is small"),
    Code("inset-gap", THIN, "the gap round an inset door is small"),
    Code("swing-approximate", CAUTION, "the swing of doors is judged by a fixed axis"),
)
_HARDWARE = (
    Code("bore-edge-distance", STOP, "a hinge's hole stands too near or far from the door's edge"),
    Code("bore-meets-groove", CAUTION, "a hinge's hole meets a groove"),
    Code("bore-meets-panel", STOP, "a hinge's hole meets the panel"),
    Code("bore-narrower-than-cup", STOP, "a hinge's cup does not go into its hole"),
    Code("bore-off-wood", STOP, "a hinge's hole is not wholly in wood"),
    Code("bore-past-stile", STOP, "a hinge's hole reaches past the stile"),
    Code("bore-wider-than-cup", CAUTION, "a hinge's hole is wide for its cup"),
    Code("wood-under-bore", THIN, "little wood is left under a hinge's hole"),
    Code("hinge-count", NOTE, "how many hinges a door has, and why"),
    Code("hinge-mass", STOP, "a door is heavier than its hinges carry"),
    Code("hinge-near-shelf", CAUTION, "a hinge stands at a shelf"),
    Code("hinge-overlay", CAUTION, "no crank and plate give this overlay"),
    Code("hinge-spacing", STOP, "hinges stand too close together"),
    Code("hinges-too-few", CAUTION, "a door has fewer hinges than the table says"),
    Code("plate-meets-cut", CAUTION, "a hinge plate's screw stands in a cut"),
    Code("plate-meets-plate", CAUTION, "plate screws of two doors meet in one part"),
    Code("plate-near-pins", THIN, "a hinge plate's screws stand near pin holes"),
    Code("pull-off-wood", STOP, "a pull's hole is not wholly in wood"),
    Code("pack-runner", NOTE, "a drawer's runner is packed out"),
    Code("runner-load", STOP, "a loaded drawer is heavier than its runners are rated for"),
    Code("runner-screws", ANY, "what a drawer's runner screws carry"),
    Code("no-room-for-driver", THIN, "a screwdriver does not get to a screw"),
    Code("no-machine", STOP, "the shop lists no machine for this work"),
    Code("no-cutter", STOP, "the shop lists no cutter for this groove"),
    Code("done-before-its-needs", CAUTION, "a step is marked done before one that it needs"),
)
_STRENGTH = (
    Code("shelf-sag", ("caution", "note"), "how far a shelf sags"),
    Code("sag-unknown", CAUTION, "sag is not judged: no stiffness is on record"),
    Code("shelf-ends", ANY, "what a shelf's ends carry"),
    Code("shelf-pins", ANY, "what shelf pins carry"),
    Code("movement-unknown", CAUTION, "wood movement is not judged: none is on record"),
    Code("solid-movement", CAUTION, "solid wood swells and shrinks across its grain"),
    Code("sheet-thickness", CAUTION, "a sheet's thickness is not one that it is sold in"),
    Code("anti-tip", ANY, "whether a cabinet stands by itself"),
    Code("anti-tip-leaned-on", ("caution", "note"), "whether it stands with a person leaning on it"),
    Code("tip-fastener-use", ANY, "what the fixing against tipping carries"),
)
_HANGING = (
    Code("mounting-missing", STOP, "a cabinet needs a mounting and has none"),
    Code("place-unknown", STOP, "where a cabinet hangs is not given"),
    Code("wall-unknown", STOP, "the wall is not given"),
    Code("wall-steel-studs", STOP, "steel studs are not computed"),
    Code("studs-unknown", STOP, "where the studs stand is not given"),
    Code("stud-wood", STOP, "what the studs are of is not given"),
    Code("strip-unknown", STOP, "what the hanging strip is of is not on record"),
    Code("no-stud", THIN, "no stud is reached"),
    Code("one-stud", CAUTION, "only one stud is reached"),
    Code("anchor-approval", STOP, "an anchor's approved loads are needed, or are outside what is computed"),
    Code("anchor-stand-off", STOP, "an anchor stands off further than its approval allows"),
    Code("fastener-missing", STOP, "no fastener is named or suits"),
    Code("fastener-wood", STOP, "the fastener rules do not cover this wood"),
    Code("fastener-use", USE, "what the hardest-worked wall fastener carries"),
    Code("fastener-too-long", CAUTION, "a fastener reaches the stud's far face"),
    Code("stud-edge", STOP, "a fastener is too thick for the stud"),
    Code("splitting", NOTE, "what keeps the wood from splitting"),
    Code("screw-spacing", CAUTION, "screws stand close along the grain"),
    Code("strip-height", STOP, "the strip is too low for its fasteners"),
    Code("strip-bending", THIN, "the strip bends between studs"),
    Code("strip-size", CAUTION, "the strip is slight"),
    Code("low-hanging-strip", THIN, "a hanging strip is low"),
    Code("thin-hanging-strip", THIN, "a hanging strip is thin"),
    Code("stands-off-wall", NOTE, "a cabinet stands off the wall"),
    Code("pack-wall-cleat", CAUTION, "a wall cleat is packed out"),
    Code("pack-behind-back", CAUTION, "the room behind a back is packed out"),
    Code("cleat-through", STOP, "a wall cleat cannot run through neighbours"),
    Code("strip-gives", CAUTION, "the end of a hanging strip past its last fasteners gives outward"),
    Code("one-cleat", NOTE, "neighbours hang on one wall cleat"),
    Code("end-distance", NOTE, "how a fastener's end distance is counted"),
    Code("hook-rides-up", STOP, "the hook does not hold the cabinet down"),
    Code("anti-lift-missing", CAUTION, "nothing keeps a cabinet on its hook"),
    Code("anti-lift-wall", ("stop", "caution"), "what would keep it on its hook is not computed in this wall"),
    Code("anti-lift-hold", ANY, "what the fastener carries that keeps a cabinet on its hook"),
    Code("anti-lift-wood", STOP, "the fastener rules do not cover its wood"),
    Code("lift-room", STOP, "there is no room to lift a cabinet onto its hook"),
    Code("lining-gap", NOTE, "how the wall's lining is counted"),
    Code("likely-use", NOTE, "what the hardest-worked fastener likely comes to"),
    Code("proof-load", NOTE, "a standard's proof load, for comparison"),
    Code("contents-assumed", CAUTION, "the contents were assumed"),
    Code("contents-centred", NOTE, "the contents were taken to stand in the middle"),
    Code("link-missing", STOP, "nothing carries the load on its way to the wall"),
    Code("link-use", STOP, "something on the load's way carries too little"),
    Code("load-path", NOTE, "what the load's way to the wall carries"),
    Code("thin-back", CAUTION, "a back that carries is thin"),
)
_WALL = (
    Code("cabinets-overlap", STOP, "cabinets overlap"),
    Code("gap-too-small", CAUTION, "a gap is too small for a strip"),
    Code("filler-no-room", STOP, "there is no room for a filler"),
    Code("filler-width-unknown", STOP, "a filler's width cannot be known"),
    Code("filler-narrow", CAUTION, "a filler is narrower than its gap"),
    Code("filler-wide", STOP, "a filler is wider than its gap"),
    Code("filler-slight", CAUTION, "a filler is slight"),
    Code("obstacle-hit", STOP, "a cabinet stands over something on the wall"),
    Code("wall-end-passed", THIN, "something stands past the wall's end"),
    Code("ceiling-hit", STOP, "a cabinet stands past the ceiling"),
    Code("no-room-to-tilt", CAUTION, "a tall cabinet cannot be tilted up under the ceiling"),
    Code("base-off-floor", CAUTION, "a standing cabinet does not stand on the floor"),
    Code("packed-up", NOTE, "a cabinet is packed up where the floor is low"),
    Code("wall-out-of-plumb", CAUTION, "the wall is further out of plumb than the allowance behind a cabinet"),
    Code("cleats-not-level", NOTE, "wall cleats of neighbours are not level"),
    Code("highest-point", NOTE, "where the level line is struck from"),
    Code("stile-could-be-shared", NOTE, "neighbours could share a stile"),
    Code("end-shows", NOTE, "an end that shows is not finished"),
    Code("end-covered", NOTE, "a finished end is covered"),
)
_STOCK = (
    Code("no-stock", STOP, "the stock listed does not yield every part"),
    Code("match", STOP, "the grain cannot run on over fronts that it is asked to run on over"),
    Code("pane-captured", CAUTION, "a pane let into grooves cannot be changed when it breaks"),
    Code("pane-carries", STOP, "a part that carries or braces is of what is bought to size, such as glass"),
    Code("pane-order", CAUTION, "panes are ordered to size, and what to ask for"),
    Code("pane-shelf", CAUTION, "the strength of a glass shelf is not judged"),
    Code("pane-stock", CAUTION, "stock of what is bought to size is left alone"),
    Code("pane-worked", STOP, "a part of what is bought to size would be cut, bored or banded"),
    Code("stock-defects", CAUTION, "a piece of stock is first cut clean of its defects"),
)
_OUTSIDE = "is outside of what its equation is good for"

CODES: Final[tuple[Code, ...]] = tuple(
    sorted(
        (
            *_SHAPES, *_JOINTS, *_DOORS, *_HARDWARE, *_STRENGTH, *_HANGING, *_WALL, *_STOCK,
            *(Code(code, STOP, f"{what} {_OUTSIDE}") for code, what in HOLDING.items()),
            *(Code(f"anti-lift-{code}", STOP, f"the same of what keeps it on its hook: {what} {_OUTSIDE}")
              for code, what in HOLDING.items()),
            *(Code(code, CAUTION, f"{what} {_OUTSIDE}") for code, what in UNJUDGED.items()),
        ),
        key=lambda one: one.code,
    )
)  # fmt: skip
"""Every code, by name."""
