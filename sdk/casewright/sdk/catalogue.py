"""Catalogues: woods, sheets, hardware and the documents they are known from. Part of the public SDK."""

from casewright.sdk.materials import (
    Catalogue,
    Dowel,
    Glue,
    Hinge,
    Lag,
    LooseTenon,
    Nail,
    Pin,
    Pull,
    Screw,
    SheetThickness,
    Slide,
    Stuff,
)
from casewright.sdk.sources import Source

__all__ = [
    "Catalogue", "Dowel", "Glue", "Hinge", "Lag", "LooseTenon", "Nail", "Pin", "Pull", "Screw", "SheetThickness",
    "Slide", "Source", "Stuff",
]  # fmt: skip
