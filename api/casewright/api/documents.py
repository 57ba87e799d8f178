"""Jobs and plans as typed dictionaries. Written by `casewright openapi --types`: not by hand."""

# ruff: noqa
# fmt: off

from decimal import Decimal
from fractions import Fraction
from typing import Any, Literal, NotRequired, TypeAlias, TypedDict

Length: TypeAlias = int | float | str | Decimal | Fraction
"""A number in the job's units, or text as a tape is read, with a unit or without."""
SignedLength: TypeAlias = Length
Id: TypeAlias = str
"""Letters, digits, dot, dash and underscore, beginning with a letter or digit."""

class Accuracy(TypedDict):
    """Accuracy"""

    band: "NotRequired[Length]"
    bore: "NotRequired[Length]"
    crosscut: "NotRequired[Length]"
    dovetail: "NotRequired[Length]"
    fit: "NotRequired[Length]"
    groove: "NotRequired[Length]"
    mark: "NotRequired[Length]"
    measure: "NotRequired[Length]"
    notch: "NotRequired[Length]"
    profile: "NotRequired[Length]"
    rabbet: "NotRequired[Length]"
    rip: "NotRequired[Length]"
    sheet: "NotRequired[Length]"
    tenon: "NotRequired[Length]"
    thickness: "NotRequired[Length]"
    trim: "NotRequired[Length]"

class AntiLift(TypedDict):
    """The fastener that stops the cabinet lifting off."""

    capacity_n: "float"
    needed_n: "float"
    use: "float"

class Back(TypedDict):
    """Back"""

    inset: "NotRequired[Length]"
    joint: "NotRequired[PanelJoint]"
    material: "NotRequired[Id]"

class Base(TypedDict):
    """Base"""

    height: "Length"
    kind: "Literal['toe-recess', 'plinth', 'feet']"
    material: "NotRequired[Id]"
    setback: "NotRequired[Length]"

class BenchText(TypedDict):
    """Sizes rounded to the tape."""

    length: "str"
    thickness: "str"
    width: "str"

class BoardDistance(TypedDict):
    """A distance."""

    distance: "float"
    distance_text: "str"

class BoardYield(TypedDict):
    """What a board yields."""

    board_feet: "float"
    crosscuts: "list[BoardDistance]"
    layout: "int"
    part_board_feet: "float"
    rips: "list[BoardDistance]"
    stock: "str"
    use: "float"

class BuiltSize(TypedDict):
    """BuiltSize"""

    at: "NotRequired[Literal['left', 'middle', 'right', 'top', 'bottom', 'front', 'back']]"
    cabinet: "Id"
    copy: "NotRequired[int]"
    count: "NotRequired[int]"
    measure: "NotRequired[Literal['length', 'width', 'thickness', 'outside-width', 'outside-height', 'outside-depth', 'diagonal-rising', 'diagonal-falling', 'opening-width', 'opening-height']]"
    mistake: "NotRequired[Literal['panel-forgotten', 'meets-neighbour', 'groove-on-wrong-face', 'hinge-on-wrong-side']]"
    packed: "NotRequired[Length]"
    part: "NotRequired[str]"
    value: "NotRequired[Length]"

class BuiltView(TypedDict):
    """What comes out otherwise by what is built, and what no longer fits."""

    built: "PlanBuilt | None"
    checks: "list[PlanCheck]"
    fingerprint: "Fingerprint"
    made_by: "MadeBy"
    stops: "Stops"
    summary: "list[Summary]"
    tape: "Tape"
    title: "str"
    units: "Units"

class Cabinet(TypedDict):
    """Cabinet"""

    base: "NotRequired[Base | None]"
    case: "NotRequired[Case]"
    count: "NotRequired[int]"
    counter: "NotRequired[Counter | None]"
    depth: "NotRequired[Length]"
    doors: "NotRequired[Doors]"
    drawers: "NotRequired[Drawers | None]"
    ends: "NotRequired[Ends]"
    face_frame: "NotRequired[FaceFrame | None]"
    form: "NotRequired[Literal['wall', 'base', 'tall']]"
    height: "NotRequired[Length]"
    id: "Id"
    loading: "NotRequired[Loading]"
    mounting: "NotRequired[MountingBevelCleat | MountingScrewStrip | MountingWithoutMethod | None]"
    space: "NotRequired[Space]"
    title: "NotRequired[str]"
    width: "NotRequired[Length]"

class Case(TypedDict):
    """Case"""

    back: "NotRequired[Back | None]"
    bottom_corner: "NotRequired[CornerJoint | None]"
    bottom_inset: "NotRequired[Length]"
    case_band: "NotRequired[IdOrNull]"
    corner: "NotRequired[CornerJoint]"
    fixed_joint: "NotRequired[TeeJoint]"
    material: "NotRequired[Id]"
    pins: "NotRequired[Pins]"
    shelf_band: "NotRequired[IdOrNull]"
    shelf_material: "NotRequired[Id]"
    shelf_setback: "NotRequired[Length]"
    stretcher: "NotRequired[Length]"
    top_inset: "NotRequired[Length]"
    top_kind: "NotRequired[Literal['full', 'stretchers']]"

class CleanRoom(TypedDict):
    """A clean piece of one with defects."""

    length: "float"
    piece: "str"
    stock: "str"
    width: "float"
    x: "float"
    y: "float"

class Climate(TypedDict):
    """Climate"""

    room_c: "NotRequired[float]"
    room_dampest: "NotRequired[float]"
    room_driest: "NotRequired[float]"
    shop_c: "NotRequired[float]"
    shop_humidity: "NotRequired[float]"

class Coat(TypedDict):
    """Coat"""

    minutes: "NotRequired[int]"
    what: "str"

class Counter(TypedDict):
    """Counter"""

    front: "NotRequired[Length]"
    left: "NotRequired[Length]"
    material: "Id"
    right: "NotRequired[Length]"

class Cure(TypedDict):
    """A change that was planned and clears its stop."""

    clears: "int"
    cost: "str | None"
    keeps: "bool"
    leaves: "list[PlanCheck]"
    mass_kg: "float"
    mass_lb: "NotRequired[float]"
    parts_changed: "int"
    patch: "list[PatchOperation]"
    raises: "list[PlanCheck]"
    unpriced: "int"
    words: "str"

class CuresView(TypedDict):
    """The cures of every stop."""

    cures: "list[StopCures]"
    currency: "str | None"
    fingerprint: "Fingerprint"
    made_by: "MadeBy"
    most_tries: "int"
    stops: "Stops"
    tape: "Tape"
    title: "str"
    tries: "int"
    units: "Units"

class CutPiece(TypedDict):
    """A piece on its way, and what cuts make of it."""

    cuts: "NotRequired[list[int]]"
    inside: "NotRequired[list[CutPiece]]"
    length: "float"
    part: "NotRequired[str]"
    piece: "str"
    what: "Literal['stock', 'piece', 'part', 'leftover', 'waste']"
    width: "float"
    x: "float"
    y: "float"

class Defect(TypedDict):
    """Defect"""

    length: "Length"
    width: "Length"
    x: "Length"
    y: "Length"

class DoorsCopeAndStick(TypedDict):
    """Cope and stick"""

    band: "NotRequired[IdOrNull]"
    bore: "NotRequired[LengthOrNull]"
    bore_edge: "NotRequired[LengthOrNull]"
    bottom_rail: "NotRequired[LengthOrNull]"
    gap: "NotRequired[Length]"
    groove_depth: "NotRequired[LengthOrNull]"
    groove_width: "NotRequired[LengthOrNull]"
    hang: "NotRequired[Hang]"
    hinge: "NotRequired[Id]"
    hinges: "NotRequired[Hinges]"
    inner_edge: "NotRequired[Literal['square', 'moulded']]"
    material: "NotRequired[Id]"
    meeting_gap: "NotRequired[Length]"
    mid_rails: "NotRequired[int]"
    overlay: "NotRequired[Length]"
    panel: "NotRequired[IdOrNull]"
    panel_clearance: "NotRequired[LengthOrNull]"
    panel_kind: "NotRequired[PanelKind]"
    pull: "NotRequired[Pull | None]"
    rail: "NotRequired[LengthOrNull]"
    stand_off: "NotRequired[Length]"
    stile: "NotRequired[LengthOrNull]"
    style: "Literal['cope-and-stick']"
    top_rail: "NotRequired[LengthOrNull]"

