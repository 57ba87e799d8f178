"""Shop plugin: how our cabinets are made unless a job says otherwise."""

from collections.abc import Sequence

from casewright.sdk.kit import hookimpl
from casewright.sdk.styles import HouseStyle

SDK = ((2, 0), (3, 0))
"""Versions of the SDK that all of this plugin was written for."""

STYLE = HouseStyle(
    id="shop-plugin",
    title="Shop plugin",
    defaults={
        "case": {"corner": {"method": "rabbet"}, "shelf_setback": "2 mm"},
    },
)


@hookimpl
def casewright_house_styles() -> Sequence[HouseStyle]:
    """Return the house styles of this plugin."""
    return (STYLE,)
