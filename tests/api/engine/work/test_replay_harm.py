"""What is harmed in the work's data is reported: every number and side of operations altered one at a time.

What counts as a change is worked out apart from the replay: a cut that takes other wood from its part (`wood_removed`),
another count of parts cut, and sawing or milling that ends with pieces of other sizes. `pytest --full` alters 6,400.
"""

import sys
from collections import Counter
from dataclasses import fields, replace
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parent))

from casewright.api.engine.work.carried_out import given_of
from casewright.api.engine.work.replay import replay
from casewright.sdk.model import Setting, Side, Tilts, Workpiece
from casewright.sdk.testing.drawing import over
from replay_jobs import planned, work_jobs
from wood_removed import alike, wood_taken

JOBS, JOBS_FULL = 12, 200
EACH, EACH_FULL = 20, 40
SEED = 20261126
SAWN = ("rip", "crosscut", "trim")
MILLED = ("face", "edge", "thickness")
CUT = ("bevel", "tenon", "notch", "dovetail", "rabbet", "groove", "mortise", "pocket", "bore", "profile")
BY = (1, -1, 1000, -1000, 100_000, -100_000, 25_400_000)


def places(step):
    """Return every number and side of an operation at a machine: (row or None, field, index into `at` or None)."""
    spots = [(None, f.name, None) for f in fields(Setting) if getattr(step.setting, f.name) is not None]
    for row, piece in enumerate(step.on):
        spots += [
            (row, name, None) for name in ("count", "down", "against", "leads") if getattr(piece, name) is not None
        ]
        spots += [(row, "at", (i, j)) for i in range(len(piece.at)) for j in (0, 1)]
    return spots


def other(draw, value):
    """Return another value of a field."""
    if isinstance(value, Side):
        return draw.choice([side for side in Side if side is not value])
    if isinstance(value, Tilts):
        return next(one for one in Tilts if one is not value)
    if isinstance(value, float):
        return value + draw.choice([0.5, -0.5, 5])
    return value + draw.choice(BY)


def harmed(draw, step, place):
    """Return an operation with one field altered."""
    row, name, index = place
    if row is None:
        return replace(step, setting=replace(step.setting, **{name: other(draw, getattr(step.setting, name))}))
    piece: Workpiece = step.on[row]
    if name == "count":
        altered = replace(piece, count=max(0, piece.count + draw.choice([1, -1])))
    elif index is None:
        altered = replace(piece, **{name: other(draw, getattr(piece, name))})
    else:
        at = [list(spot) for spot in piece.at]
        at[index[0]][index[1]] = other(draw, at[index[0]][index[1]])
        altered = replace(piece, at=tuple(tuple(spot) for spot in at))
    return replace(step, on=(*step.on[:row], altered, *step.on[row + 1 :]))


def changes(plan, step, altered, place):
    """Return whether an altered operation makes other parts than the operation does."""
    if step.action in (*SAWN, *MILLED):
        return sawn(plan, plan.steps) != sawn(plan, [altered if one is step else one for one in plan.steps])
    if place[1] == "count":
        return True
    others = [one for one in plan.steps if one.action in CUT and one is not step]
    for part in plan.parts:
        if place[0] is not None and step.on[place[0]].part != part.id:
            continue
        if part.id in step.parts:
            before = wood_taken(part, [*others, step])
            try:
                after = wood_taken(part, [*others, altered])
            except ValueError:
                return True
            if not alike(part, before, after):
                return True
    return False


def sawn(plan, steps):
    """Return the sizes of all that sawing and milling end with, by name, or `None` where it cannot go on.

    A size is of length, width and thickness; as much as is asked for has none until a cut gives it.
    """
    layouts = plan.stock.layouts if plan.stock else ()
    there = {f"{one.stock} {one.number}": [(one.length, one.width, one.thickness)] for one in layouts}
    for step in steps:
        for piece in step.on:
            for _ in range(piece.count if step.action in (*SAWN, *MILLED) else 0):
                endless = piece.piece in plan.job.materials
                if not endless and not there.get(piece.piece):
                    return None
                size = list((0, 0, 0) if endless else there[piece.piece].pop(0))
                if step.action in MILLED:
                    off = step.setting.depth or 0
                    size[1] -= off if step.action == "edge" else 0
                    size[2] = step.setting.height if step.action == "thickness" else size[2]
                    size[2] -= off if step.action == "face" else 0
                    there.setdefault(piece.keeps, []).append(tuple(size))
                    continue
                if step.action == "trim":
                    size[:2] = [one - 2 * step.setting.depth for one in size[:2]]
                    there.setdefault(piece.keeps, []).append(tuple(size))
                    continue
                i, at = 1 if step.action == "rip" else 0, step.setting.distance
                rest = size[i] - at - step.setting.kerf
                if piece.keeps:
                    there.setdefault(piece.keeps, []).append((*size[:i], at, *size[i + 1 :]))
                if piece.leaves and not endless:
                    there.setdefault(piece.leaves, []).append((*size[:i], rest, *size[i + 1 :]))
                if (size[i] and at > size[i]) or (piece.leaves and not endless and rest <= 0):
                    return None
    return {name: sorted(sizes) for name, sizes in there.items() if sizes and name not in plan.job.materials}


def test_what_is_altered_is_reported(full):
    draw = Random(SEED)
    changed, seen, same = Counter(), Counter(), 0

    def check(job):
        nonlocal same
        plan = planned(job)
        given = given_of(plan.job, plan.parts, plan.stock)
        steps = [step for step in plan.steps if step.action in (*SAWN, *MILLED, *CUT)]
        for _ in range(EACH_FULL if full else EACH):
            step = draw.choice(steps)
            spots = places(step)
            if not spots:
                continue
            field = draw.choice(sorted({place[1] for place in spots}))
            place = draw.choice([place for place in spots if place[1] == field])
            altered = harmed(draw, step, place)
            if not changes(plan, step, altered, place):
                same += 1
                continue
            key = f"{step.action} {field}"
            changed[key] += 1
            work = [altered if one is step else one for one in plan.steps]
            seen[key] += bool(replay(work, plan.parts, plan.joints, given))

    over(JOBS_FULL if full else JOBS, "jobs", check, job=work_jobs())
    missed = {key: n - seen[key] for key, n in changed.items() if seen[key] < n}
    count, reported = changed.total(), seen.total()
    print(f"\nseed {SEED}: {count} changes, {reported} reported ({reported / count:.2%}), {same} change nothing")
    print({key: f"{seen[key]}/{n}" for key, n in sorted(changed.items())})
    assert count >= (5000 if full else 100)
    assert reported >= 0.99 * count, missed