class DoorsMitredFrame(TypedDict):
    """Mitred frame"""

    band: "NotRequired[IdOrNull]"
    bore: "NotRequired[LengthOrNull]"
    bore_edge: "NotRequired[LengthOrNull]"
    bottom_rail: "NotRequired[LengthOrNull]"
    gap: "NotRequired[Length]"
    groove_depth: "NotRequired[LengthOrNull]"
    groove_width: "NotRequired[LengthOrNull]"
    hang: "NotRequired[Hang]"
    hinge: "NotRequired[Id]"
    hinges: "NotRequired[Hinges]"
    inner_edge: "NotRequired[Literal['square', 'moulded']]"
    material: "NotRequired[Id]"
    meeting_gap: "NotRequired[Length]"
    mid_rails: "NotRequired[int]"
    overlay: "NotRequired[Length]"
    panel: "NotRequired[IdOrNull]"
    panel_clearance: "NotRequired[LengthOrNull]"
    panel_kind: "NotRequired[PanelKind]"
    pull: "NotRequired[Pull | None]"
    rail: "NotRequired[LengthOrNull]"
    stand_off: "NotRequired[Length]"
    stile: "NotRequired[LengthOrNull]"
    style: "Literal['mitred-frame']"
    top_rail: "NotRequired[LengthOrNull]"

class DoorsMortiseAndTenon(TypedDict):
    """Mortise and tenon"""

    band: "NotRequired[IdOrNull]"
    bore: "NotRequired[LengthOrNull]"
    bore_edge: "NotRequired[LengthOrNull]"
    bottom_rail: "NotRequired[LengthOrNull]"
    gap: "NotRequired[Length]"
    groove_depth: "NotRequired[LengthOrNull]"
    groove_width: "NotRequired[LengthOrNull]"
    hang: "NotRequired[Hang]"
    hinge: "NotRequired[Id]"
    hinges: "NotRequired[Hinges]"
    material: "NotRequired[Id]"
    meeting_gap: "NotRequired[Length]"
    mid_rails: "NotRequired[int]"
    overlay: "NotRequired[Length]"
    panel: "NotRequired[IdOrNull]"
    panel_clearance: "NotRequired[LengthOrNull]"
    panel_kind: "NotRequired[PanelKind]"
    pull: "NotRequired[Pull | None]"
    rail: "NotRequired[LengthOrNull]"
    stand_off: "NotRequired[Length]"
    stile: "NotRequired[LengthOrNull]"
    style: "Literal['mortise-and-tenon']"
    tenon: "NotRequired[LengthOrNull]"
    top_rail: "NotRequired[LengthOrNull]"

class DoorsPlankAndBatten(TypedDict):
    """Planks with battens"""

    band: "NotRequired[IdOrNull]"
    batten_from_edge: "NotRequired[LengthOrNull]"
    batten_from_end: "NotRequired[LengthOrNull]"
    batten_width: "NotRequired[LengthOrNull]"
    battens: "NotRequired[int]"
    bore: "NotRequired[LengthOrNull]"
    bore_edge: "NotRequired[LengthOrNull]"
    edge: "NotRequired[Literal['lapped', 'square']]"
    gap: "NotRequired[Length]"
    hang: "NotRequired[Hang]"
    hinge: "NotRequired[Id]"
    hinges: "NotRequired[Hinges]"
    lap: "NotRequired[LengthOrNull]"
    material: "NotRequired[Id]"
    meeting_gap: "NotRequired[Length]"
    overlay: "NotRequired[Length]"
    panel: "NotRequired[IdOrNull]"
    plank_gap: "NotRequired[LengthOrNull]"
    plank_width: "NotRequired[LengthOrNull]"
    pull: "NotRequired[Pull | None]"
    stand_off: "NotRequired[Length]"
    style: "Literal['plank-and-batten']"

class DoorsSlab(TypedDict):
    """Slab"""

    band: "NotRequired[IdOrNull]"
    bore: "NotRequired[LengthOrNull]"
    bore_edge: "NotRequired[LengthOrNull]"
    gap: "NotRequired[Length]"
    hang: "NotRequired[Hang]"
    hinge: "NotRequired[Id]"
    hinges: "NotRequired[Hinges]"
    material: "NotRequired[Id]"
    meeting_gap: "NotRequired[Length]"
    overlay: "NotRequired[Length]"
    panel: "NotRequired[IdOrNull]"
    pull: "NotRequired[Pull | None]"
    stand_off: "NotRequired[Length]"
    style: "Literal['slab']"

class DoorsWithoutStyle(TypedDict):
    """Leaves the door style to the house."""

    band: "NotRequired[IdOrNull]"
    bore: "NotRequired[LengthOrNull]"
    bore_edge: "NotRequired[LengthOrNull]"
    gap: "NotRequired[Length]"
    hang: "NotRequired[Hang]"
    hinge: "NotRequired[Id]"
    hinges: "NotRequired[Hinges]"
    material: "NotRequired[Id]"
    meeting_gap: "NotRequired[Length]"
    overlay: "NotRequired[Length]"
    panel: "NotRequired[IdOrNull]"
    pull: "NotRequired[Pull | None]"
    stand_off: "NotRequired[Length]"

class DrawerCornerBoxDowel(TypedDict):
    """Dowel corner"""

    count: "NotRequired[int | None]"
    dowel: "NotRequired[str | None]"
    end_distance: "NotRequired[LengthOrNull]"
    method: "Literal['box-dowel']"
    spacing: "NotRequired[LengthOrNull]"

class DrawerCornerBoxJoint(TypedDict):
    """Box joint"""

    fingers: "NotRequired[int | None]"
    method: "Literal['box-joint']"

class DrawerCornerBoxRabbet(TypedDict):
    """Rabbet corner"""

    depth: "NotRequired[LengthOrNull]"
    method: "Literal['box-rabbet']"

class DrawerCornerHalfBlindDovetail(TypedDict):
    """Half-blind dovetail"""

    lap: "NotRequired[LengthOrNull]"
    method: "Literal['half-blind-dovetail']"
    slope: "NotRequired[float | None]"
    tails: "NotRequired[int | None]"

class Drawers(TypedDict):
    """Drawers"""

    above: "NotRequired[Length]"
    band: "NotRequired[IdOrNull]"
    below: "NotRequired[Length]"
    between: "NotRequired[Length]"
    bottom: "NotRequired[Id]"
    bottom_joint: "NotRequired[PanelJoint]"
    bottom_up: "NotRequired[Length]"
    corner: "NotRequired[DrawerCorner]"
    front: "NotRequired[Id]"
    gap: "NotRequired[Length]"
    hang: "NotRequired[Literal['overlay', 'inset']]"
    material: "NotRequired[Id]"
    overlay: "NotRequired[Length]"
    pull: "NotRequired[IdOrNull]"
    slide: "NotRequired[IdOrNull]"

class EdgeBand(TypedDict):
    """Edge band on a part."""

    edge: "Literal['end-low', 'end-high', 'edge-low', 'edge-high']"
    length: "float"
    material: "str"
    thickness: "float"

class Ends(TypedDict):
    """Ends"""

    left: "NotRequired[Literal['hidden', 'open', 'finished']]"
    material: "NotRequired[IdOrNull]"
    right: "NotRequired[Literal['hidden', 'open', 'finished']]"
    scribe: "NotRequired[Length]"

class FaceFrame(TypedDict):
    """FaceFrame"""

    bead: "NotRequired[Length]"
    joint: "NotRequired[FrameJoint]"
    material: "NotRequired[Id]"
    mid_rail: "NotRequired[Length]"
    mid_stile: "NotRequired[Length]"
    overhang: "NotRequired[Length]"
    rail: "NotRequired[Length]"
    stile: "NotRequired[Length]"

