"""The documents every number comes from, each with an honest note on how it was read.

A check or a catalogue value names its source by `code`; the code is stable, the wording round it may improve.
`provenance` says how the project knows the figure:

* ``document read``: read in the document, or in a page-cited second-hand copy of it (the note says which);
* ``from memory``: recalled, not read; correct it against a licensed copy before relying on it;
* ``common practice``: trade habit, no source;
* ``derived``: worked out here from values whose own sources are named.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

__all__ = ["SOURCES", "Provenance", "Source", "cite", "source"]

Provenance = Literal["document read", "from memory", "common practice", "derived"]


@dataclass(frozen=True, slots=True)
class Source:
    """One document (or habit), one edition, one clause.

    `code` is kebab-case and stable; `clause` is the table, equation or clause number; `note` says what was
    read.
    """

    code: str
    title: str
    edition: str = ""
    clause: str = ""
    provenance: Provenance = "document read"
    note: str = ""


_HANDBOOK = "Wood Handbook: Wood as an Engineering Material"
_FPL282 = "FPL-GTR-282 (2021)"
_FPL190 = "FPL-GTR-190 (2010)"
_NDS = "ANSI/AWC NDS, National Design Specification for Wood Construction"
_AWS = "Architectural Woodwork Standards"
_KCMA = "ANSI/KCMA A161.1, Performance and Construction Standard for Kitchen and Vanity Cabinets"
_TR12 = "AWC Technical Report 12, General Dowel Equations for Calculating Lateral Connection Values"
_READ_TWICE = "read in a page-cited second-hand copy whose table cells the equations reproduce"
_PAGE = "read on a page image of this edition"


def _handbook(code: str, edition: str, clause: str, provenance: Provenance, note: str = "") -> Source:
    return Source(code, _HANDBOOK, edition, clause, provenance, note)


def _nds(code: str, clause: str, provenance: Provenance = "document read", note: str = _READ_TWICE) -> Source:
    return Source(code, _NDS, "2018", clause, provenance, note)


def _kcma(code: str, clause: str, note: str) -> Source:
    return Source(code, _KCMA, "2012 clause order", clause, note=note)


def _aws(code: str, clause: str) -> Source:
    return Source(code, _AWS, "1st ed., 2009", clause, note=_PAGE)


def _derived(code: str, title: str, note: str = "") -> Source:
    return Source(code, title, provenance="derived", note=note)


def _practice(code: str, title: str, note: str = "") -> Source:
    return Source(code, title, provenance="common practice", note=note)


_WOOD: tuple[Source, ...] = (
    _handbook("fpl-282-table-5-3b", _FPL282, "Table 5-3b", "document read", "read in a checked second-hand data set"),
    _handbook("fpl-282-eq-4-5-celsius", _FPL282, "eq. 4-5, deg C", "from memory", "agrees with deg F within 0.01 % MC"),
    _handbook("fpl-282-table-4-2", _FPL282, "Table 4-2", "from memory", "agrees with eq. 4-5 within 0.1 % MC at 70 F"),
    _handbook("fpl-282-eq-4-6", _FPL282, "eq. 4-6 (density from G)", "from memory"),
    _handbook("fpl-190-table-13-5", _FPL190, "Table 13-5 (dimensional change)", "document read", _PAGE),
    _handbook("fpl-190-table-13-5-memory", _FPL190, "Table 13-5, softwood rows", "from memory"),
    _handbook("fpl-190-eq-13-2", _FPL190, "ch. 13, change in dimension, 6 to 14 % MC", "document read"),
    _handbook("fpl-190-eq-13-3", _FPL190, "ch. 13, change in dimension outside 6 to 14 %", "from memory"),
    Source(
        "agr-handbook-72",
        "Wood Handbook, Agriculture Handbook 72",
        "1987",
        "C_T list",
        "document read",
        "second-hand list",
    ),
    _derived(
        "shrinkage-law",
        "C = S/(3000 - 20 S)",
        "gives to 5 decimals the rows of Tables 4-3 and 13-5 that could be paired; not red oak",
    ),
    _handbook("fpl-190-eq-9-2", _FPL190, "eq. 9-2 and Table 9-1 (beams)", "document read", _PAGE),
    _handbook("fpl-190-creep", _FPL190, "ch. 5, creep", "document read", _PAGE),
    _handbook("fpl-282-eq-8-16", _FPL282, "eq. 8-16 (Hankinson)", "document read"),
    _handbook("fpl-190-table-12-1", _FPL190, "Table 12-1 (panels)", "from memory"),
    _handbook("fpl-190-table-12-3", _FPL190, "Table 12-3 (OSB)", "document read", _PAGE),
    Source(
        "wood-journal-49-1-93",
        "Journal of the Korean Wood Science and Technology 49(1), screw withdrawal of panels",
        "2021",
        "abstract",
        note="the lumber withdrawal formula over-predicts for plywood",
    ),
)

_CONNECTIONS: tuple[Source, ...] = (
    _nds("nds-2018-2-3-2", "Table 2.3.2 (load duration)"),
    _nds("nds-2018-11-3", "Tables 11.3.1, 11.3.3, 11.3.4 (adjustment)"),
    _nds("nds-2018-11-3-6", "11.3.6, eq. 11.3-1 (group action)"),
    _nds("nds-2018-12-1", "12.1.4 to 12.1.6 (penetration, lead holes)"),
    _nds("nds-2018-12-2-1", "12.2.1, eq. 12.2-1 (lag screw withdrawal)"),
    _nds("nds-2018-12-2-2", "12.2.2, eq. 12.2-2 (wood screw withdrawal)"),
    _nds("nds-2018-12-2-5", "12.2.5.1, eqs 12.2-6a/b (fastener head pull-through)"),
    _nds("nds-2018-12-3-1", "Table 12.3.1A and B, eqs 12.3-1 to 12.3-6 (yield limit)"),
    _nds("nds-2018-12-3-3", "Table 12.3.3 (dowel bearing strength)"),
    _nds("nds-2018-12-3-3a", "Table 12.3.3A (specific gravity)"),
    _nds("nds-2018-12-3-3b", "Table 12.3.3B (panel specific gravity)", "from memory", ""),
    _nds("nds-2018-commentary-placement", "Commentary, advisory screw placement", "from memory", ""),
    _nds("nds-2018-12-3-4", "12.3.4, eq. 12.3-11 (angle to grain)"),
    _nds("nds-2018-12-3-5", "12.3.5.3 (bearing length)"),
    _nds("nds-2018-12-3-7", "12.3.7.1 (root diameter)"),
    _nds("nds-2018-12-4-1", "12.4.1, eq. 12.4-1 (lateral and withdrawal together)"),
    _nds("nds-2018-12-5-1", "12.5.1 (end, edge, spacing)"),
    _nds("nds-2018-appendix-i", "Table I1 (fastener bending yield strength)"),
    _nds("nds-2018-appendix-l", "Tables L2, L3 (screw sizes)"),
    _nds("nds-2018-appendix-l4", "Table L4 (nail sizes)", "from memory", ""),
    _nds("nds-2018-supplement-density", "Supplement 3.1.3 (density from G)", "from memory", ""),
    _nds("nds-2018-supplement-4a", "Supplement Table 4A (reference modulus)", "from memory", ""),
    _nds("nds-2018-screw-lead-holes", "12.1.5 (screw lead holes)", "from memory", ""),
    Source(
        "astm-d245",
        "ASTM D245, Establishing Structural Grades for Visually Graded Lumber",
        "2006",
        "strength from clear wood",
        "from memory",
        "a fifth percentile over 2.1 for bending, 4.1 for shear",
    ),
    Source(
        "awc-tr-12",
        _TR12,
        "2015",
        "general dowel equations, single shear",
        "from memory",
        "with no gap all six modes equal the NDS closed forms",
    ),
    _derived(
        "statics",
        "Statics of a rigid cabinet on a bevelled cleat",
        "worked out here; the page worked-hanging does one case by hand",
    ),
    _derived(
        "load-path",
        "Links of a cabinet's load: glue, grooves, bearing, dowels, pins",
        "allowable values as the module load_path names them: APA, EN and ASTM figures from memory, GTR-190 read",
    ),
)

_CABINETS: tuple[Source, ...] = (
    _kcma("kcma-a161-1-5-1", "5.1 (shelves and bottoms)", "read second-hand"),
    _kcma(
        "kcma-a161-1-5-2",
        "5.2 (mounted wall cabinet)",
        "a proof load in a test frame, not a service load; older text 500 lb, later 600 lb",
    ),
    _kcma("kcma-a161-1-6-1", "6.1 (door racking)", "read second-hand"),
    _aws("aws-1-p253", "p. 253 (shelf loads, L/144)"),
    _aws("aws-1-p271-p285", "pp. 271 and 285 (face frames, stile-and-rail doors)"),
    _aws("aws-1-p279", "p. 279 (longest adjustable shelves)"),
    _aws("aws-1-p281", "p. 281 (anchor strips)"),
    Source("ps-1-19", "Voluntary Product Standard PS 1, Structural Plywood", "PS 1-19", "thickness tolerances"),
    Source(
        "birch-plywood-sheet",
        "Birch plywood data sheet, tolerances to EN 315",
        "",
        "thickness and density",
        note="read",
    ),
    Source("birch-plywood-stiffness", "Finnish birch plywood, mean bending modulus", "", "", "from memory"),
    Source("en-312", "EN 312, Particleboards, type P2", "2010", "Table 3", note="density from a P2 board data sheet"),
    Source("en-312-moe", "EN 312, Particleboards, type P2", "2010", "modulus, 13 to 20 mm", "from memory"),
    Source("en-572-1", "EN 572-1, Basic soda-lime silicate glass", "2012", "density and modulus", "from memory"),
    Source("en-622-5", "EN 622-5, Dry process boards (MDF)", "2009", "modulus", "from memory", "low confidence"),
    Source(
        "panel-mass-memory",
        "Mean mass of sheathing panels: plywood about 2.2 lb/ft2 at 3/4 in, strand board about 650 kg/m3",
        "",
        "",
        "from memory",
    ),
    Source("nhla-rules", "NHLA Rules for the Measurement and Inspection of Hardwood Lumber", "", "surface measure"),
    Source(
        "astm-f2057",
        "ASTM F2057, Safety of Clothing Storage Units",
        "2023",
        "60 lb on an open drawer",
        "from memory",
        "taken here as a person bearing down on what stands open",
    ),
    Source("hinge-planning-pages", "Cup hinge planning pages of four makers", "", "drilling and count charts"),
    Source(
        "hinge-arms",
        "Arms and plates of 35 mm cup hinges: overlay = a constant + edge distance - plate height",
        "",
        "constants 14, 4.5 and -4 mm, plates 0 to 9 mm",
        "from memory",
        "the rule was read on planning pages; the constants vary by maker by a millimetre or so",
    ),
    Source("glue-guide", "Glue maker's clamp pressure guide", "", "pressure by density class"),
    _derived(
        "swing-fixed-axis",
        "Door swing about a fixed axis at the hinge edge",
        "worked out here: the far corner passes the closed edge by sqrt(w2 + t2) - w at most",
    ),
    _derived("dry-fit", "The virtual dry fit of the parts themselves", "exact on boxes"),
    Source(
        "stack-up",
        "Tolerance stack-up: worst case, root of the sum of squares, and 1.5 times that",
        note="read on pages that work it through; errors of one set-up summed before the root: derived",
    ),
    Source(
        "hinge-adjustment", "Reach of the screws of cup hinges and of slots of drawer slides", provenance="from memory"
    ),
    _derived("glue-spread", "6 mil wet film at 1.1 g/cm3"),
    _practice("common-practice", "Common practice, no source"),
    _practice(
        "practice-32-mm", "32 mm convention: 5 mm holes, 32 mm pitch, 37 mm setback", "common practice, no source"
    ),
    _practice("practice-shelf-sag", "0.02 in per ft of span", "common practice, no source; from memory"),
    _practice("practice-joint-proportions", "Joint proportions taught to boat and cabinet joiners"),
    Source("gravity", "CGPM, standard acceleration of free fall, 9.80665 m/s2", "1901", "resolution 2", "from memory"),
    Source("nist-811", "NIST Special Publication 811, conversion factors", "2008", "Appendix B", "from memory"),
)


def _registry() -> Mapping[str, Source]:
    table: dict[str, Source] = {}
    for entry in (*_WOOD, *_CONNECTIONS, *_CABINETS):
        if entry.code in table:
            raise ValueError(f"source code {entry.code!r} is registered twice")
        table[entry.code] = entry
    return MappingProxyType(table)


SOURCES: Mapping[str, Source] = _registry()
"""Every source by its code, in a fixed order."""


def source(code: str) -> Source:
    """Return the source named by `code`; a KeyError names an unknown code."""
    try:
        return SOURCES[code]
    except KeyError:
        raise KeyError(f"no source is registered under {code!r}") from None


def cite(code: str, others: Iterable[Source] = ()) -> str:
    """Return one line for a reader, of a source listed here or among `others`.

    Title, edition, clause, and the provenance where it is not a read document.
    """
    entry = next((one for one in others if one.code == code), None) or source(code)
    line = ", ".join(part for part in (entry.title, entry.edition, entry.clause) if part)
    return line if entry.provenance == "document read" else f"{line} ({entry.provenance})"
