"""Registers the built-in catalogue."""

from casewright.plugins.catalogue import CATALOGUE
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.materials import Catalogue


@hookimpl
def casewright_catalogue() -> Catalogue:
    """Return the built-in woods, sheets, hinges, pulls and fasteners."""
    return CATALOGUE
