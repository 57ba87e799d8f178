"""Pictures of assemblies: each piece stands off the way it comes from, in its order, and every clamp is drawn."""

from casewright.api.papers.drawing.inked import Mark
from casewright.api.papers.drawing.marks import marks
from casewright.api.papers.drawing.shapes import Text
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.cards import cards
from casewright.api.papers.views.assembly import assembly, assembly_views
from casewright.sdk.model import Action, Plan, Way


def test_pieces_stand_off_the_way_they_come_from(bay: Plan) -> None:
    facts = Facts(bay)
    for card in cards(facts):
        made = assembly(facts, card.steps)
        inserts = [step for step in card.steps if step.action is Action.INSERT]
        assert (made is None) == (not inserts)
        if made is None:
            continue
        place = {part.id: by for part, by in zip(made.parts, made.offsets, strict=True)}
        order = [part.id for part in made.parts]
        for step in inserts:
            # What goes to the right comes from the left, and so on: the directions are the cabinet's own.
            axis, sign = {
                Way.RIGHT: (0, -1), Way.LEFT: (0, 1), Way.BACK: (1, -1), Way.FRONT: (1, 1), Way.UP: (2, -1),
                Way.DOWN: (2, 1),
            }[step.moves[0].towards]  # fmt: skip
            for piece in step.on:
                assert sign * place[piece.part][axis] > 0
                for into in piece.into:
                    assert order.index(into) < order.index(piece.part)
                    assert sign * place[piece.part][axis] > sign * place[into][axis]


def test_every_piece_has_its_number_and_every_clamp_two_jaws(bay: Plan) -> None:
    facts = Facts(bay)
    for card in cards(facts):
        made = assembly(facts, card.steps)
        if made is None:
            continue
        views, high = assembly_views(made, 64.0, 54.0)
        by_name = {view.name: view for view in views}
        numbers = [shape.text for shape in by_name["numbers"].shapes if isinstance(shape, Text)]
        assert sorted(map(int, numbers)) == list(range(1, len(made.parts) + 1))
        clamps = sum(piece.clamps for piece in made.clamped)
        solid = [mark for mark in marks(by_name["clamped"]) if isinstance(mark, Mark) and mark.solid] if clamps else []
        assert len(solid) == 2 * clamps
        for view in views:
            for mark in marks(view):
                for x, y in mark.points if isinstance(mark, Mark) else ():
                    assert -0.01 <= view.at[0] + view.scale * x <= 64.01
                    assert -0.01 <= view.at[1] + view.scale * y <= high + 0.01