class FastenerCapacity(TypedDict):
    """What one fastener carries, the load duration factor in."""

    gap_mm: "float"
    geometry: "float"
    group: "float"
    lateral_n: "float"
    mode: "str"
    modes_n: "list[list[str | float]]"
    penetration_mm: "float"
    pull_n: "float"
    pull_through_n: "float"
    thread_mm: "float"
    withdrawal_n: "float"

class FeatureBox(TypedDict):
    """A box of waste, from the part's datum corner along length, width and thickness."""

    at: "list[float]"
    size: "list[float]"

class FeatureWedge(TypedDict):
    """A wedge of waste: half of a box, cut from edge to edge."""

    along: "Literal['length', 'width', 'thickness']"
    at: "list[float]"
    corner: "list[str]"
    size: "list[float]"

class Filler(TypedDict):
    """Filler"""

    material: "Id"
    scribe: "NotRequired[Length]"
    width: "NotRequired[Length]"

class Fillers(TypedDict):
    """Fillers"""

    left: "NotRequired[Filler]"
    right: "NotRequired[Filler]"

class FitsView(TypedDict):
    """Which fits the shop's accuracy carries, and what is taken from the work."""

    fingerprint: "Fingerprint"
    fits: "list[PlanFit]"
    fits_not_proved: "list[PlanUnprovedFit]"
    made_by: "MadeBy"
    stops: "Stops"
    tape: "Tape"
    title: "str"
    units: "Units"

class FromStockAnswer(TypedDict):
    """A whole job, what its plan comes to, what it buys, and the stock after it."""

    after: "StockAfter"
    best: "bool"
    buy: "list[StockPurchase]"
    changed: "NotRequired[float]"
    job: "Job"
    parts_area_m2: "float"
    parts_area_sq_ft: "NotRequired[float]"
    stops: "list[str]"
    summary: "list[Summary]"
    use: "float"
    values: "list[RangeValue]"
    volume_cu_ft: "NotRequired[float]"
    volume_l: "float"

class FromStockBound(TypedDict):
    """What no job of the ranges is worth more than, over the stated grid."""

    how: "str"
    parts_area_m2: "NotRequired[float]"
    parts_area_sq_ft: "NotRequired[float]"
    possible: "bool"
    volume_cu_ft: "NotRequired[float]"
    volume_l: "NotRequired[float]"

class FromStockView(TypedDict):
    """The best few jobs that the stock yields; the stops are those of the first."""

    aim: "Literal['largest', 'least-bought', 'least-left', 'least-change']"
    answers: "list[FromStockAnswer]"
    bound: "FromStockBound"
    fingerprint: "Fingerprint"
    lacking: "list[StockLacking]"
    made_by: "MadeBy"
    not_on_hand: "list[str]"
    stops: "Stops"
    tape: "Tape"
    title: "str"
    tries: "int"
    units: "Units"

class GlueTimes(TypedDict):
    """GlueTimes"""

    clamped: "NotRequired[int]"
    cure: "NotRequired[int]"
    open: "NotRequired[int]"

class House(TypedDict):
    """House"""

    base: "NotRequired[Base | None]"
    case: "NotRequired[Case]"
    counter: "NotRequired[Counter | None]"
    depth: "NotRequired[Length]"
    doors: "NotRequired[Doors]"
    drawers: "NotRequired[Drawers | None]"
    ends: "NotRequired[Ends]"
    face_frame: "NotRequired[FaceFrame | None]"
    form: "NotRequired[Literal['wall', 'base', 'tall']]"
    height: "NotRequired[Length]"
    loading: "NotRequired[Loading]"
    mounting: "NotRequired[MountingBevelCleat | MountingScrewStrip | MountingWithoutMethod | None]"
    space: "NotRequired[Space]"
    style: "NotRequired[Id]"
    width: "NotRequired[Length]"

class Item(TypedDict):
    """Something to buy."""

    item: "str"
    name: "str"
    quantity: "int"

class Job(TypedDict):
    """Job"""

    approved_by: "NotRequired[str]"
    built: "NotRequired[list[BuiltSize]]"
    cabinets: "NotRequired[list[Cabinet]]"
    climate: "NotRequired[Climate]"
    date: "NotRequired[str]"
    done: "NotRequired[list[int]]"
    drawn_by: "NotRequired[str]"
    house: "NotRequired[House]"
    loose_parts: "NotRequired[list[LoosePart]]"
    materials: "NotRequired[dict[str, Material]]"
    number: "NotRequired[str]"
    owner: "NotRequired[str]"
    rates: "NotRequired[Rates]"
    shop: "NotRequired[Shop]"
    stock: "NotRequired[Stock]"
    tape: "NotRequired[Literal['1', '1/2', '1/4', '1/8', '1/10', '1/16', '1/32', '1/64', '1/100', '1/128'] | float]"
    title: "NotRequired[str]"
    units: "Literal['in', 'mm']"
    wall: "NotRequired[Wall]"

class JointApplied(TypedDict):
    """Applied panel"""

    fastener: "NotRequired[Literal['screw', 'brad']]"
    method: "Literal['applied']"
    reveal: "NotRequired[Length]"
    spacing: "NotRequired[LengthOrNull]"

class JointBiscuit(TypedDict):
    """Biscuits"""

    count: "NotRequired[int | None]"
    method: "Literal['biscuit']"
    size: "NotRequired[Literal['0', '10', '20'] | None]"
    spacing: "NotRequired[LengthOrNull]"

class JointDowel(TypedDict):
    """Dowels"""

    count: "NotRequired[int | None]"
    dowel: "NotRequired[str | None]"
    end_distance: "NotRequired[LengthOrNull]"
    method: "Literal['dowel']"
    spacing: "NotRequired[LengthOrNull]"

class JointGluedButt(TypedDict):
    """Glued butt"""

    method: "Literal['glued-butt']"

class JointHalfLap(TypedDict):
    """Half lap"""

    method: "Literal['half-lap']"

class JointHousedGroove(TypedDict):
    """Housed groove"""

    clearance: "NotRequired[LengthOrNull]"
    depth: "NotRequired[LengthOrNull]"
    method: "Literal['housed-groove']"
    stop_end: "NotRequired[Length]"
    stop_start: "NotRequired[Length]"

class JointLooseTenon(TypedDict):
    """Loose tenon"""

    count: "NotRequired[int | None]"
    method: "Literal['loose-tenon']"
    spacing: "NotRequired[LengthOrNull]"
    tenon: "NotRequired[str | None]"

class JointMitre(TypedDict):
    """Mitre"""

    method: "Literal['mitre']"

class JointMitreSpline(TypedDict):
    """Mitre with spline"""

    method: "Literal['mitre-spline']"
    slot_depth: "NotRequired[LengthOrNull]"
    spline: "NotRequired[LengthOrNull]"

class JointPocketScrew(TypedDict):
    """Pocket screws"""

    count: "NotRequired[int | None]"
    face: "NotRequired[Literal['near', 'far']]"
    method: "Literal['pocket-screw']"
    spacing: "NotRequired[LengthOrNull]"

class JointRabbet(TypedDict):
    """Rabbet"""

    brads: "NotRequired[bool | None]"
    clearance: "NotRequired[LengthOrNull]"
    depth: "NotRequired[LengthOrNull]"
    method: "Literal['rabbet']"

class JointScrewedButt(TypedDict):
    """Screwed butt"""

    count: "NotRequired[int | None]"
    gauge: "NotRequired[int]"
    method: "Literal['screwed-butt']"
    spacing: "NotRequired[LengthOrNull]"

class JointSlidingDovetail(TypedDict):
    """Sliding dovetail"""

    angle_deg: "NotRequired[float | None]"
    clearance: "NotRequired[LengthOrNull]"
    depth: "NotRequired[LengthOrNull]"
    method: "Literal['sliding-dovetail']"
    shoulder: "NotRequired[LengthOrNull]"
    stop: "NotRequired[Length]"

