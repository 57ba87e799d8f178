"""Steps and the schedule of the plan document as marshmallow schemas."""

from casewright.api.wire.described import (
    flag,
    number,
    one,
    points,
    record,
    rows,
    size,
    text,
    texts,
    whole,
    wholes,
    word,
)
from casewright.api.wire.fits_document import PlanMeasurement
from casewright.sdk.model import Action, Machine, Stage, Tilts, Way

_SETTINGS = {
    "fence": "from fence or track to cutter",
    "stop": "from stop to cutter",
    "height": "cutter over the table",
    "cutter": "width or diameter of the cutter",
    "kerf": "width of the saw cut",
    "start": "where a stopped cut starts",
    "end": "where a stopped cut ends",
    "depth": "how deep",
}
_PIECE_TEXTS = {
    "part": "id of the part",
    "piece": "what it is called on its way",
    "down": "the side that lies down",
    "against": "the side that rides the fence or meets the stop",
    "leads": "the side that goes first",
    "keeps": "what is kept",
    "leaves": "what is left over",
}
_PIECE_LISTS = {"cuts": "what is made on it", "into": "ids of what it goes into", "glue": "its sides that get glue"}

StepSetting = record(
    "StepSetting",
    "How the machine is set; only what the operation has.",
    **{name: size(about, required=False) for name, about in _SETTINGS.items()},
    tilt_deg=number("tilt of the blade from square, in degrees", required=False),
    turn_deg=number("the same, of a saw turned to a mitre", required=False),
    tilts=word("where the upright face of the waste stands", *Tilts, required=False),
)

StepPiece = record(
    "StepPiece",
    "A part, or a piece on its way to parts: how it lies, what is cut, kept and left.",
    **{name: text(about, required=False) for name, about in _PIECE_TEXTS.items()},
    **{name: texts(about, required=False) for name, about in _PIECE_LISTS.items()},
    **{"pass": wholes("which pass of how many", required=False)},
    count=whole("pieces alike"),
    clamps=whole("clamps it takes", required=False),
    at=points("places of holes from its two named sides, job units", required=False),
)

StepMove = record(
    "StepMove",
    "A straight move that sets a part in, by the cabinet's directions.",
    towards=word("which way", *Way),
    by=size("how far; left out: from the open", required=False),
)

StepCutTo = record(
    "StepCutTo",
    "What a cut is set to in place of the planned distance: what `step` measured, less `less`, over `among`.",
    step=whole("the step that measured"),
    less=size("taken off what was measured"),
    among=whole("how many share it"),
    full=size("left on over that, to be planed off to fit"),
)

PlanStep = record(
    "PlanStep",
    "An operation: one machine at one setting, over all pieces.",
    number=whole("its place in the order of work, from 1"),
    stage=word("the stage of work", *Stage),
    machine=word("the machine", *Machine),
    action=word("what is done", *Action),
    setting=one(StepSetting),
    on=rows(StepPiece, "the pieces"),
    do=text("what to do"),
    lines=texts("the pieces in words"),
    check=text("what to measure after"),
    cautions=texts("what to mind"),
    needs=wholes("steps that must be done first"),
    moves=rows(StepMove, "moves that set pieces in, one after another", required=False),
    minutes=number("minutes waited at least, or of work by the shop's rates", required=False),
    start=number("earliest start for one person, in minutes from now", required=False),
    finish=number("earliest finish, in minutes from now", required=False),
    done=flag("whether the job marks it done", required=False),
    meanwhile=wholes("steps that can be done during a wait", required=False),
    measurement=one(PlanMeasurement, "what is measured on the work", required=False),
    cut_to=one(StepCutTo, "of a cut that waits for a measurement; its setting is the planned one", required=False),
)

PlanSchedule = record(
    "PlanSchedule",
    "What is left of the work, for one person.",
    finish=number("minutes to the earliest finish"),
    hands_on=number("minutes of work by hand in it"),
    left=whole("steps left"),
    untimed=whole("steps of those without a time, which count as nothing"),
)
