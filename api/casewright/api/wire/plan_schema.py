"""The plan document as marshmallow schemas. Plans are written as plain dictionaries; these only describe them.

They enter the OpenAPI document and the tests. Fields may be added to a plan, so unknown keys are allowed.
"""

from collections.abc import Mapping

from casewright.api.wire.built_document import PlanBuilt
from casewright.api.wire.checks_schema import PlanCheck
from casewright.api.wire.described import (
    CABINET,
    MASS_LB,
    Field,
    mapping,
    number,
    one,
    record,
    rows,
    size,
    sizes,
    text,
    texts,
    whole,
    word,
)
from casewright.api.wire.fits_document import PlanFit, PlanUnprovedFit
from casewright.api.wire.mounting_schema import PlanMounting
from casewright.api.wire.parts_schema import PlanDoor, PlanDryFit, PlanHardware, PlanJoint, PlanPart
from casewright.api.wire.run_schema import PlanCosts, PlanRun
from casewright.api.wire.steps_schema import PlanSchedule, PlanStep
from casewright.api.wire.stock_schema import PlanStock
from marshmallow import Schema

Item = record(
    "Item",
    "Something to buy.",
    item=text("id in the catalogue"),
    name=text("what it is called"),
    quantity=whole("how many"),
)

Summary = record(
    "Summary",
    "One cabinet in a line.",
    cabinet=CABINET,
    title=text("its title"),
    count=whole("how many are made"),
    width=size("outside width"),
    height=size("outside height"),
    depth=size("outside depth"),
    text=text("the same for the bench"),
    mass_kg=number("mass of one, empty, in kilograms", required=False),
    mass_lb=MASS_LB,
    hands=whole("people to lift it", required=False),
    buy=rows(Item, "its hardware"),
    stops=texts("codes of its stops"),
)

PlanWeight = record(
    "PlanWeight",
    "An empty cabinet's mass and its centre.",
    cabinet=CABINET,
    mass_kg=number("mass in kilograms"),
    mass_lb=MASS_LB,
    centre=sizes("centre of mass in the cabinet frame"),
)

PlanWorkshop = record(
    "PlanWorkshop",
    "What one copy of a cabinet asks of glue, band and finish.",
    cabinet=CABINET,
    glue_area_mm2=number("glued area in square millimetres"),
    glue_g=number("glue in grams"),
    band_length=size("edge band"),
    finish_area_mm2=number("area to finish in square millimetres"),
)

PluginName = record(
    "PluginName",
    "A plugin that was loaded.",
    name=text("its name"),
    distribution=text("the distribution it came in"),
    version=text("version of that"),
)

MadeBy = record(
    "MadeBy",
    "What made the plan.",
    software=text("name of the software"),
    version=text("its version"),
    sdk=text("version of its plugin SDK"),
    plugins=rows(PluginName, "every plugin loaded"),
)

SECTION_FIELDS: Mapping[str, Field] = {
    "summary": rows(Summary, "a line a cabinet"),
    "parts": rows(PlanPart, "the cut list"),
    "joints": rows(PlanJoint, "every joint"),
    "doors": rows(PlanDoor, "every door"),
    "hardware": rows(PlanHardware, "what to buy beside wood"),
    "mounting": rows(PlanMounting, "how cabinets hang and stand"),
    "dry_fit": one(PlanDryFit),
    "checks": rows(PlanCheck, "every check"),
    "steps": rows(PlanStep, "the order of work"),
    "schedule": one(PlanSchedule),
    "weights": rows(PlanWeight, "what cabinets weigh"),
    "workshop": rows(PlanWorkshop, "glue, band and finish"),
    "stock": one(PlanStock, "null: the job lists no stock", allow_none=True),
    "run": one(PlanRun, "null: no cabinet has a place", allow_none=True),
    "costs": one(PlanCosts),
    "fits": rows(PlanFit, "fits that matter"),
    "fits_not_proved": rows(PlanUnprovedFit, "fits that matter and have no chain, with why"),
    "built": one(PlanBuilt, "null: the job says nothing of what is built", allow_none=True),
    "origins": mapping(
        word("where it came from", "default", "house", "house-style"),
        "where values came from that a cabinet does not give itself, by JSON Pointer",
    ),
}


def view_schema(name: str, about: str, sections: tuple[str, ...]) -> type[Schema]:
    """Return the schema of a view that shows some sections of the plan."""
    return answer_schema(name, about, **{section: SECTION_FIELDS[section] for section in sections})


def answer_schema(name: str, about: str, /, **sections: Field) -> type[Schema]:
    """Return the schema of an answer about a job: whose plan it is, its stops, its sections, and what made it."""
    whose = {
        "title": text("the job's title"),
        "units": word("unit of the lengths", "in", "mm"),
        "tape": text("finest division of the bench tape, in `units`"),
        "stops": whole("checks that say stop: do not cut"),
    }
    made = {"made_by": one(MadeBy), "fingerprint": text("SHA-256 of job, software and plugins, in hex")}
    return record(name, about, **whose, **sections, **made)
