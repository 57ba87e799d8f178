"""The plan document: its description holds, reasons sum, bench text and tables are as stated."""

import json
import subprocess
import sys
from dataclasses import replace
from typing import Any

import pytest
from casewright.api import plan
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.use.planning import plan_job
from casewright.api.wire.plan_document import SECTIONS, plan_document, to_bytes
from casewright.api.wire.plan_schema import view_schema
from casewright.sdk.findings import Check, Finding
from casewright.sdk.loader import Registry


@pytest.fixture
def made(small: dict[str, Any], registry: Registry) -> dict[str, Any]:
    small["cabinets"][0] |= {
        "count": 2,
        "face_frame": {"material": "oak"},
        "space": {"tiers": [{"front": "door", "loose_shelves": 1}, {"front": "open"}]},
        "doors": {"style": "cope-and-stick", "panel": "thin", "pull": {"item": "knob-1"}},
        "mounting": {"method": "bevel-cleat", "contents_kg": 20},
    }
    return plan_job(small, registry)


def test_the_description_of_the_document_holds(made: dict[str, Any]) -> None:
    written = json.loads(to_bytes(made))
    assert view_schema("PlanView", "The whole plan.", SECTIONS)().validate(written) == {}
    assert set(SECTIONS) < set(written)


def test_the_same_job_gives_the_same_bytes(small: dict[str, Any], registry: Registry) -> None:
    assert to_bytes(plan_job(small, registry)) == to_bytes(plan_job(json.dumps(small).encode(), registry))


def test_reasons_sum_in_job_units(made: dict[str, Any]) -> None:
    for part in made["parts"]:
        for size in ("length", "width"):
            # Numbers leave as doubles of whole nanometres, so a sum may differ by their last bits: 1e-9 mm.
            assert sum(term["value"] for term in part["why"][size]) == pytest.approx(part[size], abs=1e-9)


def test_features_lie_in_their_part_and_say_where_they_are_cut(made: dict[str, Any]) -> None:
    sizes = ("length", "width", "thickness")
    side = next(p for p in made["parts"] if p["role"] == "side")
    grooves = [f for f in side["features"] if f["kind"] == "groove"]
    assert grooves
    for groove in grooves:
        box = groove["boxes"][0]
        for i, name in enumerate(sizes):
            assert box["at"][i] >= -1e-9
            assert box["at"][i] + box["size"][i] <= side[name] + 1e-9
        assert groove["face"] in ("face-low", "face-high")
        # Common practice, no source: a housed groove is half the thickness deep.
        assert groove["depth"] == pytest.approx(side["thickness"] / 2)
        across = sizes.index("length" if groove["along"] == "width" else "width")
        assert (groove["offset"], groove["width"]) == (box["at"][across], box["size"][across])


def test_pounds_stand_beside_kilograms_in_inch_jobs_only(small: dict[str, Any], registry: Registry) -> None:
    assert "mass_lb" not in plan_job(small, registry)["summary"][0]
    inch = json.loads(json.dumps(small).replace('"mm"', '"in"'))
    inch["cabinets"][0] |= {"width": 24, "height": 28, "depth": 12}
    inch["cabinets"][0]["case"] |= {"top_inset": "3/4", "bottom_inset": "3/4"}
    inch["materials"] = {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 0.7}}
    line = plan_job(inch, registry)["summary"][0]
    assert line["mass_lb"] == pytest.approx(line["mass_kg"] / 0.45359237, abs=0.02)  # the pound, exactly


def test_embedding_needs_no_web() -> None:
    code = "import sys; from casewright.api import plan; assert not {'flask', 'apispec', 'gunicorn'} & set(sys.modules)"
    job = 'plan(b\'{"units": "mm", "materials": {"a": {"kind": "sheet", "stuff": "mdf", "thickness": 18}},'
    job += ' "loose_parts": [{"id": "x", "material": "a", "length": 500, "width": 300}]}\')'
    code += f"; {job}; assert not {{'flask', 'apispec', 'gunicorn'}} & set(sys.modules)"
    subprocess.run([sys.executable, "-c", code], check=True, timeout=60)


def test_embedding_takes_text_bytes_and_values(small: dict[str, Any]) -> None:
    assert plan(small) == plan(json.dumps(small)) == plan(json.dumps(small).encode())


def test_a_stop_stands_with_the_cabinets_it_is_about(registry: Registry) -> None:
    case = {"width": 600, "height": 700, "depth": 300, "case": {"material": "ply"}}
    job = read_job(
        {
            "units": "mm",
            "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
            "cabinets": [{"id": name, **case} for name in ("pump", "pumps", "tools")],
        },
        registry,
    )
    made = make_plan(job, registry)
    # By hand: a cabinet by its id, by what is in it, by its place in the job and on the wall; `pump` is not in `pumps`.
    about = {
        "pumps/top": ["pumps"],
        "pump": ["pump"],
        "/cabinets/2/width": ["tools"],
        "/wall/cabinets_at/pump/0": ["pump"],
        "/cabinets": [],
        "": [],
    }
    checks = tuple(Check(subject, Finding(f"stop-{i}", "stop", "no")) for i, subject in enumerate(about))
    caution = Check("pump", Finding("caution", "caution", "well"))
    document = plan_document(replace(made, checks=(*checks, caution)), {}, "", ["summary"])
    stops = {line["cabinet"]: line["stops"] for line in document["summary"]}
    for name, codes in stops.items():
        assert codes == [f"stop-{i}" for i, ids in enumerate(about.values()) if name in ids]
