"""Mountings of the plan document as marshmallow schemas; loads are newtons and places millimetres, as engineered."""

from typing import get_args

from casewright.api.wire.described import (
    CABINET,
    flag,
    mapping,
    number,
    numbers,
    one,
    pairs,
    points,
    record,
    rows,
    size,
    text,
    texts,
    word,
)
from casewright.sdk.engineering.hanging_case import WallKind

LeadHoles = record(
    "LeadHoles",
    "The two holes of one wall fastener.",
    shank_mm=number("through the strip, in millimetres"),
    thread_mm=number("in the stud, in millimetres"),
    source=text("code of its source"),
)

MountingGiven = record(
    "MountingGiven",
    "What the hold was computed from; the first four of one that stands.",
    fastener=text("id of the wall fastener", allow_none=True),
    strip_low_mm=number("lower edge of the wall strip over the cabinet's lowest bearing"),
    strip_over_floor_mm=number("the same over the floor"),
    wall=word("what the wall is", *get_args(WallKind)),
    cabinet_kg=number("the cabinet empty", required=False),
    contents_kg=number("its contents", required=False),
    contents_assumed=flag("whether the contents were assumed", required=False),
    contents_placed=flag("whether their centre was given", required=False),
    centre_out_mm=number("centre of mass from the wall", required=False),
    centre_x_mm=number("centre of mass from the wall's left end", required=False),
    strip_left_mm=number("left end of the strip", required=False),
    strip_length_mm=number("length of the strip", required=False),
    strip_thickness_mm=number("thickness of the strip", required=False),
    lining_gap_mm=number("lining between strip and stud", required=False),
    lead_holes=one(LeadHoles, "null: not known", required=False, allow_none=True),
    duration_factor=number("load duration factor", required=False),
)

MountingFastener = record(
    "MountingFastener",
    "A wall fastener at its place.",
    at_mm=number("from the wall's left end"),
    up_mm=number("over the strip's lower edge"),
    pull_n=number("pull"),
    shear_n=number("sideways load in all"),
    use=number("share of what it holds, 1 at the limit"),
    governs=text("what it would fail by"),
    down_n=number("load down", required=False),
    sideways_n=number("load along the wall", required=False),
)

MountingHook = record(
    "MountingHook",
    "What the bevel holds against the cabinet riding up it.",
    needed_n=number("inward pull that overturning needs"),
    gives_frictionless_n=number("held without friction"),
    gives_with_friction_n=number("held with friction"),
    rides_up=flag("whether it rides up"),
    rest_n=number("what is lacking"),
    hold_down_n=number("what must hold it down"),
)

FastenerCapacity = record(
    "FastenerCapacity",
    "What one fastener carries, the load duration factor in.",
    thread_mm=number("thread in the wood"),
    penetration_mm=number("depth in the wood"),
    gap_mm=number("what carries nothing"),
    withdrawal_n=number("thread pulled out"),
    pull_through_n=number("head pulled through"),
    pull_n=number("the lesser of both"),
    lateral_n=number("sideways"),
    mode=text("yield mode that governs"),
    modes_n=pairs("each yield mode's name and load"),
    geometry=number("geometry factor"),
    group=number("group action factor"),
)

AntiLift = record(
    "AntiLift",
    "The fastener that stops the cabinet lifting off.",
    needed_n=number("what it must hold"),
    capacity_n=number("what it holds"),
    use=number("share of what it holds"),
)

StripExtension = record(
    "StripExtension",
    "How much longer the wall strip must be to catch one more stud.",
    side=word("at which end", "left", "right"),
    by_mm=number("how much longer"),
    stud_at_mm=number("centre of that stud"),
)

LikelyUse = record(
    "LikelyUse",
    "What the hardest-worked fastener likely comes to; it decides nothing.",
    pull_n=number("pull"),
    lateral_n=number("sideways"),
    use=number("share of what it holds"),
    taken=text("what was taken for it"),
)

ProofLoad = record(
    "ProofLoad",
    "A standard's proof load on the same fasteners: a comparison, no service load.",
    load_n=number("the load"),
    use=number("share of what they hold"),
    source=text("code of its source"),
)

PlanMounting = record(
    "PlanMounting",
    "How a cabinet hangs or stands. One that hangs has `weight_n` to `proofs`, one that stands `stands` to "
    "`fixing_pull_n`, and neither where the wall is not given.",
    cabinet=CABINET,
    method=text("id of its method"),
    lift=size("rise needed to engage"),
    lengths=mapping(number("in the job's units"), "sizes of its wall parts by name"),
    cautions=texts("the usual cautions"),
    pointer=text("JSON Pointer of its place", required=False),
    one_cleat_with=texts("JSON Pointers of places on the same wall cleat", required=False),
    given=one(MountingGiven, required=False),
    fasteners=rows(MountingFastener, "the wall fasteners", required=False),
    use=number("use of the hardest-worked, 1 at the limit", required=False, allow_none=True),
    weight_n=number("weight with contents", required=False),
    hook=one(MountingHook, "null: it has none", required=False, allow_none=True),
    pull_n=number("pull of all fasteners", required=False),
    capacity=one(FastenerCapacity, "of one fastener; null: not known", required=False, allow_none=True),
    anti_lift=one(AntiLift, "null: none", required=False, allow_none=True),
    caught_studs_mm=numbers("studs that the strip reaches, from the wall's left end", required=False),
    works_between_mm=numbers("left ends at which it holds too", required=False, allow_none=True),
    stud_sets=points("sets of studs that would do, in millimetres", required=False),
    extension=one(StripExtension, "null: none would help", required=False, allow_none=True),
    likely=one(LikelyUse, "null: not computed", required=False, allow_none=True),
    proofs=rows(ProofLoad, "proof loads", required=False),
    stands=flag("whether it stands by itself", required=False),
    tipping_n_m=number("what tips it, in newton metres", required=False),
    holding_n_m=number("what keeps it up, in newton metres", required=False),
    stands_leaned_on=flag("whether it stands with a person leaning on it", required=False),
    tipping_leaned_on_n_m=number("what then tips it, in newton metres", required=False),
    tip_margin=number("margin asked for", required=False),
    fixing_height_mm=number("height of its wall fixing", required=False),
    fixing_pull_n=number("pull of its wall fixing", required=False),
)

SharedCleat = record(
    "SharedCleat",
    "Whether neighbours may hang on one wall cleat.",
    pointers=texts("JSON Pointers of their places"),
    works=flag("whether it holds"),
    use=number("use of the hardest-worked fastener", allow_none=True),
    left_mm=number("left end of the cleat"),
    length_mm=number("its length"),
    studs_mm=numbers("studs it reaches"),
    fasteners=rows(MountingFastener, "its fasteners"),
    why_not=text("why it does not"),
)
