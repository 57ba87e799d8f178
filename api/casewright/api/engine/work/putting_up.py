"""The steps that put a run up: lines first, then each cabinet in order, then what closes the gaps."""

from collections.abc import Mapping, Sequence

from casewright.api.engine.run.fillers import GROUP
from casewright.api.engine.run.gaps import CLOSED
from casewright.api.engine.work.building import prepare_place, set_cabinet
from casewright.api.engine.work.naming import joined
from casewright.api.engine.work.pilots import pilot_words
from casewright.api.engine.work.put_up import Place
from casewright.api.engine.work.steps import Steps
from casewright.sdk.model import Cabinet, HardwareLine, LevelLine, Packing, Part, Run, Stage, Standing


def set_out(steps: Steps, run: Run) -> int:
    """Add the step that marks the wall, and return it."""
    lines = "; ".join(_line(steps, run, line) for line in run.levels)
    at = "" if run.high_spot is None else f", {steps.text(run.high_spot)} from the wall's left end"
    return steps.add(
        Stage.SET_OUT,
        "Mark the studs and every cabinet's sides on the wall, and strike the level lines from the highest point of "
        f"the floor{at}",
        (),
        check=lines,
    )


def _line(steps: Steps, run: Run, line: LevelLine) -> str:
    """Return a level line in words, with the cabinets it is for where there is another of its kind."""
    alone = sum(1 for one in run.levels if one.of == line.of) == 1
    return f"{line.of.replace('-', ' ')}{'' if alone else f' of {joined(line.standings)}'} {steps.text(line.height)}"


def set_run(
    steps: Steps, run: Run, parts: Mapping[str, Sequence[Part]], ready: Mapping[str, list[int]], struck: int
) -> None:
    """Add the steps of a run; `ready` are the steps that putting up each cabinet waits for, `struck` the lines."""
    cabinets = {cabinet.id: cabinet for cabinet in steps.job.cabinets}
    standings = {standing.name: standing for standing in run.standings}
    put: dict[str, int] = {}
    last = struck
    places: dict[str, list[Standing]] = {}
    for standing in run.standings:
        places.setdefault(standing.cabinet, []).append(standing)
    prepared = {
        name: prepare_place(steps, cabinets[name], parts[name], [struck], [(one.name, one.pointer) for one in mine])
        for name, mine in places.items()
    }
    begins = {one.pointer: one.cabinet for one in run.standings}
    ready = {
        name: [*ready[name], *(step for one in _behind(steps, mine, begins) for step in prepared[one])]
        for name, mine in places.items()
    }
    for name in run.order:
        standing = standings[name]
        spots = steps.job.wall.cabinets_at[standing.cabinet] if steps.job.wall else ()
        spot = spots[standing.number - 1]
        where = f"with its left side at {steps.text(spot.x)} from the wall's left end, bottom at {steps.text(spot.z)}"
        where += _packed(steps, next((one for one in run.packing if one.standing == name), None))
        mine = [part for part in parts[standing.cabinet] if part.group != GROUP]
        place = Place(name, where, standing.pointer)
        done = set_cabinet(steps, cabinets[standing.cabinet], mine, [*ready[standing.cabinet], struck, last], place)
        last = put[name] = last if done is None else done
    strips = {part.id: part for group in parts.values() for part in group if part.group == GROUP}
    for gap in run.gaps:
        beside = [put[name] for name in (gap.left, gap.right) if name in put]
        if len(beside) == 2 and -CLOSED <= gap.size <= CLOSED:
            do = f"Draw {gap.left} and {gap.right} together flush with clamps and screw them to one another"
            if gap.screws is not None:
                sides = [cabinets[standings[name].cabinet] for name in (gap.left, gap.right)]
                pilots = pilot_words(steps, [gap.screws], [_at_gap(cabinet, gap.screws) for cabinet in sides])
                do += f", from inside {gap.left}: {_places(steps, gap.screws)}{pilots}"
            steps.add(Stage.JOIN, do, (), after=beside)
        if gap.fillers:
            do = f"Scribe, cut and fix the filler between {gap.left} and {gap.right}"
            steps.add(Stage.FILLERS, do, [strips.pop(key) for key in gap.fillers], after=beside)
    for part in strips.values():  # nothing stands on the other side of these
        beside = [put[one.name] for one in run.standings if one.cabinet == part.cabinet and one.name in put]
        steps.add(Stage.FILLERS, f"Scribe, cut and fix the {part.name} of {part.cabinet}", [part], after=beside)


def _packed(steps: Steps, packing: Packing | None) -> str:
    """Return in words what is packed under and behind a cabinet."""
    if packing is None:
        return ""
    under = ((packing.left, "under the left end"), (packing.right, "under the right end"))
    behind = ((packing.bottom, "behind the bottom"), (packing.top, "behind the top"))
    words = [f"{steps.text(nm)} {where}" for nm, where in (*under, *behind) if nm]
    return f", packed {joined(words)}"


def _behind(steps: Steps, places: Sequence[Standing], begins: Mapping[str, str]) -> list[str]:
    """Return the cabinets whose wall cleats must hang before one is put up: itself, and those it shares one with.

    `begins` are cabinets by the JSON Pointers of their places.
    """
    hung = [steps.made.hung(one.pointer) for one in places]
    shared = [begins[one.on_strip[0]] for one in hung if one is not None and one.on_strip]
    return list(dict.fromkeys([*(one.cabinet for one in places), *shared]))


def _at_gap(cabinet: Cabinet, screws: HardwareLine) -> str:
    """Return the material that a cabinet meets its neighbour with where the screws are: its stiles', or its sides'."""
    frame = cabinet.face_frame
    before = all(back < 0 for _, back, _ in screws.at)
    return frame.material if frame is not None and before else cabinet.case.material


def _places(steps: Steps, screws: HardwareLine) -> str:
    """Return screws and where they go, by the bottom and the front of the left cabinet's case."""
    bottom = steps.made.bottom(screws.cabinet)
    ups: dict[int, list[int]] = {}
    for _, back, up in screws.at:
        ups.setdefault(up - bottom, []).append(back)
    rows: dict[tuple[int, ...], list[str]] = {}
    for up, backs in ups.items():
        rows.setdefault(tuple(backs), []).append(steps.text(up))
    at = "; ".join(
        f"{joined(high)} up from the bottom of its case, {joined([_back(steps, one) for one in backs])} its front edge"
        for backs, high in rows.items()
    )
    return f"{screws.quantity} × {screws.name}, {at}"


def _back(steps: Steps, back: int) -> str:
    return f"{steps.text(abs(back))} {'behind' if back >= 0 else 'before'}"
