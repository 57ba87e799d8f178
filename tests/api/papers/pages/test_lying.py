"""Pictures of how a piece lies: the sides that the step itself names, the cutter inside the piece, all on the table."""

from collections.abc import Callable, Sequence

import pytest
from casewright.api.papers.drawing.shapes import Path, Text
from casewright.api.papers.pages.lying import HIGH, WIDTH, lying
from casewright.sdk.model import Action, Machine, Operation, Plan

NAMES = ("demo", "tall")


def drawn(plan: Plan, step: Operation) -> tuple[Sequence[Path], list[str]]:
    """Return the outlines and the words of a step's picture."""
    made = lying(step, plan.sides)
    assert made is not None, step.do
    (view,) = made.sheet.views
    paths = [shape for shape in view.shapes if isinstance(shape, Path)]
    assert all(0 <= x <= WIDTH and 0 <= y <= HIGH for path in paths for x, y in path.points)
    return paths, [shape.text for shape in view.shapes if isinstance(shape, Text)]


def spans(path: Path, axis: int) -> tuple[float, float]:
    return min(point[axis] for point in path.points), max(point[axis] for point in path.points)


def steps(plan: Plan, *actions: Action) -> list[Operation]:
    return [step for step in plan.steps if step.action in actions and step.on[0].down and step.on[0].against]


@pytest.mark.parametrize("name", NAMES)
def test_a_piece_at_a_fence_shows_the_sides_its_step_names_and_the_cutter_in_it(
    plan: Callable[[str], Plan], name: str
) -> None:
    made = plan(name)
    seen = 0
    for step in steps(made, Action.GROOVE, Action.RABBET):
        if step.machine not in (Machine.TABLE_SAW, Machine.ROUTER_TABLE) or step.setting.fence is None:
            continue
        seen += 1
        (fence, piece, cutter), words = drawn(made, step)
        first = step.on[0]
        names = made.sides[first.part]
        assert words == [f"{names[first.down]} down", f"{names[first.against]} to the fence"]
        assert spans(fence, 0)[1] == spans(piece, 0)[0]
        # A fence at nothing stands against the cutter: the cut opens the side that rides it.
        beside = spans(cutter, 0)[0] == spans(piece, 0)[0]
        assert beside is (step.setting.fence == 0)
        assert spans(cutter, 0)[1] < spans(piece, 0)[1]
        assert spans(cutter, 1)[0] == spans(piece, 1)[0]
        assert spans(cutter, 1)[1] < spans(piece, 1)[1]
    assert seen


def test_a_router_goes_in_from_above(plan: Callable[[str], Plan]) -> None:
    made = plan("tall")
    routed = [step for step in steps(made, Action.GROOVE) if step.machine is Machine.ROUTER]
    assert routed
    for step in routed:
        (piece, cutter), words = drawn(made, step)
        first = step.on[0]
        names = made.sides[first.part]
        assert words == [f"into the {names[first.down]}", f"from the {names[first.against]}"]
        assert spans(cutter, 1)[1] == spans(piece, 1)[1]
        assert spans(cutter, 1)[0] > spans(piece, 1)[0]


@pytest.mark.parametrize(("name", "fingers"), [("demo", False), ("tall", False), ("workbench", True)])
def test_a_tenon_stands_on_its_end(plan: Callable[[str], Plan], name: str, fingers: bool) -> None:
    made = plan(name)
    tenons = steps(made, Action.TENON)
    assert tenons
    for step in tenons:
        paths, words = drawn(made, step)
        names = made.sides[step.on[0].part]
        assert words[0] in (f"{names.end_low} down", f"{names.end_high} down")
        assert len([path for path in paths if path.solid]) == (3 if fingers else 1)


def test_a_blade_leans_as_its_step_says(plan: Callable[[str], Plan]) -> None:
    # The cleat's hook: 45° away from the fence, so that the cut is further from it the higher it is.
    made = plan("demo")
    bevels = [step for step in steps(made, Action.BEVEL) if step.machine is Machine.TABLE_SAW]
    assert bevels
    for step in bevels:
        assert "45° away from the fence" in step.do
        (_, piece, blade), _ = drawn(made, step)
        low = [x for x, y in blade.points if y == spans(blade, 1)[0]]
        high = [x for x, y in blade.points if y == spans(blade, 1)[1]]
        assert min(high) - min(low) == pytest.approx(spans(piece, 1)[1] - spans(piece, 1)[0])
