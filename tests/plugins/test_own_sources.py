"""Documents that a plugin brings: its own hinge is cited with its own source, in checks, lists and papers."""

from dataclasses import replace
from types import ModuleType
from typing import Any

from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.appendix import cited
from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.materials import Catalogue
from casewright.sdk.sources import Source
from casewright.sdk.testing import client, planned, registry_with

NOTES = Source("bay-hinges", "Hinges measured in the repair bay", "2026", "sheet 3")
JOB: dict[str, Any] = {
    "units": "mm",
    "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
    "cabinets": [
        {
            "id": "tools",
            "width": 500,
            "height": 700,
            "depth": 300,
            "case": {"material": "ply"},
            "doors": {"style": "slab", "material": "ply", "hinge": "own-hinge"},
            "space": {"front": "door"},
        }
    ],
}


def test_a_plugins_own_hinge_is_cited_with_its_own_source() -> None:
    own = replace(CATALOGUE.hinges[0], id="own-hinge", sources=(("*", NOTES.code),))
    plugin = ModuleType("own")
    plugin.casewright_catalogue = hookimpl(lambda: Catalogue(hinges=(own,), sources=(NOTES,)))  # type: ignore[attr-defined]
    registry = registry_with(plugin)
    plan = planned(JOB, registry)
    (count,) = [check for check in plan.checks if check.code == "hinge-count"]
    assert count.source == NOTES.code
    assert cited(Facts(plan), count.source) == "Hinges measured in the repair bay, 2026, sheet 3"
    listed = client(registry).get("/v1/sources").get_json()["sources"]
    assert [row["title"] for row in listed if row["code"] == NOTES.code] == [NOTES.title]
