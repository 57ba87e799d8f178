"""What follows from what is built, as it leaves: cabinets as they come out, and parts that are not as planned."""

from casewright.api.wire.described import CABINET, flag, one, record, rows, size, text, texts, wholes, word
from casewright.api.wire.lengths import Document, Lengths
from casewright.sdk import model

_COPIES = wholes("which copies, from 1; none named: all of them")

PlanSizeChange = record(
    "PlanSizeChange",
    "A size as it was planned and as it is now.",
    was=size("as planned"),
    now=size("as it is"),
    by=size("what it is larger by"),
    text=text("the new one for the bench"),
)

PlanBuiltSizes = record(
    "PlanBuiltSizes",
    "The sizes that are others; only those.",
    **{
        name: one(PlanSizeChange, f"the {name}", required=False)
        for name in ("length", "width", "thickness", "height", "depth")
    },
)

PlanBuiltCabinet = record(
    "PlanBuiltCabinet",
    "A cabinet as it comes out.",
    cabinet=text("its id in the plan"),
    planned=text("its id in the plan with nothing built"),
    copies=_COPIES,
    sizes=one(PlanBuiltSizes),
)

PlanPartChange = record(
    "PlanPartChange",
    "A part that comes out otherwise than in the plan with nothing built.",
    part=text("its id"),
    planned=text("its id in the plan with nothing built"),
    copies=_COPIES,
    built=flag("cut already, not still to be cut so"),
    sizes=one(PlanBuiltSizes),
    cuts_changed=flag("whether its cuts differ"),
)

PlanRepair = record(
    "PlanRepair",
    "The least that puts a mistake right.",
    pointer=text("JSON Pointer of the mistake in the job"),
    cabinet=CABINET,
    part=text("id of the part"),
    mistake=word("what went wrong", *model.Mistake),
    do=text("what to do"),
    again=texts("parts to be made again; none: it is put right"),
)

PlanBuilt = record(
    "PlanBuilt",
    "What follows from what is built.",
    cabinets=rows(PlanBuiltCabinet, "cabinets as they come out"),
    changed=rows(PlanPartChange, "parts that are not as planned"),
    repairs=rows(PlanRepair, "what puts mistakes right"),
)


def built_document(plan: model.Plan, lengths: Lengths) -> Document | None:
    """Return what follows from what is built, or None where the job says nothing of it."""
    if plan.built is None:
        return None
    planned = {cabinet.id: cabinet for cabinet in plan.built.planned}
    return {
        "cabinets": [
            _cabinet(cabinet, planned[cabinet.planned], lengths) for cabinet in plan.job.cabinets if cabinet.planned
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


def _cabinet(cabinet: model.Cabinet, planned: model.Cabinet, lengths: Lengths) -> Document:
    sizes = (
        ("width", planned.width, cabinet.width),
        ("height", planned.height, cabinet.height),
        ("depth", planned.depth, cabinet.depth),
    )
    return {
        "cabinet": cabinet.id,
        "planned": planned.id,
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