class JointTongueInGroove(TypedDict):
    """Tongue in groove"""

    clearance: "NotRequired[LengthOrNull]"
    depth: "NotRequired[LengthOrNull]"
    method: "Literal['tongue-in-groove']"
    tongue: "NotRequired[LengthOrNull]"

class LeadHoles(TypedDict):
    """The two holes of one wall fastener."""

    shank_mm: "float"
    source: "str"
    thread_mm: "float"

class LikelyUse(TypedDict):
    """What the hardest-worked fastener likely comes to; it decides nothing."""

    lateral_n: "float"
    pull_n: "float"
    taken: "str"
    use: "float"

class Loading(TypedDict):
    """Loading"""

    lean_kg: "NotRequired[float]"
    lean_lb: "NotRequired[float]"
    limit: "NotRequired[Literal['sixteenth-per-foot', 'span-over-144', 'two-hundredths-per-foot']]"
    shelf_pa: "NotRequired[float]"
    shelf_psf: "NotRequired[float]"
    spread: "NotRequired[Literal['uniform', 'centre']]"
    tip_margin: "NotRequired[float]"

class LoosePart(TypedDict):
    """LoosePart"""

    grain: "NotRequired[Literal['along-length', 'along-width', 'free']]"
    id: "Id"
    length: "Length"
    material: "Id"
    quantity: "NotRequired[int]"
    width: "Length"

class MadeBy(TypedDict):
    """What made the plan."""

    plugins: "list[PluginName]"
    sdk: "str"
    software: "str"
    version: "str"

class Masonry(TypedDict):
    """Masonry"""

    anchors: "NotRequired[int]"
    approval: "str"
    diameter: "NotRequired[Length]"
    head: "NotRequired[Length]"
    shear_n: "float"
    stand_off: "NotRequired[Length]"
    tension_n: "float"

class Material(TypedDict):
    """Material"""

    kind: "Literal['sheet', 'board', 'band']"
    nominal: "NotRequired[str]"
    stuff: "Id"
    thickness: "Length"
    widest: "NotRequired[Length]"

class Milling(TypedDict):
    """Milling"""

    edge: "NotRequired[Length]"
    length: "NotRequired[Length]"
    thickness: "NotRequired[Length]"
    width: "NotRequired[Length]"

Minutes = TypedDict("Minutes", {
    "band": "NotRequired[float]",
    "bevel": "NotRequired[float]",
    "crosscut": "NotRequired[float]",
    "door": "NotRequired[float]",
    "drawer": "NotRequired[float]",
    "edge-profile": "NotRequired[float]",
    "filler": "NotRequired[float]",
    "finish": "NotRequired[float]",
    "glue-up": "NotRequired[float]",
    "groove": "NotRequired[float]",
    "hang": "NotRequired[float]",
    "hinge": "NotRequired[float]",
    "hole": "NotRequired[float]",
    "joint": "NotRequired[float]",
    "mortise": "NotRequired[float]",
    "rabbet": "NotRequired[float]",
    "rip": "NotRequired[float]",
    "setting": "NotRequired[float]",
    "tenon": "NotRequired[float]",
})
"""Minutes"""

class MountingBevelCleat(TypedDict):
    """Bevelled cleat"""

    anti_lift: "NotRequired[Literal['auto', 'top-strip', 'screw', 'none']]"
    bevel_deg: "NotRequired[float]"
    contents_duration: "NotRequired[ContentsDuration]"
    contents_from_front: "NotRequired[LengthOrNull]"
    contents_from_left: "NotRequired[LengthOrNull]"
    contents_kg: "NotRequired[float]"
    contents_lb: "NotRequired[float]"
    fastener: "NotRequired[str | None]"
    height: "NotRequired[LengthOrNull]"
    lift_play: "NotRequired[LengthOrNull]"
    material: "NotRequired[str | None]"
    method: "Literal['bevel-cleat']"
    per_stud: "NotRequired[int]"
    side_play: "NotRequired[LengthOrNull]"
    through: "NotRequired[Literal['none', 'left', 'right', 'both']]"

class MountingFastener(TypedDict):
    """A wall fastener at its place."""

    at_mm: "float"
    down_n: "NotRequired[float]"
    governs: "str"
    pull_n: "float"
    shear_n: "float"
    sideways_n: "NotRequired[float]"
    up_mm: "float"
    use: "float"

class MountingGiven(TypedDict):
    """What the hold was computed from; the first four of one that stands."""

    cabinet_kg: "NotRequired[float]"
    centre_out_mm: "NotRequired[float]"
    centre_x_mm: "NotRequired[float]"
    contents_assumed: "NotRequired[bool]"
    contents_kg: "NotRequired[float]"
    contents_placed: "NotRequired[bool]"
    duration_factor: "NotRequired[float]"
    fastener: "str | None"
    lead_holes: "NotRequired[LeadHoles | None]"
    lining_gap_mm: "NotRequired[float]"
    strip_left_mm: "NotRequired[float]"
    strip_length_mm: "NotRequired[float]"
    strip_low_mm: "float"
    strip_over_floor_mm: "float"
    strip_thickness_mm: "NotRequired[float]"
    wall: "Literal['studs', 'steel-studs', 'masonry', 'unknown']"

class MountingHook(TypedDict):
    """What the bevel holds against the cabinet riding up it."""

    gives_frictionless_n: "float"
    gives_with_friction_n: "float"
    hold_down_n: "float"
    needed_n: "float"
    rest_n: "float"
    rides_up: "bool"

class MountingScrewStrip(TypedDict):
    """Screw strip"""

    bottom: "NotRequired[bool | None]"
    contents_duration: "NotRequired[ContentsDuration]"
    contents_from_front: "NotRequired[LengthOrNull]"
    contents_from_left: "NotRequired[LengthOrNull]"
    contents_kg: "NotRequired[float]"
    contents_lb: "NotRequired[float]"
    fastener: "NotRequired[str | None]"
    height: "NotRequired[LengthOrNull]"
    material: "NotRequired[str | None]"
    method: "Literal['screw-strip']"
    per_stud: "NotRequired[int]"

class MountingWithoutMethod(TypedDict):
    """Leaves the mounting to the house."""

    contents_duration: "NotRequired[ContentsDuration]"
    contents_from_front: "NotRequired[LengthOrNull]"
    contents_from_left: "NotRequired[LengthOrNull]"
    contents_kg: "NotRequired[float]"
    contents_lb: "NotRequired[float]"

class Obstacle(TypedDict):
    """Obstacle"""

    height: "Length"
    id: "Id"
    keep_clear: "NotRequired[Length]"
    kind: "NotRequired[Literal['window', 'outlet', 'pipe', 'door', 'other']]"
    out: "NotRequired[Length]"
    width: "Length"
    x: "Length"
    z: "Length"

class Offcut(TypedDict):
    """Offcut"""

    copies: "NotRequired[int | None]"
    cost: "NotRequired[float]"
    defects: "NotRequired[list[Defect]]"
    grain: "NotRequired[Literal['along-length', 'along-width', 'free']]"
    id: "Id"
    length: "Length"
    material: "Id"
    taper: "NotRequired[Length]"
    width: "Length"

class Overlays(TypedDict):
    """Overlays"""

    bottom: "NotRequired[Length]"
    left: "NotRequired[Length]"
    right: "NotRequired[Length]"
    top: "NotRequired[Length]"

class PartMatch(TypedDict):
    """A part's place in a row of parts that are cut in sequence of one piece."""

    of: "int"
    place: "int"
    row: "str"

class PartPlace(TypedDict):
    """Where a part stands in its cabinet: its datum corner, and which way its axes run."""

    at: "list[float]"
    length: "str"
    thickness: "str"
    width: "str"

