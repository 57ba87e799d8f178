"""The built-in cures as one plugin."""

from casewright.plugins.cures.built import BuiltCures
from casewright.plugins.cures.doors import DoorCures
from casewright.plugins.cures.drawers import DrawerCures
from casewright.plugins.cures.hanging import HangingCures
from casewright.plugins.cures.joints import JointCures
from casewright.plugins.cures.panes import PaneCures
from casewright.plugins.cures.places import PlaceCures
from casewright.plugins.cures.standing import StandingCures
from casewright.plugins.cures.stock import StockCures
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.methods import CureGenerator


@hookimpl
def casewright_cures() -> tuple[CureGenerator, ...]:
    """Return the generator of each family of stops."""
    return (
        HangingCures(),
        PlaceCures(),
        StandingCures(),
        DoorCures(),
        DrawerCures(),
        JointCures(),
        StockCures(),
        BuiltCures(),
        PaneCures(),
    )
