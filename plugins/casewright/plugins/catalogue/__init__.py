"""The built-in catalogue: woods, sheets, hinges, pulls, fasteners and fittings as data with provenance."""

from casewright.plugins.catalogue.fasteners import LAGS, NAILS, SCREWS
from casewright.plugins.catalogue.fittings import DOWELS, GLUES, LOOSE_TENONS, PINS, SLIDES
from casewright.plugins.catalogue.hinges import HINGES, PULLS
from casewright.plugins.catalogue.materials import STUFFS
from casewright.sdk.materials import Catalogue

__all__ = ["CATALOGUE"]

CATALOGUE = Catalogue(
    stuffs=STUFFS,
    hinges=HINGES,
    pulls=PULLS,
    screws=SCREWS,
    lags=LAGS,
    nails=NAILS,
    pins=PINS,
    slides=SLIDES,
    glues=GLUES,
    dowels=DOWELS,
    loose_tenons=LOOSE_TENONS,
)