PartSides = TypedDict("PartSides", {
    "edge-high": "str",
    "edge-low": "str",
    "end-high": "str",
    "end-low": "str",
    "face-high": "str",
    "face-low": "str",
})
"""What the six sides of a part are called; steps name sides so."""

class PartsView(TypedDict):
    """The cut list with reasons."""

    fingerprint: "Fingerprint"
    made_by: "MadeBy"
    parts: "list[PlanPart]"
    stops: "Stops"
    tape: "Tape"
    title: "str"
    units: "Units"

PatchOperation = TypedDict("PatchOperation", {
    "from": "NotRequired[str]",
    "op": "Literal['add', 'remove', 'replace', 'move', 'copy', 'test']",
    "path": "str",
    "value": "NotRequired[Any]",
})
"""An operation of a JSON Patch (RFC 6902)."""

class PieceAfter(TypedDict):
    """A piece that is left, as the `stock` of a job lists it."""

    copies: "int | None"
    cost: "NotRequired[float]"
    cup: "NotRequired[float]"
    defects: "NotRequired[list[PieceDefect]]"
    grade: "NotRequired[Literal['face', 'hidden']]"
    grain: "NotRequired[Literal['along-length', 'along-width', 'free']]"
    id: "str"
    length: "float"
    material: "str"
    surfaced: "NotRequired[Literal['none', 'two-faces', 'all-sides']]"
    taper: "NotRequired[float]"
    thickness: "NotRequired[float]"
    twist: "NotRequired[float]"
    width: "float"

class PieceDefect(TypedDict):
    """A rectangle of a piece that no part may come from."""

    length: "float"
    width: "float"
    x: "float"
    y: "float"

class Pins(TypedDict):
    """Pins"""

    clear_ends: "NotRequired[Length]"
    depth: "NotRequired[LengthOrNull]"
    diameter: "NotRequired[Length]"
    from_back: "NotRequired[Length]"
    from_front: "NotRequired[Length]"
    pitch: "NotRequired[Length]"
    shelf_play: "NotRequired[Length]"

class PlacedPart(TypedDict):
    """A part on a piece of stock."""

    along_length: "float"
    along_width: "float"
    part: "str"
    turned: "bool"
    x: "float"
    y: "float"

class PlanBuilt(TypedDict):
    """What follows from what is built."""

    cabinets: "list[PlanBuiltCabinet]"
    changed: "list[PlanPartChange]"
    repairs: "list[PlanRepair]"

class PlanBuiltCabinet(TypedDict):
    """A cabinet as it comes out."""

    cabinet: "str"
    copies: "list[int]"
    planned: "str"
    sizes: "PlanBuiltSizes"

class PlanBuiltSizes(TypedDict):
    """The sizes that are others; only those."""

    depth: "NotRequired[PlanSizeChange]"
    height: "NotRequired[PlanSizeChange]"
    length: "NotRequired[PlanSizeChange]"
    thickness: "NotRequired[PlanSizeChange]"
    width: "NotRequired[PlanSizeChange]"

class PlanCheck(TypedDict):
    """A finding; level `stop` means do not cut."""

    code: "str"
    level: "Literal['stop', 'caution', 'note']"
    limit: "float | str | None"
    message: "str"
    source: "str"
    subject: "str"
    unit: "str"
    value: "float | str | None"

class PlanClash(TypedDict):
    """Two parts that would both fill a place."""

    first: "str"
    second: "str"
    volume_mm3: "float"

class PlanCostLine(TypedDict):
    """A line of cost: quantity times rate."""

    amount: "str | None"
    amount_minor: "int | None"
    hours: "float"
    item: "str"
    kind: "Literal['stock', 'hardware', 'band', 'glue', 'finish', 'work']"
    name: "str"
    note: "str"
    quantity: "float"
    rate: "str | None"
    unit: "str"

class PlanCosts(TypedDict):
    """What the job takes, and what that costs by the shop's own rates."""

    currency: "str"
    decimals: "int"
    hours: "float"
    lines: "list[PlanCostLine]"
    materials: "str | None"
    materials_minor: "int | None"
    missing: "int"
    total: "str | None"
    total_minor: "int | None"
    work: "str | None"
    work_minor: "int | None"

class PlanDoor(TypedDict):
    """A door as hung."""

    at: "list[float]"
    cabinet: "str"
    height: "float"
    hinge_side: "Literal['left', 'right']"
    hinges: "list[float]"
    id: "str"
    mass_kg: "float"
    mass_lb: "NotRequired[float]"
    parts: "list[str]"
    thickness: "float"
    width: "float"

class PlanDryFit(TypedDict):
    """The virtual dry fit."""

    approximations: "list[str]"
    clashes: "list[PlanClash]"
    outside: "list[PlanOutside]"
    pairs_checked: "int"
    seats: "list[PlanSeat]"

PlanFeature = TypedDict("PlanFeature", {
    "along": "NotRequired[Literal['length', 'width', 'thickness']]",
    "angle_deg": "NotRequired[float]",
    "at": "NotRequired[list[list[float]]]",
    "boxes": "NotRequired[list[FeatureBox]]",
    "depth": "NotRequired[float]",
    "diameter": "NotRequired[float]",
    "face": "Literal['end-low', 'end-high', 'edge-low', 'edge-high', 'face-low', 'face-high']",
    "for": "str",
    "joint": "NotRequired[str]",
    "kind": "Literal['groove', 'rabbet', 'notch', 'hole', 'mortise', 'loose-mortise', 'biscuit-slot', 'spline-slot', 'pocket', 'dovetail', 'fingers', 'tenon', 'bevel', 'edge-profile']",
    "offset": "NotRequired[float]",
    "text": "NotRequired[str]",
    "wedges": "NotRequired[list[FeatureWedge]]",
    "width": "NotRequired[float]",
})
"""A cut, measured from the part's datum corner along length, width and thickness."""

class PlanFit(TypedDict):
    """One fit, good from `least` to `most`; null is open."""

    adjust: "float"
    axis: "Literal['across', 'deep', 'up']"
    cabinet: "str"
    cautious: "float"
    chain: "list[PlanFitLink]"
    id: "str"
    kind: "Literal['door-gap', 'door-overlap', 'runner-room', 'shelf-play', 'panel-play', 'frame-flush', 'strip-play', 'run-gap']"
    largest: "list[PlanFitShare]"
    least: "float | None"
    measuring: "PlanMeasuring | None"
    most: "float | None"
    nominal: "float"
    parts: "list[str]"
    root: "float"
    text: "str"
    verdict: "Literal['holds', 'adjust', 'take-from-the-work']"
    worst: "float"

class PlanFitLink(TypedDict):
    """One cut of a fit's chain."""

    action: "Literal['measure', 'mark', 'face', 'edge', 'thickness', 'rip', 'crosscut', 'trim', 'groove', 'rabbet', 'notch', 'mortise', 'tenon', 'bore', 'pocket', 'dovetail', 'bevel', 'profile', 'band', 'fit', 'insert', 'glue', 'clamp', 'screw', 'hang', 'sand', 'finish', 'wait'] | None"
    factor: "float"
    half_width: "float"
    part: "str"
    set_up: "str"
    size: "float"
    step: "int | None"

class PlanFitShare(TypedDict):
    """What one set-up brings."""

    half_width: "float"
    set_up: "str"
    share: "float"

class PlanFromWork(TypedDict):
    """A size that is taken from the work."""

    among: "int"
    full: "float"
    less: "float"
    part: "str"
    planned: "float"
    size: "Literal['length', 'width']"

class PlanGap(TypedDict):
    """The room between two neighbours, less than zero where they overlap."""

    fillers: "list[str]"
    left: "str"
    right: "str"
    size: "float"
    text: "str"

PlanHardware = TypedDict("PlanHardware", {
    "at": "list[list[float]]",
    "cabinet": "str",
    "for": "str",
    "item": "str",
    "name": "str",
    "quantity": "int",
})
"""A line of hardware."""

