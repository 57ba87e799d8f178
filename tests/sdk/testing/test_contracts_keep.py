"""Every built-in method keeps the contract that outside plugins are held to.

The default run takes small counts and plans no jobs. `--full` plans 200 generated jobs for every method in every kind
of meeting it claims: once with the options left out, once with options drawn from the schema.
"""

from typing import Any

import pytest
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.loader import load
from casewright.sdk.testing import assert_dry_fit, planned
from casewright.sdk.testing.quick import CONTRACTS
from hypothesis import strategies as st

REGISTRY = load(discover="built-in")
CASES = [(family, method) for family in CONTRACTS for method in getattr(REGISTRY, family)]
LONG = {"test_generated_jobs_fit_dry", "test_same_job_same_plan"}
ALIKE = {"mitre-spline"}


def contract(family: str, method: str, **attributes: Any) -> Any:
    body = {"method": method, "alike": method in ALIKE, "_registry": REGISTRY, **attributes}
    return type("Kept", (CONTRACTS[family],), body)()


@pytest.mark.parametrize(("family", "method"), CASES)
def test_built_ins_keep_the_contract(family: str, method: str, full: bool) -> None:
    kept = contract(family, method, jobs=5, meetings=60 if full else 8)
    for name in dir(kept):
        if name.startswith("test_") and name not in LONG:
            getattr(kept, name)()


@pytest.mark.parametrize("options", ["plain", "drawn"])
@pytest.mark.parametrize(("family", "method"), CASES)
def test_generated_jobs_fit_dry(family: str, method: str, options: str, full: bool) -> None:
    if not full:
        pytest.skip("200 jobs a method: --full")
    drawn = {"options": st.just({})} if options == "plain" else {}
    contract(family, method, jobs=200, **drawn).test_generated_jobs_fit_dry()


def job(corner: dict[str, Any], **cabinet: Any) -> dict[str, Any]:
    case = {"material": "case", "corner": corner, "fixed_joint": {"method": "housed-groove", "depth": 4}}
    case |= cabinet.pop("case", {})
    return {
        "units": "mm",
        "materials": {
            "case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 17.1},
            "thin": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 5},
            "frame": {"kind": "board", "stuff": "red-oak", "thickness": 18},
            "edging": {"kind": "band", "stuff": "red-oak", "thickness": 0.8},
        },
        "cabinets": [{"id": "b", "width": 700, "height": 700, "depth": 260, "case": case, **cabinet}],
    }


IN = {"top_inset": 10, "bottom_inset": 10}
GROOVED = {"method": "housed-groove"}
TWO = {"tiers": [{"front": "open"}, {"front": "open"}]}


def doors(style: str, **options: Any) -> dict[str, Any]:
    picked = {"style": style, "material": "frame", "panel": "thin", "overlay": 3, **options}
    return job(GROOVED, case=IN, space={"front": "door"}, doors=picked)


@pytest.mark.parametrize("style", ["cope-and-stick", "mortise-and-tenon"])
def test_a_groove_narrower_than_the_panel_is_the_styles_own_stop(style: str) -> None:
    made = planned(doors(style, groove_width=4.9), REGISTRY)
    assert ("panel-thicker-than-groove", "stop") in {(c.code, c.level) for c in made.checks}


def test_battens_that_would_lie_on_the_case_are_refused() -> None:
    with pytest.raises(NoGeometryError, match="battens clear the wood"):
        planned(doors("plank-and-batten", batten_from_edge=0), REGISTRY)


@pytest.mark.parametrize(
    "sound",
    [
        job(
            GROOVED,
            case=IN,
            space={"bays": [TWO, TWO]},
            face_frame={"material": "frame", "joint": {"method": "half-lap"}},
        ),
        job({**GROOVED, "clearance": 0.1}, case={**IN, "case_band": "edging"}),
        job({"method": "rabbet", "clearance": 0.1}, case={"case_band": "edging"}),
        job(GROOVED, case={**IN, "case_band": "edging"}),
        job({**GROOVED, "clearance": 0.1}, case=IN),
        job({"method": "rabbet"}, case={"case_band": "edging"}),
        job({"method": "rabbet", "clearance": 0.1}),
        doors("cope-and-stick", groove_width=5),
        doors("mortise-and-tenon"),
        doors("plank-and-batten"),
    ],
)
def test_small_jobs_that_once_did_not_fit_and_their_likes(sound: dict[str, Any]) -> None:
    assert_dry_fit(planned(sound, REGISTRY))
