"""Parts in a row: cut in sequence of one piece, which the packer takes for a part, and then cut apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from casewright.api.stock.request import Demand

__all__ = ["in_a_row"]


def in_a_row(name: str, parts: Sequence[Demand], along: bool, kerf: int) -> Demand:
    """Give the demand for the piece that parts are cut from one after another, a kerf between each two.

    They are of one quantity, material, thickness and grain. The row runs along their length, or across it; the piece
    is as large the other way as the largest of them.
    """
    lengths, widths = [one.length for one in parts], [one.width for one in parts]
    kerfs = kerf * (len(parts) - 1)
    length, width = (sum(lengths) + kerfs, max(widths)) if along else (max(lengths), sum(widths) + kerfs)
    return replace(parts[0], id=name, length=length, width=width, label="", row=tuple(parts), along=along)
