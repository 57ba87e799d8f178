"""A quantity that may be given in either unit; factors from NIST SP 811 (lb exact, psf 47.88026 Pa)."""

from typing import Any

import pytest
from casewright.api.job.document import read_job
from casewright.sdk.errors import UnusableJobError
from casewright.sdk.loader import load
from casewright.sdk.model import Job

REGISTRY = load(discover="built-in")


def read(**changes: Any) -> Job:
    """Return the job of one small cabinet with `changes`."""
    cabinet = {"id": "pumps", "width": 600, "height": 700, "depth": 300, "case": {"material": "ply"}, **changes}
    materials = {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}}
    return read_job({"title": "Pumps", "units": "mm", "materials": materials, "cabinets": [cabinet]}, REGISTRY)


def test_contents_in_pounds_are_read_as_kilograms() -> None:
    mounting = read(mounting={"method": "bevel-cleat", "contents_lb": 100}).cabinets[0].mounting
    assert mounting is not None
    assert mounting.contents_kg == pytest.approx(45.359237, abs=1e-9)


def test_a_shelf_load_in_psf_is_read_as_pascals() -> None:
    loading = read(loading={"shelf_psf": 15}).cabinets[0].loading
    assert loading.shelf_pa == pytest.approx(718.204, abs=0.001)


@pytest.mark.parametrize(
    ("changes", "pointer"),
    [
        (
            {"mounting": {"method": "bevel-cleat", "contents_kg": 40, "contents_lb": 88}},
            "/cabinets/0/mounting/contents_lb",
        ),
        ({"loading": {"shelf_pa": 700, "shelf_psf": 15}}, "/cabinets/0/loading/shelf_psf"),
    ],
)
def test_both_units_at_once_are_refused(changes: dict[str, Any], pointer: str) -> None:
    with pytest.raises(UnusableJobError) as caught:
        read(**changes)
    assert [problem.pointer for problem in caught.value.problems] == [pointer]


def test_a_case_without_its_material_is_refused() -> None:
    with pytest.raises(UnusableJobError) as caught:
        read(case={})
    assert "/cabinets/0/case/material" in [problem.pointer for problem in caught.value.problems]


def test_a_leaning_person_may_be_given_in_pounds() -> None:
    # 60 lb are 27.2155 kg, and what is taken where the job does not say (ASTM F2057-23, from memory).
    assert read(loading={"lean_lb": 60}).cabinets[0].loading.lean_kg == pytest.approx(27.2155422, abs=1e-7)
    assert read().cabinets[0].loading.lean_kg == pytest.approx(60 * 0.45359237, abs=1e-9)


@pytest.mark.parametrize(
    ("key", "value", "refused"),
    [("from_left", 600, False), ("from_left", 601, True), ("from_front", 300, False), ("from_front", 301, True)],
)  # a cabinet 600 wide and 300 deep
def test_contents_lie_within_the_cabinet(key: str, value: int, refused: bool) -> None:
    mounting = {"method": "screw-strip", "contents_kg": 10, f"contents_{key}": value}
    if not refused:
        assert read(mounting=mounting).cabinets[0].mounting is not None
        return
    with pytest.raises(UnusableJobError) as caught:
        read(mounting=mounting)
    assert [problem.pointer for problem in caught.value.problems] == [f"/cabinets/0/mounting/contents_{key}"]
