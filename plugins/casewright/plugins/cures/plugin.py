"""The built-in cures as one plugin."""

from casewright.plugins.cures.hanging import HangingCures
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.methods import CureGenerator


@hookimpl
def casewright_cures() -> tuple[CureGenerator, ...]:
    """Return the generator of each family of stops."""
    return (HangingCures(),)
