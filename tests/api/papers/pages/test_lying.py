"""Pictures of how a piece lies: the sides that the step itself names, the cutter inside the piece, all on the table."""

from casewright.api.papers.drawing.shapes import Path, Text
from casewright.api.papers.pages.lying import DRAWN, HIGH, WIDTH, lying
from casewright.sdk.model import Plan


def test_a_cut_along_a_fence_shows_the_sides_its_step_names(bay: Plan) -> None:
    seen = 0
    for step in bay.steps:
        made = lying(step, bay.sides)
        if step.action not in DRAWN or step.setting.fence is None:
            assert made is None
            continue
        assert made is not None
        seen += 1
        (view,) = made.sheet.views
        first = step.on[0]
        assert first.down is not None
        assert first.against is not None
        names = bay.sides[first.part]
        words = [shape.text for shape in view.shapes if isinstance(shape, Text)]
        assert words == [f"{names[first.down]} down", f"{names[first.against]} to the fence"]
        fence, piece, cutter = [shape.points for shape in view.shapes if isinstance(shape, Path)]
        assert max(x for x, _ in fence) == min(x for x, _ in piece)
        assert min(x for x, _ in piece) < min(x for x, _ in cutter) < max(x for x, _ in cutter)
        assert max(x for x, _ in cutter) < max(x for x, _ in piece)
        assert min(y for _, y in cutter) == min(y for _, y in piece)
        assert max(y for _, y in cutter) < max(y for _, y in piece)
        assert all(0 <= x <= WIDTH and 0 <= y <= HIGH for path in (fence, piece, cutter) for x, y in path)
    assert seen
