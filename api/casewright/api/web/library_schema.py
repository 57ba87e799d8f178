"""What there is to choose from, and what the service says of itself, as marshmallow schemas."""

from collections.abc import Mapping
from typing import Any

from casewright.api.web.catalogue_schema import ENTRY, Materials
from casewright.api.wire.checks_schema import LEVELS
from casewright.api.wire.described import Field, anything, mapping, one, record, rows, text, texts, whole, word
from casewright.api.wire.plan_schema import MadeBy
from marshmallow import Schema
from marshmallow.fields import String

_FREE: Field = anything("")
_PAGE: Field = text("its page, relative to this answer")
MethodEntry = record(
    "MethodEntry",
    "A method.",
    **ENTRY,
    page=_PAGE,
    family=word("its family", "joints", "doors", "boxes", "mountings"),
    does=texts("meetings a joint can make"),
    plugin=text("the plugin it is of"),
    options=mapping(_FREE, "JSON Schema of its options"),
)
HouseStyle = record(
    "HouseStyle", "A house style.", **ENTRY, page=_PAGE, defaults=mapping(_FREE, "what a house then has")
)
CheckEntry = record("CheckEntry", "A check of a plugin.", **ENTRY, page=_PAGE)
CureEntry = record(
    "CureEntry",
    "What proposes changes that may clear stops.",
    **ENTRY,
    page=_PAGE,
    codes=texts("codes of the stops it knows"),
    why_none=mapping(String(), "why a stop has no change, by code"),
)
CatalogueFamily = record(
    "CatalogueFamily",
    "A family of the catalogue; its entries are answered by /v1/materials.",
    family=text("its name there"),
    ids=texts("what it holds"),
    page=_PAGE,
)
Methods = record(
    "MethodsView",
    "What methods there are.",
    methods=rows(MethodEntry, "joints, doors, drawer corners and mountings"),
    house_styles=rows(HouseStyle, "house styles"),
    checks=rows(CheckEntry, "checks of plugins"),
    cures=rows(CureEntry, "generators of cures"),
    catalogue=rows(CatalogueFamily, "families of the catalogue"),
)
SourceEntry = record(
    "SourceEntry",
    "A document that numbers come from.",
    code=text("what checks name it by"),
    title=text("its title"),
    edition=text("its edition"),
    clause=text("table, equation or clause"),
    provenance=word("how it is known", "document read", "from memory", "common practice", "derived"),
    note=text("what was read"),
)
LimitEntry = record(
    "LimitEntry",
    "A limit on a job.",
    name=text("its name"),
    value=whole("the limit"),
    unit=text("its unit; empty for a count"),
    about=text("what it bounds"),
)
PluginEntry = record(
    "PluginEntry",
    "A plugin that was found.",
    name=text("its name"),
    distribution=text("the distribution it came in"),
    version=text("version of that"),
    status=text("loaded, failed or blocked"),
    cause=text("why it is not loaded"),
    methods=texts("what it brings"),
)
CodeEntry = record(
    "CodeEntry",
    "A kind of check. Codes stay what they are; new ones may come.",
    code=text("the code"),
    levels=texts("levels it may have: " + ", ".join(LEVELS)),
    meaning=text("what it says"),
    cures=texts("ids of the generators that know it, by /v1/methods"),
)
Alive = record("Alive", "That the process lives.", status=word("always this", "alive"))
Ready = record(
    "Ready",
    "That it can answer.",
    status=word("always this", "ready"),
    failed_plugins=texts("plugins that could not be loaded"),
)
ProblemKind = record(
    "ProblemKind",
    "A kind of problem explained.",
    type=text("what problems name it by"),
    status=whole("HTTP status"),
    title=text("in a few words"),
    about=text("what to do about it"),
)


def library_schemas(job: type[Schema]) -> Mapping[str, type[Schema]]:
    """Return the schema of each path that answers what there is to choose from, by its name; jobs are of a schema."""
    example = record(
        "ExampleEntry", "An example job.", name=text("its name"), title=text("its title"), job=one(job, "the job")
    )
    return {
        "examples": record("ExamplesView", "Jobs to begin from.", examples=rows(example, "the jobs")),
        "methods": Methods,
        "materials": Materials,
        "sources": record("SourcesView", "Sources.", sources=rows(SourceEntry, "every source")),
        "limits": record("LimitsView", "Limits.", limits=rows(LimitEntry, "every limit")),
        "plugins": record(
            "PluginsView",
            "Plugins found.",
            plugins=rows(PluginEntry, "every plugin"),
            left_out=texts("methods whose options clash with shared ones"),
            note=text("what installing one means"),
        ),
        "checks/codes": record("CodesView", "Codes of checks.", codes=rows(CodeEntry, "every code")),
    }


SERVICE_SCHEMAS: Mapping[str, tuple[type[Schema], Any]] = {
    "/healthz": (Alive, {"status": "alive"}),
    "/readyz": (Ready, {"status": "ready", "failed_plugins": []}),
    "/version": (MadeBy, None),
}
"""Schema and example of what the service says of itself."""
