"""Blanks of parts that are at hand, cut over size by steps that are done: what they are called and how they are cut."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from casewright.api.engine.work.naming import OVER_SIZE
from casewright.api.engine.work.plain_sizes import to_size
from casewright.api.engine.work.replay_records import Blank
from casewright.sdk.model import Job, Operation, Part
from casewright.sdk.model.operations import Action

__all__ = ["NO_BLANKS", "blank_name", "is_blank_of", "of_blanks"]

NO_BLANKS: Mapping[str, Blank] = {}


def blank_name(part: Part, blank: Blank) -> str:
    """Return what the blank of a part is called: over size, or ripped where only its length is left to be cut."""
    return f"{part.id}, {'ripped' if _is_ripped(part, blank) else OVER_SIZE}"


def of_blanks(job: Job, parts: Sequence[Part], blanks: Mapping[str, Blank]) -> list[Operation]:
    """Return the operations that cut parts of their own blanks: a rip where a blank is too wide, and a crosscut."""
    if not parts:
        return []
    kerf = job.stock.kerf if job.stock else 0
    by_id = {part.id: part for part in parts}
    return [
        cut
        for operation in to_size(parts, job, kerf)
        for cut in [operation if operation.action is Action.CROSSCUT else _rip(operation, by_id, blanks)]
        if cut.on
    ]


def _rip(operation: Operation, parts: Mapping[str, Part], blanks: Mapping[str, Blank]) -> Operation:
    """Return a rip of those blanks alone that are too wide."""
    rows = [(parts[piece.keeps.partition(", ")[0]], piece) for piece in operation.on]
    on = tuple(
        [
            replace(piece, piece=blank_name(part, blanks[part.id]), leaves="")
            for part, piece in rows
            if not _is_ripped(part, blanks[part.id])
        ]
    )
    return replace(operation, on=on)


def is_blank_of(part: Part, blank: Blank) -> bool:
    """Return whether a part comes of a blank by a crosscut, with or without a rip before it."""
    return (
        blank.thickness == part.thickness
        and (blank.length or 0) > part.length >= part.width
        and (blank.width or 0) >= part.width
    )


def _is_ripped(part: Part, blank: Blank) -> bool:
    return blank.width == part.width
