"""Sheet goods as bought: measured thickness against the published range."""

from dataclasses import dataclass

from casewright.sdk.materials import Stuff


@dataclass(frozen=True, slots=True)
class ThicknessVerdict:
    """Whether a measured sheet is what its label says.

    Lengths in nm, `nominal` the sold size it is nearest to.
    """

    nominal: int
    least: int
    most: int
    inside: bool
    source: str


def thickness_verdict(stuff: Stuff, thickness: int) -> ThicknessVerdict | None:
    """Compare a measured thickness (nm) with the published range of the nearest sold size.

    None without a table.
    """
    row = stuff.sheet(thickness)
    if row is None:
        return None
    inside = row.least <= thickness <= row.most
    return ThicknessVerdict(row.nominal, row.least, row.most, inside, stuff.source_code("thicknesses"))
