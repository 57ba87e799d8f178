"""What puts mistakes right, as steps of the work, each where the part or the door has come so far."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from casewright.api.engine.work.naming import title
from casewright.api.engine.work.steps import Steps
from casewright.api.engine.work.together import Together
from casewright.sdk.model import (
    Action,
    Machine,
    Mistake,
    Move,
    Operation,
    Part,
    Repair,
    Setting,
    Stage,
    Way,
    Workpiece,
)

__all__ = ["put_right", "put_right_parts", "set_from_behind", "without_panel"]


def put_right_parts(steps: Steps, parts: Iterable[Part], after: Sequence[int]) -> None:
    """Add what puts right parts whose joinery is in the wrong face, before any more of it is cut."""
    by_id = {part.id: part for part in parts}
    for repair in steps.made.repairs:
        part = by_id.get(f"{repair.cabinet}/{repair.part}")
        if repair.mistake is Mistake.WRONG_FACE and part is not None and not repair.again:
            steps.by_hand(
                Stage.JOINTS, Action.FIT, _words(repair, f"the {title(part)} of {part.cabinet}"), [part], after
            )


def put_right(
    steps: Steps, door: tuple[str, str], mistake: Mistake, parts: Sequence[Part], after: Sequence[int]
) -> list[int]:
    """Add what puts a mistake with a door, by its cabinet and key, right; return what comes after waits for."""
    last = list(after)
    for repair in _of(steps, door, mistake):
        stage = Stage.HARDWARE if mistake is Mistake.MEETS_NEIGHBOUR else Stage.DOORS
        name = f"{repair.part.replace('-', ' ')} of {repair.cabinet}"
        last = [steps.by_hand(stage, Action.FIT, _words(repair, name), parts, last)]
    return last


def without_panel(steps: Steps, door: tuple[str, str], together: Together) -> Together:
    """Return a door as it was glued up where its panel was forgotten; else as it is."""
    panel = _panel(together)
    if not _of(steps, door, Mistake.PANEL_FORGOTTEN) or panel is None or together.order.first == panel.id:
        return together
    order = together.order
    insertions = [
        replace(one, parts=tuple([name for name in one.parts if name != panel.id])) for one in order.insertions
    ]
    return Together(
        tuple([part for part in together.parts if part is not panel]),
        replace(order, insertions=tuple([one for one in insertions if one.parts])),
        tuple([joint for joint in together.joints if panel.id not in (joint.host, joint.guest)]),
        together.hardware,
    )


def set_from_behind(
    steps: Steps, door: tuple[str, str], of: tuple[Together, Together], name: str, after: Sequence[int]
) -> list[int]:
    """Add the setting of a forgotten panel into its frame from behind; return what comes after waits for.

    `of` are the door whole and as it was glued up.
    """
    (whole, bare), panel = of, _panel(of[0])
    last = put_right(steps, door, Mistake.PANEL_FORGOTTEN, bare.parts, after)
    if whole is bare or panel is None:
        return last
    hosts = [joint.host for joint in whole.joints if joint.guest == panel.id]
    on = Workpiece(part=panel.id, count=panel.quantity, into=tuple(dict.fromkeys(hosts)))
    do = f"Lay {name} on its show face and set its panel in from behind, strips over it"
    moves = (Move(Way.FRONT, None),)
    check = "the panel can be moved by hand in its room, and no brad has gone into it"
    insert = Operation(0, Stage.DOORS, Machine.BY_HAND, Action.INSERT, Setting(), (on,), (), do, check, moves=moves)
    return [steps.put(insert, last)]


def _words(repair: Repair, name: str) -> str:
    return f"Put right {name}: {repair.do[0].lower()}{repair.do[1:]}"


def _of(steps: Steps, door: tuple[str, str], mistake: Mistake) -> list[Repair]:
    return [
        one
        for one in steps.made.repairs
        if (one.cabinet, one.part) == door and one.mistake is mistake and not one.again
    ]


def _panel(together: Together) -> Part | None:
    return next((part for part in together.parts if part.role == "door-panel"), None)
