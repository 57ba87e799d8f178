"""What follows from what is built, as it leaves: cabinets as they come out, and parts that are not as planned."""

from casewright.api.wire.described import NUMBER, TEXT, number, one, record, rows, word
from casewright.api.wire.lengths import Document, Lengths
from casewright.sdk import model
from marshmallow import fields

_COPIES = fields.List(
    fields.Integer(), required=True, metadata={"description": "which copies, from 1; none named: all of them"}
)

PlanSizeChange = record("PlanSizeChange", was=NUMBER, now=NUMBER, by=number("what it is larger by"), text=TEXT)
"""A size as it was planned and as it is now; `text` is the new one for the bench."""

PlanBuiltSizes = record(
    "PlanBuiltSizes",
    **{name: fields.Nested(PlanSizeChange) for name in ("length", "width", "thickness", "height", "depth")},
)
"""The sizes that are others; only those."""

PlanBuiltCabinet = record("PlanBuiltCabinet", cabinet=TEXT, asked=TEXT, copies=_COPIES, sizes=one(PlanBuiltSizes))
"""A cabinet as it comes out: `asked` is its id in the job."""

PlanPartChange = record(
    "PlanPartChange",
    part=TEXT,
    planned=fields.String(required=True, metadata={"description": "its id in the plan with nothing built"}),
    copies=_COPIES,
    built=fields.Boolean(required=True, metadata={"description": "cut already, not still to be cut so"}),
    sizes=one(PlanBuiltSizes),
    cuts_changed=fields.Boolean(required=True),
)
"""A part that comes out otherwise than in the plan with nothing built."""

PlanRepair = record(
    "PlanRepair",
    pointer=TEXT,
    cabinet=TEXT,
    part=TEXT,
    mistake=word(*model.Mistake),
    do=TEXT,
    again=fields.List(
        fields.String(), required=True, metadata={"description": "parts to be made again; none: it is put right"}
    ),
)
"""The least that puts a mistake right."""

PlanBuilt = record("PlanBuilt", cabinets=rows(PlanBuiltCabinet), changed=rows(PlanPartChange), repairs=rows(PlanRepair))
"""What follows from what is built."""


def built_document(plan: model.Plan, lengths: Lengths) -> Document | None:
    """Return what follows from what is built, or None where the job says nothing of it."""
    if plan.built is None:
        return None
    asked = {cabinet.id: cabinet for cabinet in plan.built.asked}
    return {
        "cabinets": [
            _cabinet(cabinet, asked[cabinet.asked], lengths) for cabinet in plan.job.cabinets if cabinet.asked
        ],
        "changed": [_part(change, lengths) for change in plan.built.changed],
        "repairs": [
            {
                "pointer": one.pointer,
                "cabinet": one.cabinet,
                "part": one.part,
                "mistake": one.mistake.value,
                "do": one.do,
                "again": one.again,
            }
            for one in plan.built.repairs
        ],
    }


def _cabinet(cabinet: model.Cabinet, asked: model.Cabinet, lengths: Lengths) -> Document:
    sizes = (
        ("width", asked.width, cabinet.width),
        ("height", asked.height, cabinet.height),
        ("depth", asked.depth, cabinet.depth),
    )
    return {
        "cabinet": cabinet.id,
        "asked": asked.id,
        "copies": cabinet.copies,
        "sizes": {name: _size(was, now, lengths) for name, was, now in sizes if was != now},
    }


def _part(change: model.PartChange, lengths: Lengths) -> Document:
    return {
        "part": change.part,
        "planned": change.planned,
        "copies": change.copies,
        "built": change.built,
        "sizes": {one.measure.value: _size(one.was, one.now, lengths) for one in change.sizes},
        "cuts_changed": change.cuts,
    }


def _size(was: int, now: int, lengths: Lengths) -> Document:
    numbers = lengths.numbers
    return {"was": numbers[was], "now": numbers[now], "by": numbers[now - was], "text": lengths.texts[now]}
