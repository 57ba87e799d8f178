"""The booklet's cut list: like parts in one row, the tape's size large, the decimal beside it, a box a piece."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from casewright.api.engine.work.lying import shortened
from casewright.api.engine.work.naming import joined, summed_up, title
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.setting import BOX, SMALL, UNDER, WARN, Size, head, para, table
from casewright.sdk.model import Part
from casewright.sdk.model.parts import Role
from casewright.sdk.units import NM_PER_UNIT, tape_text
from reportlab.platypus import Flowable

GRAIN = {"along-length": "length", "along-width": "width", "free": "free"}

OVER_SIZE = {1: "length", 2: "width"}
BOXES = 12
"""Pieces of a row that have a box each; more have one box and their number."""


@dataclass(frozen=True, slots=True)
class Like:
    """Parts cut alike: one row of the cut list, by its number."""

    number: int
    parts: tuple[Part, ...]

    @property
    def pieces(self) -> int:
        """How many there are."""
        return sum(part.quantity for part in self.parts)

    @property
    def built(self) -> int:
        """How many of them are cut already."""
        return sum(part.built for part in self.parts)


def likes(facts: Facts) -> list[Like]:
    """Return parts by what they are made from and to: material, sizes, grain and band; what is bought to size last."""
    groups: dict[tuple[object, ...], list[Part]] = {}
    for part in facts.plan.parts:
        band = Counter(band.material for band in part.bands)
        over = facts.over_size.get(part.id, ())
        key = (part.material, part.length, part.width, part.thickness, part.grain, tuple(sorted(band.items())), over)
        groups.setdefault(key, []).append(part)
    materials = {key: i for i, key in enumerate(dict.fromkeys(part.material for part in facts.plan.parts))}

    def turn(parts: list[Part]) -> tuple[bool, int]:
        return facts.job.materials[parts[0].material].to_size, materials[parts[0].material]

    return [Like(number, tuple(parts)) for number, parts in enumerate(sorted(groups.values(), key=turn), start=1)]


def to_cut(facts: Facts) -> list[Like]:
    """Return like parts that are cut: all but those bought to size."""
    return [like for like in likes(facts) if not facts.job.materials[like.parts[0].material].to_size]


def cut_list(facts: Facts) -> list[Flowable]:
    """Return every size once."""
    story: list[Flowable] = [head("Cut list")]
    if not to_cut(facts):
        return [*story, para("This job has no parts to cut.")]
    short = sum(row.quantity for row in facts.plan.stock.short) if facts.plan.stock else 0
    if short:
        story.append(para(f"The stock listed does not yield {short} of these pieces: see Buy and gather.", WARN))
    story.append(para("Large: on the tape. Small: in decimals. What sizes come from: see the appendix.", SMALL))
    every = facts.named.every
    by_material: dict[str, list[Like]] = {}
    for like in to_cut(facts):
        by_material.setdefault(like.parts[0].material, []).append(like)
    for key, rows in by_material.items():
        material = facts.job.materials[key]
        story.append(para(f"{key}: {material.stuff}, {facts.text(material.thickness)} thick", UNDER))
        heads = ("No.", "Parts", "Pieces", "Length", "Width", "Grain", "Cut")
        story.append(table(heads, [_row(facts, like, every) for like in rows], (5, 33, 7, 17, 17, 8, 13)))
    return story


def _row(facts: Facts, like: Like, every: Mapping[tuple[str, Role], int]) -> list[object]:
    part = like.parts[0]
    words = _named(like.parts, every)
    bands = Counter(band.material for band in part.bands)
    if bands:
        edges = ", ".join(f"{count} of {name}" if count > 1 else name for name, count in bands.items())
        words += f"; band: {edges}"
    for row, places in _places(like.parts).items():
        words += f"; grain runs on: {joined(places)} of {row}"
    if over := facts.over_size.get(part.id):
        words += f"; {' and '.join(OVER_SIZE[axis] for axis in over)} over size till measured: see Take from the work"
    if like.built:
        words += f"; cut already: {'all' if like.built == like.pieces else like.built}"
    left = like.pieces - like.built
    boxes = BOX * left if left <= BOXES else f"{BOX} all {left}"
    sizes = [_size(facts, nm) for nm in (part.length, part.width)]
    return [like.number, words, like.pieces, *sizes, GRAIN[part.grain], boxes]


def _named(parts: Sequence[Part], every: Mapping[tuple[str, Role], int]) -> str:
    """Return parts by name, all of them where a row holds some of a kind: a size is looked up by its part's name."""
    kinds: dict[tuple[str, Role], list[Part]] = {}
    for part in parts:
        kinds.setdefault((part.cabinet, part.role), []).append(part)
    if all(len(some) in (1, every[kind]) for kind, some in kinds.items()):
        return summed_up(parts, every)
    words = [
        summed_up(some, every)
        if len(some) in (1, every[kind])
        else joined(shortened([title(part) for part in some])) + (f" of {kind[0]}" if kind[0] else "")
        for kind, some in kinds.items()
    ]
    return "; ".join(words)


def _places(parts: Sequence[Part]) -> dict[str, list[str]]:
    """Return the places of parts in the rows that are cut in sequence, by row."""
    places: dict[str, list[str]] = {}
    for part in parts:
        if part.matched is not None:
            places.setdefault(f"{part.matched.of} in row {part.matched.row}", []).append(str(part.matched.place))
    return places


def _size(facts: Facts, nm: int) -> Flowable:
    """Return a length as the tape shows it, large, and in decimals beside it where that is written otherwise."""
    tape = tape_text(nm, facts.units, facts.job.tape).rsplit(" ", 1)[0]
    tape = (tape.rstrip("0").rstrip(".") or "0") if "." in tape else tape
    exact = f"{nm / NM_PER_UNIT[facts.units]:.3f}".rstrip("0").rstrip(".")
    return Size(tape, "" if exact == tape else exact)
