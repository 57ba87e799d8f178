"""Grooves that the shop has no cutter for: a groove is cut by one as wide or narrower, in passes, the saw's too."""

from collections.abc import Iterable

from casewright.sdk.findings import Check, Finding
from casewright.sdk.model import Action, Job, Operation

__all__ = ["cutter_checks"]


def cutter_checks(job: Job, steps: Iterable[Operation]) -> tuple[Check, ...]:
    """Return a stop for each part with a groove narrower than every cutter of the shop and than its saw's kerf.

    A shop that lists no cutters has every one; without stock the kerf is not known, and nothing is stopped.
    """
    if not job.shop.groove_cutters or job.stock is None:
        return ()
    narrowest = min(*job.shop.groove_cutters, job.stock.kerf) - job.shop.same
    parts = dict.fromkeys(
        piece.part
        for step in steps
        if step.action is Action.GROOVE and step.setting.cutter and step.setting.cutter < narrowest
        for piece in step.on
    )
    message = "No groove cutter of the shop, nor its saw's blade, is narrow enough for a groove of this part."
    return tuple(Check(part, Finding("no-cutter", "stop", message)) for part in parts)