class PlanJoint(TypedDict):
    """A joint: the guest enters the host by `seat`."""

    cabinet: "str"
    clearance: "float"
    glue_area_mm2: "float"
    guest: "str"
    host: "str"
    id: "str"
    kind: "str"
    method: "str"
    note: "NotRequired[str]"
    seat: "float"

class PlanLevel(TypedDict):
    """A height struck level along the wall."""

    height: "float"
    of: "Literal['bottoms', 'tops', 'cleat-bottoms', 'cleat-tops']"
    standings: "list[str]"
    text: "str"

class PlanMeasurement(TypedDict):
    """What is measured on the work and written down."""

    axis: "Literal['across', 'deep', 'up']"
    between: "list[str]"
    copies: "list[str]"
    dry: "list[str]"
    planned: "float"
    take: "Literal['least', 'greatest']"
    where: "Literal['between', 'over', 'groove-floors']"

class PlanMeasuring(TypedDict):
    """What is taken from the work: measured at a step, and then cut."""

    cautious: "float"
    good: "bool"
    measurement: "PlanMeasurement"
    root: "float"
    sizes: "list[PlanFromWork]"
    step: "int | None"
    worst: "float"

class PlanMounting(TypedDict):
    """How a cabinet hangs or stands. One that hangs has `weight_n` to `proofs`, one that stands `stands` to `fixing_pull_n`, and neither where the wall is not given."""

    anti_lift: "NotRequired[AntiLift | None]"
    cabinet: "str"
    capacity: "NotRequired[FastenerCapacity | None]"
    caught_studs_mm: "NotRequired[list[float]]"
    cautions: "list[str]"
    extension: "NotRequired[StripExtension | None]"
    fasteners: "NotRequired[list[MountingFastener]]"
    fixing_height_mm: "NotRequired[float]"
    fixing_pull_n: "NotRequired[float]"
    given: "NotRequired[MountingGiven]"
    holding_n_m: "NotRequired[float]"
    hook: "NotRequired[MountingHook | None]"
    lengths: "dict[str, float]"
    lift: "float"
    likely: "NotRequired[LikelyUse | None]"
    method: "str"
    one_cleat_with: "NotRequired[list[str]]"
    pointer: "NotRequired[str]"
    proofs: "NotRequired[list[ProofLoad]]"
    pull_n: "NotRequired[float]"
    stands: "NotRequired[bool]"
    stands_leaned_on: "NotRequired[bool]"
    stud_sets: "NotRequired[list[list[float]]]"
    tip_margin: "NotRequired[float]"
    tipping_leaned_on_n_m: "NotRequired[float]"
    tipping_n_m: "NotRequired[float]"
    use: "NotRequired[float | None]"
    weight_n: "NotRequired[float]"
    works_between_mm: "NotRequired[list[float] | None]"

class PlanOutside(TypedDict):
    """What a cabinet fills, put together."""

    cabinet: "str"
    high: "list[float]"
    low: "list[float]"

class PlanPacking(TypedDict):
    """What is packed at a standing by the readings of floor and wall."""

    bottom: "float"
    left: "float"
    right: "float"
    standing: "str"
    top: "float"

class PlanPart(TypedDict):
    """A part, by its finished size without edge band."""

    bought_to_size: "bool"
    built: "int"
    cabinet: "str"
    copies: "list[int]"
    edge_band: "list[EdgeBand]"
    features: "list[PlanFeature]"
    grain: "Literal['along-length', 'along-width', 'free']"
    group: "str"
    id: "str"
    length: "float"
    match: "PartMatch | None"
    material: "str"
    name: "str"
    no_stock: "int"
    over_size: "list[str]"
    place: "PartPlace"
    quantity: "int"
    role: "str"
    sides: "PartSides"
    text: "BenchText"
    thickness: "float"
    why: "Why"
    width: "float"

class PlanPartChange(TypedDict):
    """A part that comes out otherwise than in the plan with nothing built."""

    built: "bool"
    copies: "list[int]"
    cuts_changed: "bool"
    part: "str"
    planned: "str"
    sizes: "PlanBuiltSizes"

class PlanRepair(TypedDict):
    """The least that puts a mistake right."""

    again: "list[str]"
    cabinet: "str"
    do: "str"
    mistake: "Literal['panel-forgotten', 'meets-neighbour', 'groove-on-wrong-face', 'hinge-on-wrong-side']"
    part: "str"
    pointer: "str"

class PlanRun(TypedDict):
    """Cabinets along the wall, from left to right."""

    approximations: "list[str]"
    gaps: "list[PlanGap]"
    high_spot: "float | None"
    levels: "list[PlanLevel]"
    order: "list[str]"
    packing: "list[PlanPacking]"
    shared_cleats: "list[SharedCleat]"
    standings: "list[PlanStanding]"
    swings: "list[PlanSwing]"

class PlanSchedule(TypedDict):
    """What is left of the work, for one person."""

    finish: "float"
    hands_on: "float"
    left: "int"
    untimed: "int"

class PlanSeat(TypedDict):
    """A joint brought home."""

    clearance: "float"
    joint: "str"
    seat: "float"
    seated: "bool"

class PlanSizeChange(TypedDict):
    """A size as it was planned and as it is now."""

    by: "float"
    now: "float"
    text: "str"
    was: "float"

class PlanStanding(TypedDict):
    """A cabinet at its place: x from the wall's left end, y 0 at its back, z from the floor."""

    cabinet: "str"
    high: "list[float]"
    low: "list[float]"
    name: "str"
    number: "int"
    pointer: "str"
    studs: "list[float]"

class PlanStep(TypedDict):
    """An operation: one machine at one setting, over all pieces."""

    action: "Literal['measure', 'mark', 'face', 'edge', 'thickness', 'rip', 'crosscut', 'trim', 'groove', 'rabbet', 'notch', 'mortise', 'tenon', 'bore', 'pocket', 'dovetail', 'bevel', 'profile', 'band', 'fit', 'insert', 'glue', 'clamp', 'screw', 'hang', 'sand', 'finish', 'wait']"
    cautions: "list[str]"
    check: "str"
    cut_to: "NotRequired[StepCutTo]"
    do: "str"
    done: "NotRequired[bool]"
    finish: "NotRequired[float]"
    lines: "list[str]"
    machine: "Literal['jointer', 'planer', 'table-saw', 'track-saw', 'mitre-saw', 'crosscut-sled', 'router-table', 'router', 'drill-press', 'drill', 'mortiser', 'loose-tenon-machine', 'biscuit-machine', 'jigsaw', 'band-saw', 'by-hand']"
    meanwhile: "NotRequired[list[int]]"
    measurement: "NotRequired[PlanMeasurement]"
    minutes: "NotRequired[float]"
    moves: "NotRequired[list[StepMove]]"
    needs: "list[int]"
    number: "int"
    on: "list[StepPiece]"
    setting: "StepSetting"
    stage: "Literal['measure', 'mill', 'cut', 'joints', 'dry-fit', 'glue', 'face-frame', 'band', 'doors', 'drawers', 'hardware', 'base', 'ends', 'mounting', 'set-out', 'hang', 'counter', 'join', 'fillers', 'finish']"
    start: "NotRequired[float]"

class PlanStock(TypedDict):
    """How the parts are cut from stock."""

    after: "StockAfter"
    boards: "list[BoardYield]"
    bound: "list[StockBound]"
    buy: "list[StockPurchase]"
    clean: "list[CleanRoom]"
    different_settings: "int"
    effort: "int"
    lacking: "list[StockLacking]"
    layouts: "list[StockLayout]"
    leftovers: "list[StockLeftover]"
    pieces_at_hand: "int"
    returns: "int"
    returns_bound: "int"
    returns_by_setting: "int | None"
    returns_proved: "bool"
    short: "list[StockShort]"
    steps: "int"
    use: "float"

class PlanSwing(TypedDict):
    """How far a door opens at its place."""

    door: "str"
    full_deg: "float"
    meets: "str | None"
    opens_deg: "float"
    standing: "str"

class PlanTerm(TypedDict):
    """One signed term of a size's reason."""

    term: "str"
    text: "str"
    value: "float"

