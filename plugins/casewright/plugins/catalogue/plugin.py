"""The built-in catalogue: woods, sheets, hinges, pulls, fasteners and fittings as data with provenance."""

from casewright.plugins.catalogue.boards import BOARDS
from casewright.plugins.catalogue.fasteners import LAGS, NAILS, SCREWS
from casewright.plugins.catalogue.fittings import DOWELS, GLUES, LOOSE_TENONS, PINS, SLIDES
from casewright.plugins.catalogue.hinges import HINGES, PULLS
from casewright.plugins.catalogue.sheets import SHEETS
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.materials import Catalogue

CATALOGUE = Catalogue(
    stuffs=(*BOARDS, *SHEETS),
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


@hookimpl
def casewright_catalogue() -> Catalogue:
    """Return the built-in woods, sheets, hinges, pulls and fasteners."""
    return CATALOGUE
