"""Catalogues looked over: each lie is named with its entry and field, and what to write; what ships passes."""

from dataclasses import replace
from typing import Any

import pytest
from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.catalogue_rules import faults
from casewright.sdk.materials import Catalogue
from casewright.sdk.sources import SOURCES, Source
from casewright.sdk.units import mm

PULL, HINGE, SCREW, STUFF = CATALOGUE.pulls[0], CATALOGUE.hinges[0], CATALOGUE.screws[0], CATALOGUE.stuffs[0]


def only(**entries: Any) -> list[str]:
    """Return the faults of a catalogue with one entry."""
    return list(faults(Catalogue(**{name: (entry,) for name, entry in entries.items()}), SOURCES))


def test_what_ships_is_sound() -> None:
    assert list(faults(CATALOGUE, SOURCES)) == []


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"mass_kg": "heavy"}, "mass_kg is 'heavy', which is not a number"),
        ({"mass_kg": -1.0}, "mass_kg is -1.0, below nought"),
        ({"mass_kg": float("nan")}, "mass_kg is nan, which is not a number"),
        ({"mass_kg": True}, "mass_kg is True, which is not a number"),
        ({"spacing": 96}, "spacing is 96 nm, which no such thing measures; write mm(96) if mm were meant"),
        ({"spacing": 96.0}, "spacing is 96.0, which is not a whole number of nm; write mm(…)"),
        ({"spacing": -mm(96)}, "spacing is -96 mm, below nought"),
        ({"hole_diameter": 0}, "hole_diameter is nought"),
        ({"projection": mm(30_000)}, "projection is 30000 mm, which no such thing measures"),
        ({"holes": -1}, "holes is -1, which is no count"),
        ({"id": "bar 96"}, "id is 'bar 96'"),
        ({"title": ""}, "title is empty"),
        ({"title": 5}, "title is 5, which is not text"),
        ({"sources": ()}, "sources are empty"),
        ({"sources": (("*", "hearsay"),)}, "cite 'hearsay', which nobody lists"),
        ({"sources": (("colour", "common-practice"),)}, "name 'colour', which is no field of it"),
        ({"sources": "common-practice"}, "write pairs such as"),
    ],
)
def test_each_lie_of_a_pull_is_named(change: dict[str, Any], words: str) -> None:
    (fault,) = only(pulls=replace(PULL, **change))
    assert fault.startswith("catalogue pulls ")
    assert words in fault


def test_lies_of_other_entries_are_named() -> None:
    (crossed,) = only(hinges=replace(HINGE, edge_least=HINGE.edge_most + mm(1), edge_usual=HINGE.edge_most))
    assert "edge_least is" in crossed
    (thick,) = only(screws=replace(SCREW, root=SCREW.diameter + mm(1)))
    assert "root is" in thick
    assert "more than diameter" in thick
    (kind,) = only(stuffs=replace(STUFF, kind="plank"))
    assert "kind is 'plank', which is none of sheet, board" in kind
    (gaps,) = only(hinges=replace(HINGE, gaps=("wide",)))
    assert "gaps holds 'wide', which is not a HingeGap" in gaps


def test_a_catalogue_may_cite_its_own_documents() -> None:
    own = Source("bay-notes", "Notes of the repair bay", "2026")
    pull = replace(PULL, sources=(("*", "bay-notes"),))
    assert list(faults(Catalogue(pulls=(pull,), sources=(own,)), SOURCES)) == []