class PlanUnprovedFit(TypedDict):
    """A fit that matters and of which nothing is proved: it is tried on the work."""

    axis: "Literal['across', 'deep', 'up']"
    cabinet: "str"
    id: "str"
    kind: "Literal['door-gap', 'door-overlap', 'runner-room', 'shelf-play', 'panel-play', 'frame-flush', 'strip-play', 'run-gap']"
    why: "Literal['no-bounds', 'no-chain']"

class PlanView(TypedDict):
    """The whole plan."""

    built: "PlanBuilt | None"
    checks: "list[PlanCheck]"
    costs: "PlanCosts"
    doors: "list[PlanDoor]"
    dry_fit: "PlanDryFit"
    fingerprint: "Fingerprint"
    fits: "list[PlanFit]"
    fits_not_proved: "list[PlanUnprovedFit]"
    hardware: "list[PlanHardware]"
    joints: "list[PlanJoint]"
    made_by: "MadeBy"
    mounting: "list[PlanMounting]"
    origins: "dict[str, Literal['default', 'house', 'house-style']]"
    parts: "list[PlanPart]"
    run: "PlanRun | None"
    schedule: "PlanSchedule"
    steps: "list[PlanStep]"
    stock: "PlanStock | None"
    stops: "Stops"
    summary: "list[Summary]"
    tape: "Tape"
    title: "str"
    units: "Units"
    weights: "list[PlanWeight]"
    workshop: "list[PlanWorkshop]"

class PlanWeight(TypedDict):
    """An empty cabinet's mass and its centre."""

    cabinet: "str"
    centre: "list[float]"
    mass_kg: "float"
    mass_lb: "NotRequired[float]"

class PlanWorkshop(TypedDict):
    """What one copy of a cabinet asks of glue, band and finish."""

    band_length: "float"
    cabinet: "str"
    finish_area_mm2: "float"
    glue_area_mm2: "float"
    glue_g: "float"

class PluginName(TypedDict):
    """A plugin that was loaded."""

    distribution: "str"
    name: "str"
    version: "str"

class ProofLoad(TypedDict):
    """A standard's proof load on the same fasteners: a comparison, no service load."""

    load_n: "float"
    source: "str"
    use: "float"

class Pull(TypedDict):
    """Pull"""

    at_end: "NotRequired[Literal['lower', 'upper']]"
    direction: "NotRequired[Literal['upright', 'level']]"
    from_edge: "NotRequired[LengthOrNull]"
    from_end: "NotRequired[Length]"
    item: "Id"

class RangeValue(TypedDict):
    """A range of the job, and the value it has in an answer."""

    pointer: "str"
    value: "float"

class Rates(TypedDict):
    """Rates"""

    band_per_m: "NotRequired[dict[str, float]]"
    coats: "NotRequired[int]"
    currency: "NotRequired[str]"
    decimals: "NotRequired[int]"
    finish_per_m2: "NotRequired[float]"
    glue_per_kg: "NotRequired[float]"
    hardware: "NotRequired[dict[str, float]]"
    hour: "NotRequired[float]"
    minutes: "NotRequired[Minutes]"

class Reading(TypedDict):
    """Reading"""

    at: "Length"
    of: "Literal['floor', 'back', 'left', 'right']"
    off: "SignedLength"

class RoughBoard(TypedDict):
    """RoughBoard"""

    copies: "NotRequired[int | None]"
    cost: "NotRequired[float]"
    cup: "NotRequired[Length]"
    defects: "NotRequired[list[Defect]]"
    grade: "NotRequired[Literal['face', 'hidden']]"
    id: "Id"
    length: "Length"
    material: "Id"
    surfaced: "NotRequired[Literal['none', 'two-faces', 'all-sides']]"
    taper: "NotRequired[Length]"
    thickness: "NotRequired[Length]"
    twist: "NotRequired[Length]"
    width: "Length"

class SawCut(TypedDict):
    """A cut of the saw, in working order."""

    along: "Literal['length', 'width']"
    fence: "float"
    fence_text: "str"
    kerf: "float"
    leaves: "str | None"
    makes: "str"
    number: "int"
    piece: "str"
    rides: "Literal['makes', 'leaves']"
    step: "int"
    tool: "Literal['fence', 'stop', 'track']"

class SharedCleat(TypedDict):
    """Whether neighbours may hang on one wall cleat."""

    fasteners: "list[MountingFastener]"
    left_mm: "float"
    length_mm: "float"
    pointers: "list[str]"
    studs_mm: "list[float]"
    use: "float | None"
    why_not: "str"
    works: "bool"

class Shop(TypedDict):
    """Shop"""

    accuracy: "NotRequired[Accuracy]"
    crosscut_capacity: "NotRequired[Length]"
    driver: "NotRequired[Length]"
    finish: "NotRequired[list[Coat]]"
    fit: "NotRequired[Length]"
    glue: "NotRequired[GlueTimes]"
    groove_cutters: "NotRequired[list[Length]]"
    keep_offcut: "NotRequired[list[Length]]"
    machines: "NotRequired[list[Literal['jointer', 'planer', 'table-saw', 'track-saw', 'mitre-saw', 'crosscut-sled', 'router-table', 'router', 'drill-press', 'drill', 'mortiser', 'loose-tenon-machine', 'biscuit-machine', 'jigsaw', 'band-saw', 'by-hand']]]"
    rip_capacity: "NotRequired[Length]"
    same: "NotRequired[Length]"
    wall_allowance: "NotRequired[Length]"

class Space(TypedDict):
    """Space"""

    bays: "NotRequired[list[SpaceEntry]]"
    drawer_heights: "NotRequired[list[LengthOrNull]]"
    drawer_rule: "NotRequired[Literal['equal', 'graduated']]"
    drawers: "NotRequired[int]"
    fixed_shelves: "NotRequired[int | list[Length]]"
    front: "NotRequired[Literal['open', 'door', 'door-pair', 'drawer']]"
    hinge_side: "NotRequired[Literal['left', 'right']]"
    loose_shelves: "NotRequired[int]"
    match: "NotRequired[bool]"
    overlays: "NotRequired[Overlays]"
    tiers: "NotRequired[list[SpaceEntry]]"

class SpaceEntry(TypedDict):
    """SpaceEntry"""

    bays: "NotRequired[list[SpaceEntry]]"
    drawer_heights: "NotRequired[list[LengthOrNull]]"
    drawer_rule: "NotRequired[Literal['equal', 'graduated']]"
    drawers: "NotRequired[int]"
    fixed_shelves: "NotRequired[int | list[Length]]"
    front: "NotRequired[Literal['open', 'door', 'door-pair', 'drawer']]"
    hinge_side: "NotRequired[Literal['left', 'right']]"
    loose_shelves: "NotRequired[int]"
    match: "NotRequired[bool]"
    overlays: "NotRequired[Overlays]"
    share: "NotRequired[int]"
    size: "NotRequired[Length]"
    tiers: "NotRequired[list[SpaceEntry]]"

class Spot(TypedDict):
    """Spot"""

    fillers: "NotRequired[Fillers]"
    x: "SignedLength"
    z: "Length"

class StepCutTo(TypedDict):
    """What a cut is set to in place of the planned distance: what `step` measured, less `less`, over `among`."""

    among: "int"
    full: "float"
    less: "float"
    step: "int"

class StepMove(TypedDict):
    """A straight move that sets a part in, by the cabinet's directions."""

    by: "NotRequired[float]"
    towards: "Literal['right', 'left', 'back', 'front', 'up', 'down']"

StepPiece = TypedDict("StepPiece", {
    "against": "NotRequired[str]",
    "at": "NotRequired[list[list[float]]]",
    "clamps": "NotRequired[int]",
    "count": "int",
    "cuts": "NotRequired[list[str]]",
    "down": "NotRequired[str]",
    "glue": "NotRequired[list[str]]",
    "into": "NotRequired[list[str]]",
    "keeps": "NotRequired[str]",
    "leads": "NotRequired[str]",
    "leaves": "NotRequired[str]",
    "part": "NotRequired[str]",
    "pass": "NotRequired[list[int]]",
    "piece": "NotRequired[str]",
})
"""A part, or a piece on its way to parts: how it lies, what is cut, kept and left."""

