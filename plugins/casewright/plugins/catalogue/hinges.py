"""Hinges and pulls: figures that makers' planning pages share; counts are data, not law."""

from casewright.sdk.materials import CountByHeight, CountByMass, Hinge, HingeArm, HingeGap, Pull
from casewright.sdk.units import INCH, MM

COUNT_BY_HEIGHT: tuple[CountByHeight, ...] = (
    CountByHeight(40 * INCH, 2),
    CountByHeight(60 * INCH, 3),
    CountByHeight(80 * INCH, 4),
    CountByHeight(None, 5),
)
"""Chart bands most pages share."""

COUNT_BY_MASS: tuple[CountByMass, ...] = (
    CountByMass(5.0, 2),
    CountByMass(9.0, 3),
    CountByMass(15.0, 4),
    CountByMass(22.0, 5),
)
"""The strictest of three published charts; they disagree between bands."""

HINGES: tuple[Hinge, ...] = (
    Hinge(
        id="cup-35",
        title="35 mm cup hinge",
        cup_diameter=35 * MM,
        bore=35 * MM,
        bore_depth=12_500_000,
        edge_least=3 * MM,
        edge_usual=5 * MM,
        edge_most=6 * MM,
        screw_spacing=45 * MM,
        screw_behind=9_500_000,
        plate_setback=37 * MM,
        plate_pitch=32 * MM,
        from_door_end=80 * MM,
        side_adjustment=2 * MM,
        opening_degrees=110,
        gaps=(HingeGap(22 * MM, 1 * MM),),
        count_by_height=COUNT_BY_HEIGHT,
        count_by_mass=COUNT_BY_MASS,
        wide_door_from=600 * MM,
        mass_kg=0.10,
        sources=(
            ("*", "hinge-planning-pages"),
            ("plate_setback", "practice-32-mm"),
            ("plate_pitch", "practice-32-mm"),
            ("side_adjustment", "common-practice"),
            ("height_adjustment", "hinge-adjustment"),
            ("depth_out", "hinge-adjustment"),
            ("depth_in", "hinge-adjustment"),
            ("opening_degrees", "common-practice"),
            ("edge_usual", "common-practice"),
            ("mass_kg", "common-practice"),
            ("arms", "hinge-arms"),
            ("plate_heights", "hinge-arms"),
        ),
        arms=(
            HingeArm("full overlay, straight arm", 14 * MM),
            HingeArm("half overlay, half-cranked arm", 4_500_000),
            HingeArm("inset, cranked arm", -4 * MM),
        ),
        plate_heights=(0, 3 * MM, 6 * MM, 9 * MM),
        height_adjustment=2 * MM,
        depth_out=3 * MM,
        depth_in=2 * MM,
    ),
)

_PRACTICE = (("*", "common-practice"),)

PULLS: tuple[Pull, ...] = (
    Pull("bar-96", "bar pull, holes 96 mm apart", 2, 96 * MM, 5 * MM, 35 * MM, 0.08, _PRACTICE),
    Pull("bar-128", "bar pull, holes 128 mm apart", 2, 128 * MM, 5 * MM, 35 * MM, 0.10, _PRACTICE),
    Pull("knob-1", "knob, one hole", 1, 0, 5 * MM, 30 * MM, 0.04, _PRACTICE),
)
