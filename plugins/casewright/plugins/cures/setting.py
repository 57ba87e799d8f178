"""Settings of a cabinet's doors, as changes of the job."""

from typing import Any

from casewright.sdk.methods import Change, Stop
from casewright.sdk.model import Doors
from casewright.sdk.patching import at_path, patch_setting
from casewright.sdk.units import INCH, MM, to_number

TAPE = {"in": INCH // 64, "mm": MM // 2}
"""The marks of a tape, by the job's units."""


def set_doors(stop: Stop, doors: Doors, words: str, *, style: bool = False, **values: Any) -> Change:
    """Return the change that sets keys of the doors; options of their style are written beside it."""
    at = stop.at("doors")
    whole: dict[str, Any] = {"style": doors.style, **values} if style else values
    if at_path(stop.document, at) is None:
        return Change(words, patch_setting(stop.document, (at, whole)))
    return Change(words, patch_setting(stop.document, *[((*at, key), value) for key, value in whole.items()]))


def number(stop: Stop, nm: int) -> float | int:
    """Return a length as the job writes it."""
    return to_number(nm, stop.plan.job.units)
