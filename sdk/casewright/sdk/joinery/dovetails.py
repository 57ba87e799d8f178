"""What every dovetail is warned of."""

from casewright.sdk.findings import Finding
from casewright.sdk.joinery.checks import COMMON
from casewright.sdk.methods import Body

__all__ = ["sheet_findings"]


def sheet_findings(tailed: Body) -> tuple[Finding, ...]:
    """Return a caution where the part that has the tails is not of solid wood."""
    if tailed.material.kind == "board":
        return ()
    message = "Dovetails in sheet break out along the plies; use solid wood."
    return (Finding("dovetail-in-sheet", "caution", message, source=COMMON),)
