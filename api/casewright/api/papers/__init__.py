"""Papers for the bench, all drawn from one plan: drawings, booklet, labels, workbook, and a solid model.

What is made of them is imported when it is first asked for, with the libraries that write it: a plan needs none.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from casewright.api.papers.made import (
        MEDIA_TYPES,
        PAPERS,
        VIEWS,
        Sheet,
        UnknownSubjectError,
        booklet,
        draw,
        labels,
        model,
        outlines,
        subjects,
        to_dxf,
        to_pdf,
        to_svg,
        workbook,
    )

__all__ = [
    "MEDIA_TYPES",
    "PAPERS",
    "VIEWS",
    "Sheet",
    "UnknownSubjectError",
    "booklet",
    "draw",
    "labels",
    "model",
    "outlines",
    "subjects",
    "to_dxf",
    "to_pdf",
    "to_svg",
    "workbook",
]


def __getattr__(name: str) -> Any:
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    made = import_module("casewright.api.papers.made")
    globals().update({known: getattr(made, known) for known in __all__})  # over the modules of the same name
    return globals()[name]
