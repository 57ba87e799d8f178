"""Words for what is measured on the work, with a blank for each reading, and for the cuts that are set by it."""

from collections.abc import Callable, Mapping

from casewright.api.engine.work.naming import joined, title
from casewright.sdk.model import (
    Action,
    CutTo,
    Machine,
    Measurement,
    Operation,
    Part,
    Setting,
    Stage,
    Where,
    Workpiece,
)

__all__ = ["BLANK", "formula", "measured_words", "measuring_step"]

BLANK = "________"
"""Where a reading is written."""
WAYS: Mapping[int, str] = {1: "across", 2: "from front to back", 3: "up"}

Text = Callable[[int], str]
"""Writes a length."""


def measuring_step(measurement: Measurement, parts: Mapping[str, Part], text: Text) -> Operation:
    """Return the step that measures, done to the parts that it is measured on."""
    names = measurement.dry or tuple([name for name in measurement.between if name in parts])
    on = tuple([Workpiece(part=name, count=parts[name].quantity) for name in names])
    blanks = _blanks(measurement)
    do = f"{measured_words(measurement, parts)} and write it here: {blanks}"
    check = f"{text(measurement.planned)} as planned, or near it; measure again where it is not"
    return Operation(
        0, Stage.MEASURE, Machine.BY_HAND, Action.MEASURE, Setting(), on, (), do, check, measurement=measurement
    )


def measured_words(measurement: Measurement, parts: Mapping[str, Part], *, several: bool = True) -> str:
    """Return what is measured where, and which reading counts; `several` names each copy and says how often."""
    if several:
        where = _where(measurement, parts, joined(list(measurement.copies)))
        return f"{where} at three places; take the {measurement.take}"
    return f"{_where(measurement, parts, 'each').removesuffix(',')}; the {measurement.take}"


def _blanks(measurement: Measurement) -> str:
    if len(measurement.copies) == 1:
        return BLANK
    return ", ".join(f"{copy} {BLANK}" for copy in measurement.copies)


def _where(measurement: Measurement, parts: Mapping[str, Part], which: str) -> str:
    """Return what is measured, as a sentence begins; `which` are the copies."""
    first, last = [f"the {title(parts[name])}" if name in parts else name for name in measurement.between]
    way = WAYS[measurement.axis]
    match measurement.where:
        case Where.BETWEEN if not set(measurement.between) & parts.keys():
            return f"Measure the gap between {first} and {last}"
        case Where.BETWEEN:
            return f"Measure {which} {way}, between {first} and {last},"
        case Where.OVER if measurement.axis == 1:
            return f"Measure {which} {way}, over {first} and {last},"
        case Where.OVER:
            return f"Measure {which} {way}, along {first} and {last},"
        case Where.GROOVE_FLOORS:
            dry = [parts[name] for name in measurement.dry]
            group = dry[0].group.replace("-", " ")
            return (
                f"Put {group} of {which} together dry without what slides into the grooves; measure {way}, from the "
                f"floor of the groove in {first} to that in {last},"
            )


def formula(cut_to: CutTo, text: Text, measured: str = "") -> str:
    """Return what a cut is set to: `what step 97 measured - 3 1/2 in`; `measured` says the reading in other words.

    What is left on to be planed off is said last.
    """
    full = f" + {text(cut_to.full)} to plane off" if cut_to.full else ""
    measured = measured or f"what step {cut_to.step} measured"
    if cut_to.less:
        measured = f"{measured} {'−' if cut_to.less > 0 else '+'} {text(abs(cut_to.less))}"
    if cut_to.among == 1:
        return f"{measured}{full}"
    return f"({measured}) ÷ {cut_to.among}{full}" if cut_to.less else f"{measured} ÷ {cut_to.among}{full}"
