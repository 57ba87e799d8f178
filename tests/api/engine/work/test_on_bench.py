"""How sub-assemblies lie while they are put together, and where parts come from as one sees it there."""

import pytest
from casewright.api.engine.work.on_bench import OnBench, on_bench
from casewright.api.engine.work.together import put_together

HOUSED = {"corner": {"method": "housed-groove", "depth": 6}, "top_inset": 20, "bottom_inset": 20}
DOORS = {"space": {"front": "door"}, "doors": {"style": "cope-and-stick", "material": "frame", "panel": "thin"}}
FRAME = {"face_frame": {"material": "frame", "joint": {"method": "loose-tenon"}}}


@pytest.fixture
def assemblies(planned):
    plan = planned({**DOORS, **FRAME}, HOUSED)
    return put_together(plan.parts, plan.joints, plan.hardware, {})


@pytest.mark.parametrize("group", ["face-frame", "door-1"])
def test_frames_and_doors_lie_flat(assemblies, group):
    bench = on_bench(assemblies["bay", group])
    assert bench.flat
    assert bench.how == "flat on the bench, show face up"


def test_a_case_lies_on_the_outward_face_of_its_first_part(assemblies):
    together = assemblies["bay", "case"]
    first = together.order.first.removeprefix("bay/")
    # Down is the way its outward face looks: the bottom's is below, a left side's at the left.
    ways = {"bottom": -3, "top": 3, "side-left": -1, "side-right": 1, "back": 2}
    bench = on_bench(together)
    assert (bench.down, bench.flat) == (ways[first], False)


def test_a_back_let_in_lies_as_high_over_the_bench_as_the_case_reaches_past_it(planned):
    plan = planned({}, {**HOUSED, "back": {"material": "case", "inset": 20, "joint": {"method": "housed-groove"}}})
    together = put_together(plan.parts, plan.joints, plan.hardware, {})["bay", "case"]
    assert on_bench(together) == OnBench(2, flat=False, over=20_000_000)
    back = next(part for part in plan.parts if part.id == "bay/back")
    assert on_bench(together).laid(back, plan.sides["bay/back"], str) == "front face up, on strips 20000000 thick"


def test_what_moves_to_the_bench_comes_from_above():
    assert OnBench(-3, flat=False).source(-3) == "from above"  # standing: moved down
    assert OnBench(-1, flat=False).source(-1) == "from above"  # lying on its left side: moved to the left
    assert OnBench(-1, flat=False).source(1) == "from below"
    assert OnBench(2, flat=True).source(-3) == "from the top"  # lying flat: moved to its bottom
    assert OnBench(-3, flat=False).source(1) == "from the left"
    assert OnBench(-3, flat=False).target(3) == "up"
    assert OnBench(2, flat=True).target(-1) == "to the left"