class StepSetting(TypedDict):
    """How the machine is set; only what the operation has."""

    cutter: "NotRequired[float]"
    depth: "NotRequired[float]"
    end: "NotRequired[float]"
    fence: "NotRequired[float]"
    height: "NotRequired[float]"
    kerf: "NotRequired[float]"
    start: "NotRequired[float]"
    stop: "NotRequired[float]"
    tilt_deg: "NotRequired[float]"
    tilts: "NotRequired[Literal['far', 'near']]"
    turn_deg: "NotRequired[float]"

class StepsView(TypedDict):
    """The order of work."""

    fingerprint: "Fingerprint"
    made_by: "MadeBy"
    schedule: "PlanSchedule"
    steps: "list[PlanStep]"
    stops: "Stops"
    tape: "Tape"
    title: "str"
    units: "Units"

class Stock(TypedDict):
    """Stock"""

    boards: "NotRequired[list[RoughBoard]]"
    edge_trim: "NotRequired[Length]"
    effort: "NotRequired[int]"
    kerf: "NotRequired[Length]"
    milling: "NotRequired[Milling]"
    offcuts: "NotRequired[list[Offcut]]"
    order: "NotRequired[Literal['by-setting', 'by-sheet']]"
    pieces_at_hand: "NotRequired[int]"
    sheets: "NotRequired[list[StockPiece]]"

class StockAfter(TypedDict):
    """The stock after this job, as the `stock` of the next one lists it."""

    boards: "list[PieceAfter]"
    offcuts: "list[PieceAfter]"
    sheets: "list[PieceAfter]"

class StockBound(TypedDict):
    """The least that could be bought, beside what is bought."""

    bought_cost: "NotRequired[float]"
    bought_m2: "NotRequired[float]"
    how: "str"
    kind: "Literal['sheet', 'board']"
    least_cost: "NotRequired[float]"
    least_m2: "NotRequired[float]"
    material: "str"
    measure: "Literal['area', 'cost']"
    proved_least: "bool"
    thickness: "float"
    thickness_text: "str"

class StockLacking(TypedDict):
    """A material of which there is too little, and what would do."""

    buy: "list[StockPurchase]"
    kind: "Literal['sheet', 'board']"
    material: "str"
    parts: "int"
    thickness: "float"
    thickness_text: "str"
    turn: "list[str]"
    unmatch: "list[str]"

class StockLayout(TypedDict):
    """A piece of stock and how it is cut."""

    cuts: "list[SawCut]"
    kind: "Literal['sheet', 'board']"
    length: "float"
    length_text: "str"
    material: "str"
    number: "int"
    parts: "list[PlacedPart]"
    stock: "str"
    thickness: "float"
    thickness_text: "str"
    tree: "CutPiece"
    use: "float"
    width: "float"
    width_text: "str"

class StockLeftover(TypedDict):
    """What is left of a piece of stock."""

    keep: "bool"
    layout: "int"
    length: "float"
    length_text: "str"
    line: "str"
    piece: "str"
    stock: "str"
    width: "float"
    width_text: "str"

class StockPiece(TypedDict):
    """StockPiece"""

    copies: "NotRequired[int | None]"
    cost: "NotRequired[float]"
    defects: "NotRequired[list[Defect]]"
    grain: "NotRequired[Literal['along-length', 'along-width', 'free']]"
    id: "Id"
    length: "Length"
    material: "Id"
    width: "Length"

class StockPurchase(TypedDict):
    """What to buy."""

    cost: "float | None"
    grain: "Literal['along-length', 'along-width', 'free']"
    length: "float"
    length_text: "str"
    material: "str"
    quantity: "int"
    stock: "str | None"
    thickness: "float"
    thickness_text: "str"
    width: "float"
    width_text: "str"

class StockShort(TypedDict):
    """Pieces that the stock listed does not yield."""

    cause: "Literal['not-listed', 'too-large', 'used-up', 'row']"
    material: "str"
    part: "str"
    quantity: "int"
    reason: "str"

class StopCures(TypedDict):
    """A stop and its cures, the least first."""

    check: "PlanCheck"
    cures: "list[Cure]"
    tries: "int"
    why_none: "str"

class StripExtension(TypedDict):
    """How much longer the wall strip must be to catch one more stud."""

    by_mm: "float"
    side: "Literal['left', 'right']"
    stud_at_mm: "float"

class Studs(TypedDict):
    """Studs"""

    at: "list[Length]"
    depth: "NotRequired[Length]"
    stuff: "Id"
    width: "NotRequired[Length]"

class Summary(TypedDict):
    """One cabinet in a line."""

    buy: "list[Item]"
    cabinet: "str"
    count: "int"
    depth: "float"
    hands: "NotRequired[int]"
    height: "float"
    mass_kg: "NotRequired[float]"
    mass_lb: "NotRequired[float]"
    stops: "list[str]"
    text: "str"
    title: "str"
    width: "float"

class Wall(TypedDict):
    """Wall"""

    cabinets_at: "NotRequired[dict[str, list[Spot]]]"
    ceiling: "NotRequired[Length]"
    corners: "NotRequired[Literal['both', 'left', 'right', 'none']]"
    length: "NotRequired[Length]"
    lining: "NotRequired[Length]"
    masonry: "NotRequired[Masonry]"
    obstacles: "NotRequired[list[Obstacle]]"
    readings: "NotRequired[list[Reading]]"
    studs: "NotRequired[Studs]"

class Why(TypedDict):
    """The reasons of a part's length and width: signed terms that sum to them."""

    length: "list[PlanTerm]"
    width: "list[PlanTerm]"

ContentsDuration: TypeAlias = "Literal['permanent', 'ten-years', 'two-months', 'seven-days', 'ten-minutes']"

CornerJoint: TypeAlias = "JointBiscuit | JointDowel | JointHousedGroove | JointLooseTenon | JointMitreSpline | JointPocketScrew | JointRabbet | JointScrewedButt | JointTongueInGroove"

Doors: TypeAlias = "DoorsCopeAndStick | DoorsMitredFrame | DoorsMortiseAndTenon | DoorsPlankAndBatten | DoorsSlab | DoorsWithoutStyle | None"

DrawerCorner: TypeAlias = "DrawerCornerBoxDowel | DrawerCornerBoxJoint | DrawerCornerBoxRabbet | DrawerCornerHalfBlindDovetail"

Fingerprint: TypeAlias = "str"

FrameJoint: TypeAlias = "JointBiscuit | JointDowel | JointGluedButt | JointHalfLap | JointLooseTenon | JointMitre | JointPocketScrew"

Hang: TypeAlias = "Literal['overlay', 'inset']"

Hinges: TypeAlias = "int | None"

IdOrNull: TypeAlias = "Id | None"

LengthOrNull: TypeAlias = "Length | None"

PanelJoint: TypeAlias = "JointApplied | JointHousedGroove | JointRabbet"

PanelKind: TypeAlias = "Literal['flat', 'raised', 'glass'] | None"

Stops: TypeAlias = "int"

Tape: TypeAlias = "str"

TeeJoint: TypeAlias = "JointBiscuit | JointDowel | JointHousedGroove | JointLooseTenon | JointPocketScrew | JointScrewedButt | JointSlidingDovetail | JointTongueInGroove"

Units: TypeAlias = "Literal['in', 'mm']"

JobDocument: TypeAlias = Job

PlanDocument: TypeAlias = PlanView

PartsDocument: TypeAlias = PartsView

StepsDocument: TypeAlias = StepsView

FitsDocument: TypeAlias = FitsView

BuiltDocument: TypeAlias = BuiltView

CuresDocument: TypeAlias = CuresView

FromStockDocument: TypeAlias = FromStockView
