"""Fits that matter: each a chain of cuts between two faces, how far it may come out wrong, and what follows."""

from collections import defaultdict
from collections.abc import Iterable, Iterator

from casewright.api.engine.fits.doors import door_fits
from casewright.api.engine.fits.inside import inside_fits
from casewright.api.engine.fits.judged import judged
from casewright.api.engine.fits.laid import Laid, laid_out
from casewright.api.engine.fits.outside import frame_fits, run_fits
from casewright.api.engine.fits.set_ups import SetUps
from casewright.sdk.findings import LENGTH, Check, Finding
from casewright.sdk.materials import Hinge
from casewright.sdk.model import DoorLeaf, Fit, Joint, Part, Plan
from casewright.sdk.writer import writer

__all__ = ["fit_checks", "fits_of"]


def fits_of(plan: Plan, hinges: Iterable[Hinge]) -> tuple[Fit, ...]:
    """Return the fits of a plan whose steps are made, cabinet by cabinet, then along the wall."""
    return tuple(_fits(plan, {hinge.id: hinge for hinge in hinges}))


def _fits(plan: Plan, hinges: dict[str, Hinge]) -> Iterator[Fit]:
    set_ups = SetUps.of(plan.steps)
    laid, write = _laid(plan, set_ups), writer(plan.job.units)
    for cabinet, one in laid.items():
        doors = one.cabinet.doors
        if doors is not None and doors.hinge in hinges:
            yield from (judged(question, cabinet, set_ups, write) for question in door_fits(one, hinges[doors.hinge]))
        yield from (judged(question, cabinet, set_ups, write) for question in inside_fits(one))
        yield from (judged(question, cabinet, set_ups, write) for question in frame_fits(one))
    if plan.run is not None:
        yield from (judged(question, cabinet, set_ups, write) for cabinet, question in run_fits(plan.run, laid))


def _laid(plan: Plan, set_ups: SetUps) -> dict[str, Laid]:
    """Return every cabinet laid out, by its id."""
    parts: defaultdict[str, list[Part]] = defaultdict(list)
    joints: defaultdict[str, list[Joint]] = defaultdict(list)
    doors: defaultdict[str, list[DoorLeaf]] = defaultdict(list)
    for part in plan.parts:
        parts[part.cabinet].append(part)
    for joint in plan.joints:
        joints[joint.cabinet].append(joint)
    for leaf in plan.doors:
        doors[leaf.cabinet].append(leaf)
    work = set_ups, plan.job.shop.accuracy
    return {one.id: laid_out(one, parts[one.id], joints[one.id], doors[one.id], work) for one in plan.job.cabinets}


def fit_checks(fits: Iterable[Fit]) -> tuple[Check, ...]:
    """Return a note for each fit that is to be taken from the work."""
    message = "The shop's accuracy does not carry this fit: leave its parts over size. "
    return tuple(
        [
            Check(
                fit.id.split(" ")[0],
                Finding(
                    "fit-from-the-work",
                    "note",
                    message + fit.measuring.do,
                    round(fit.stack.cautious),
                    _room(fit),
                    LENGTH,
                    "stack-up",
                ),
            )
            for fit in fits
            if fit.measuring is not None
        ]
    )


def _room(fit: Fit) -> int:
    """Return how far a fit may be off either way before it is no longer good, in nm."""
    rooms = (fit.nominal - fit.least if fit.least is not None else None, fit.most - fit.nominal if fit.most else None)
    return min((room for room in rooms if room is not None), default=0)
