"""Shop plugin: a pull that the shop makes itself, and the note it was measured for."""

from casewright.sdk.catalogue import Catalogue, Pull, Source
from casewright.sdk.kit import hookimpl, mm

SDK = ((2, 0), (3, 0))
"""Versions of the SDK that all of this plugin was written for."""

NOTE = Source("shop-plugin-note", "Our own measurements", provenance="document read")

PULL = Pull(
    id="shop-plugin",
    title="Shop plugin",
    holes=2,
    spacing=mm(96),
    hole_diameter=mm(5),
    projection=mm(30),
    mass_kg=0.04,
    sources=(("*", NOTE.code),),
)


@hookimpl
def casewright_catalogue() -> Catalogue:
    """Return what this plugin adds to the catalogue."""
    return Catalogue(pulls=(PULL,), sources=(NOTE,))
