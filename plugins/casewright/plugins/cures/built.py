"""Cures for what came out otherwise than planned: trimmed, made up, cut again from what there is, or taken as it is."""

from collections.abc import Iterable, Iterator
from math import isqrt
from typing import Any, ClassVar

from casewright.sdk.errors import pointer_to, steps_of
from casewright.sdk.methods import Change, CureGenerator, Stop
from casewright.sdk.model import BuiltMeasure, BuiltSize, Leftover, Part
from casewright.sdk.patching import Patch, patch_setting
from casewright.sdk.units import MM, to_number

MOST_PACKED = 6 * MM
"""More is not made up by gluing on (common practice, no source)."""


class BuiltCures(CureGenerator):
    """Cures for parts that came out too long or too short, and for cabinets that come out otherwise."""

    id: ClassVar[str] = "built"
    title: ClassVar[str] = "Parts trimmed, made up or cut again"
    codes: ClassVar[frozenset[str]] = frozenset({"built-too-long", "built-too-short", "built-outside", "out-of-square"})

    def changes(self, stop: Stop) -> Iterable[Change]:
        """Yield the least work first: trimming, making up, cutting again, then the size as it comes out."""
        if stop.check.code == "built-outside":
            yield from _outside(stop)
            return
        size = next((one for one in stop.plan.job.built if one.pointer == stop.check.subject), None)
        if stop.check.code == "out-of-square":
            yield from _squared(stop, size)
            return
        needed = stop.check.limit
        if not isinstance(needed, int):
            return
        if size is None:
            yield from _of_done(stop, needed)
            return
        if stop.check.code == "built-too-long":
            words = f"{size.part} trimmed to {stop.write.cut(needed)}"
            yield Change(words, _set(stop, size, "value", needed - size.packed))
        elif needed - size.value <= MOST_PACKED:
            more = stop.write.cut(needed - size.nm)
            words = f"{size.part} made up by {more}: a strip glued on its end, or packed where it is not seen"
            yield Change(words, _set(stop, size, "packed", needed - size.value))
        yield _again(stop, [size])


def _set(stop: Stop, size: BuiltSize, key: str, nm: int) -> Patch:
    place = (*steps_of(size.pointer), key)
    return patch_setting(stop.document, (place, to_number(nm, stop.plan.job.units)))


def _squared(stop: Stop, size: BuiltSize | None) -> Iterator[Change]:
    """Yield the case pulled square, both of its diagonals as measured then alike."""
    if size is None:
        return
    every = stop.plan.job.cabinets
    cabinet = stop.cabinet or next((one for one in every if size.cabinet in (one.id, one.planned)), None)
    if cabinet is None:
        return
    rows = [one for one in stop.plan.job.built if one.cabinet == size.cabinet and one.measure.of_square]
    square = to_number(isqrt(cabinet.case_width**2 + cabinet.case_height**2), stop.plan.job.units)
    settings = [((*steps_of(one.pointer), "value"), square) for one in rows]
    words = f"{cabinet.id} pulled square, both diagonals alike"
    yield Change(words, patch_setting(stop.document, *settings))


def _of_done(stop: Stop, needed: int) -> Iterator[Change]:
    """Yield a part trimmed that a step marked done has cut, and that is not measured yet."""
    part = _part(stop, stop.check.subject)
    if part is not None and stop.check.code == "built-too-long":
        measure = BuiltMeasure.LENGTH if part.length == needed else BuiltMeasure.WIDTH
        row: dict[str, Any] = {
            "cabinet": _planned(stop, part.cabinet),
            "part": part.id.partition("/")[2],
            "measure": measure.value,
            "value": to_number(needed, stop.plan.job.units),
        }
        rows = [{**row, "copy": copy} for copy in _copies(stop, part.cabinet)] or [row]
        words = f"{part.name} trimmed to {stop.write.cut(needed)}"
        yield Change(words, patch_setting(stop.document, *[(("built", "-"), one) for one in rows]))


def _again(stop: Stop, short: Iterable[BuiltSize]) -> Change:
    """Return parts cut again: what was measured of them is taken out, with where there is wood for them."""
    sizes = list(short)
    gone = {(one.cabinet, one.part, one.copy, one.count) for one in sizes}
    places = [
        number
        for number, row in enumerate(stop.plan.job.built)
        if (row.cabinet, row.part, row.copy, row.count) in gone and row.pointer == pointer_to("built", number)
    ]
    patch = tuple([{"op": "remove", "path": pointer_to("built", number)} for number in reversed(places)])
    parts = [part for one in sizes if (part := _named(stop, one)) is not None]
    words = " and ".join(dict.fromkeys(part.name for part in parts)) or "what is short"
    return Change(f"{words} cut again{_from(stop, parts)}", patch)


def _from(stop: Stop, parts: list[Part]) -> str:
    """Return the smallest leftover that a part comes from, in words; nothing where none is large enough."""
    if len(parts) != 1 or stop.plan.stock is None:
        return ""
    part = parts[0]
    fit = [one for one in stop.plan.stock.leftovers if _holds(one, part)]
    if not fit:
        return ""
    one = min(fit, key=lambda left: (left.length * left.width, left.layout, left.piece))
    write = stop.write
    return f", from what is left of {one.stock} {one.layout}, {write.size(one.length)} × {write.length(one.width)}"


def _holds(left: Leftover, part: Part) -> bool:
    if left.material != part.material or left.thickness < part.thickness:
        return False
    along = left.length >= part.length and left.width >= part.width
    across = left.width >= part.length and left.length >= part.width
    return along or across if "free" in (left.grain, part.grain) else along if left.grain == part.grain else across


def _outside(stop: Stop) -> Iterator[Change]:
    """Yield what is short of a cabinet cut again, then the size that it comes out with, as asked for."""
    cabinet = stop.cabinet
    if cabinet is None or stop.plan.built is None or not isinstance(stop.check.value, int):
        return
    short = [
        size
        for change in stop.plan.built.changed
        if change.built and any(one.now < one.was for one in change.sizes)
        for size in stop.plan.job.built
        if f"{size.cabinet}/{size.part}" == change.planned and size.measure in {one.measure for one in change.sizes}
    ]
    if short:
        yield _again(stop, short)
    name = stop.check.subject.rpartition("/")[2]
    words = f"a {name} of {stop.write.cut(stop.check.value)}, as it comes out"
    value = to_number(stop.check.value, stop.plan.job.units)
    yield Change(words, patch_setting(stop.document, (stop.at(name), value)), keeps=False)


def _named(stop: Stop, size: BuiltSize) -> Part | None:
    every = [part for part in stop.plan.parts if _planned(stop, part.cabinet) == size.cabinet]
    return next((part for part in every if part.id.partition("/")[2] == size.part), None)


def _part(stop: Stop, name: str) -> Part | None:
    return next((part for part in stop.plan.parts if part.id == name), None)


def _copies(stop: Stop, cabinet: str) -> tuple[int, ...]:
    """Return which copies a cabinet of the plan is, where not all of them come out alike."""
    return next((one.copies for one in stop.plan.job.cabinets if one.id == cabinet), ())


def _planned(stop: Stop, cabinet: str) -> str:
    """Return a cabinet's id in the job document."""
    return next((one.planned or one.id for one in stop.plan.job.cabinets if one.id == cabinet), cabinet)
