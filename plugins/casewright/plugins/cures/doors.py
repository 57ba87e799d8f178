"""Cures for doors and drawer fronts: gaps, overlays, bores, stiles, hinges and pulls."""

from collections.abc import Iterable, Iterator, Mapping
from typing import ClassVar

from casewright.plugins.cures.panels import LOOSE, PANEL, panel_changes
from casewright.plugins.cures.setting import TAPE, number, set_doors
from casewright.plugins.cures.spaces import every_space, leaves, space_at
from casewright.sdk.engineering.hinges import LEAST_HINGES
from casewright.sdk.methods import Change, CureGenerator, Stop
from casewright.sdk.model import Cabinet, Doors
from casewright.sdk.patching import Steps, at_path, patch_setting
from casewright.sdk.units import INCH, MM

STILE = (INCH // 4, INCH // 2, INCH)
FROM_END = 5 * INCH // 2
"""How far from a door's end a pull is set where the job says nothing."""

_BORE = frozenset(
    {
        "bore-edge-distance", "bore-meets-panel", "bore-narrower-than-cup", "bore-off-wood", "bore-past-stile",
        "wood-under-bore",
    }
)  # fmt: skip
_GAP = frozenset({"doors-too-close", "inset-gap", "pair-gap"})
_HINGE = frozenset({"hinge-mass", "hinge-spacing"})


class DoorCures(CureGenerator):
    """Cures for doors and drawer fronts."""

    id: ClassVar[str] = "doors"
    title: ClassVar[str] = "Gaps, bores, stiles, panels, hinges and pulls"
    codes: ClassVar[frozenset[str]] = (
        _BORE
        | _GAP
        | PANEL
        | _HINGE
        | LOOSE
        | {"pull-off-wood", "door-swing", "plate-near-pins", "match", "work-not-carried-out"}
    )

    def changes(self, stop: Stop) -> Iterable[Change]:
        """Yield one size changed first, then other stuff and hardware, and at last another front."""
        cabinet = stop.cabinet
        if stop.check.code == "match" and cabinet is not None:
            yield from _unmatched(stop, cabinet)
            return
        if cabinet is None or cabinet.doors is None:
            if stop.check.code == "pull-off-wood":
                yield from _drawer_pulls(stop)
            return
        code, doors = stop.check.code, cabinet.doors
        if code in _GAP:
            yield from _gaps(stop, doors)
        if code in _BORE or (code == "work-not-carried-out" and "/door-" in stop.check.subject):
            yield from _bores(stop, doors)
        if code == "plate-near-pins":
            yield from _pin_rows(stop, doors)
        if code == "pull-off-wood":
            yield from _pulls(stop, doors)
            yield from _drawer_pulls(stop)
        if code in PANEL or (code in LOOSE and "/door-" in stop.check.subject):
            yield from panel_changes(stop, doors)
        if code in _BORE | {"pull-off-wood"}:
            yield from _stiles(stop, doors)
        if code in _HINGE | PANEL | {"wood-under-bore", "bore-narrower-than-cup"}:
            yield from _stuffs(stop, doors)
        if code in _HINGE | _BORE:
            yield from _hinges(stop, doors)
        if code in _HINGE | {"door-swing", "pair-gap"}:
            yield from _fronts(stop)


def _unmatched(stop: Stop, cabinet: Cabinet) -> Iterator[Change]:
    """Yield the fronts of a space whose grain cannot run on, cut from wherever they fit."""
    for space in every_space(cabinet.space):
        if f"{space.pointer}/match" == stop.check.subject:
            setting = ((*space_at(stop, space), "match"), False)
            yield Change("fronts over which the grain need not run on", patch_setting(stop.document, setting), False)


def _lacking(stop: Stop) -> int:
    """Return by how much the check's value misses its limit, up past the next mark of the tape, in nm."""
    value, limit, tape = stop.check.value, stop.check.limit, TAPE[stop.plan.job.units]
    if not isinstance(value, (int, float)) or not isinstance(limit, (int, float)):
        return tape
    return (abs(round(limit) - round(value)) // tape + 1) * tape


def _gaps(stop: Stop, doors: Doors) -> Iterator[Change]:
    by, code, cabinet = _lacking(stop), stop.check.code, stop.cabinet
    sizes: list[tuple[str, str, int]] = []
    if code == "pair-gap":
        sizes.append(("meeting_gap", "a meeting gap of", doors.meeting_gap + by))
    if code == "inset-gap":
        sizes.append(("gap", "a gap round the doors of", doors.gap + by))
    if code == "doors-too-close":
        sizes += [
            ("overlay", "an overlay of", doors.overlay - each) for each in (-(-by // 2), by) if each <= doors.overlay
        ]
    for key, words, size in sizes:
        yield set_doors(stop, doors, f"{words} {stop.write.cut(size)}", style=False, **{key: number(stop, size)})
    frame = cabinet.face_frame if cabinet else None
    if code == "doors-too-close" and frame is not None:
        for key, name, was in (
            ("mid_stile", "middle stile", frame.mid_stile),
            ("mid_rail", "middle rail", frame.mid_rail),
        ):
            words = f"a {name} of {stop.write.cut(was + by)}"
            yield Change(words, patch_setting(stop.document, (stop.at("face_frame", key), number(stop, was + by))))


def _bores(stop: Stop, doors: Doors) -> Iterator[Change]:
    hinge = stop.choices.catalogue.hinge(doors.hinge)
    if doors.bore is not None:
        yield set_doors(stop, doors, "the hinge's own bore", bore=None)
    for edge in dict.fromkeys((hinge.edge_usual, hinge.edge_least, hinge.edge_most)):
        if edge != doors.bore_edge:
            yield set_doors(stop, doors, f"bores {stop.write.cut(edge)} from the edge", bore_edge=number(stop, edge))
    if doors.bore is not None and doors.bore_edge is not None:
        yield set_doors(stop, doors, "bore and edge distance as the hinge has them", bore=None, bore_edge=None)


def _pin_rows(stop: Stop, doors: Doors) -> Iterator[Change]:
    """Yield pin rows in line with the plates' holes, which they then share, and rows farther back."""
    hinge, at = stop.choices.catalogue.hinge(doors.hinge), stop.at("case", "pins")
    shared = {"diameter": 5 * MM, "pitch": hinge.plate_pitch, "from_front": hinge.plate_setback}
    settings = [((*at, key), number(stop, size)) for key, size in shared.items()]
    yield Change("pin rows that share the plates' holes", patch_setting(stop.document, *settings))
    for back in (50 * MM, 60 * MM, 75 * MM):
        words = f"pin rows {stop.write.cut(back)} from the front"
        yield Change(words, patch_setting(stop.document, ((*at, "from_front"), number(stop, back))))


def _stiles(stop: Stop, doors: Doors) -> Iterator[Change]:
    was = doors.options.get("stile") or 9 * INCH // 4
    style = stop.choices.doors.get(doors.style)
    if style is None or "stile" not in style.options().fields:
        return
    for more in STILE:
        words = f"door stiles {stop.write.cut(was + more)} wide"
        yield set_doors(stop, doors, words, style=True, stile=number(stop, was + more))


def _stuffs(stop: Stop, doors: Doors) -> Iterator[Change]:
    for one in stop.plan.job.materials.values():
        if one.kind != "band" and one.key != doors.material:
            yield set_doors(stop, doors, f"doors of {one.key}", material=one.key)
        if one.kind == "sheet" and doors.panel not in (None, one.key):
            yield set_doors(stop, doors, f"door panels of {one.key}", panel=one.key)


def _hinges(stop: Stop, doors: Doors) -> Iterator[Change]:
    if doors.hinges is not None:
        yield set_doors(stop, doors, "as many hinges as their rules ask for", hinges=None)
    if stop.check.code == "hinge-spacing" and doors.hinges != LEAST_HINGES:
        yield set_doors(stop, doors, f"{LEAST_HINGES} hinges on each door", hinges=LEAST_HINGES)
    for hinge in stop.choices.catalogue.hinges:
        if hinge.id != doors.hinge:
            yield set_doors(stop, doors, hinge.title, hinge=hinge.id, bore=None, bore_edge=None)


def _fronts(stop: Stop) -> Iterator[Change]:
    """Yield pairs for single doors, and single doors for pairs."""
    cabinet = stop.cabinet
    other: Mapping[str, str] = {"door": "door-pair", "door-pair": "door"}
    for leaf in leaves(cabinet.space) if cabinet else ():
        if leaf.front in other:
            at: Steps = (*space_at(stop, leaf), "front")
            words = "a pair of doors for a single one" if leaf.front == "door" else "a single door for a pair"
            yield Change(words, patch_setting(stop.document, (at, other[leaf.front])), keeps=False)


def _pulls(stop: Stop, doors: Doors) -> Iterator[Change]:
    """Yield the pull in the middle of the wood, the other way round, and other pulls."""
    if doors.pull is None:
        return
    item, direction = doors.pull.item, "level" if doors.pull.direction == "upright" else "upright"
    base = at_path(stop.document, stop.at("doors", "pull")) or at_path(stop.document, ("house", "doors", "pull")) or {}
    kept = {**base, "item": item}
    if doors.pull.from_edge is not None:
        yield set_doors(stop, doors, "the pull in the middle of the wood", pull={**kept, "from_edge": None})
    yield set_doors(stop, doors, f"the pull {direction}", pull={**kept, "direction": direction})
    usual = {"item": item, "from_edge": None, "from_end": number(stop, FROM_END)}
    yield set_doors(stop, doors, "the pull where it stands by itself", pull=usual)
    for pull in stop.choices.catalogue.pulls:
        if pull.id != item:
            yield set_doors(stop, doors, pull.title, pull={**kept, "item": pull.id, "from_edge": None})


def _drawer_pulls(stop: Stop) -> Iterator[Change]:
    drawers = stop.cabinet.drawers if stop.cabinet else None
    if drawers is None or drawers.pull is None:
        return
    for pull in stop.choices.catalogue.pulls:
        if pull.id != drawers.pull:
            yield Change(
                f"{pull.title} on the drawers", patch_setting(stop.document, (stop.at("drawers", "pull"), pull.id))
            )
    yield Change(
        "no pull on the drawers", patch_setting(stop.document, (stop.at("drawers", "pull"), None)), keeps=False
    )
