"""Parts by name, summed up by cabinet and kind: `both sides, the top and the bottom of tools and spares`."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from casewright.sdk.model import CutPiece
from casewright.sdk.model.parts import Part, Role

__all__ = [
    "NOUNS",
    "OVER_SIZE",
    "STRIP",
    "TO_FIT",
    "TURNED",
    "NamedParts",
    "first_of",
    "joined",
    "left_over_size",
    "part_of",
    "pieces_summed_up",
    "quoted",
    "short_title",
    "summed_up",
    "title",
    "totals",
]

NOUNS: Mapping[Role, str] = {
    "side": "sides",
    "top": "tops",
    "bottom": "bottoms",
    "divider": "dividers",
    "shelf": "shelves",
    "back": "backs",
    "strip": "strips",
    "cleat": "cabinet cleats",
    "wall-cleat": "wall cleats",
    "frame-stile": "frame stiles",
    "frame-rail": "frame rails",
    "door-stile": "door stiles",
    "door-rail": "door rails",
    "door-panel": "door panels",
    "door": "doors",
    "box-side": "drawer box sides",
    "box-front": "drawer box fronts",
    "box-back": "drawer box backs",
    "box-bottom": "drawer box bottoms",
    "drawer-front": "drawer fronts",
    "plinth": "plinth parts",
    "stretcher": "stretchers",
    "end-panel": "end panels",
    "loose": "parts",
}
"""What several parts of a role are called."""
STRIP = "strip"
"""What a panel is glued up of."""
OVER_SIZE = "over size"
"""What a blank of a part is until it is milled and cut to its final size."""
TO_FIT, TURNED = "to fit", "turned"
"""A piece that is cut over size from its stock until it is measured for, and whether it lies across the stock."""
NAMED = 3
"""How many parts of a larger set are named one by one."""
GROUPS = ("door-", "drawer-")
"""Groups that a cabinet may have many of, so that a name says which."""


def totals(parts: Iterable[Part]) -> Counter[tuple[str, Role]]:
    """Return how many different parts each cabinet has of each role."""
    return Counter((part.cabinet, part.role) for part in parts)


def title(part: Part) -> str:
    """Return a part's name without its cabinet: `left stile of door 1`."""
    name, group = _in_group(part.name, part.group)
    return f"{name} of {group}" if name and group else name or group


def short_title(part: Part) -> str:
    """Return a part's name without its cabinet, to be pencilled on wood: `door 1 left stile`."""
    name, group = _in_group(part.name, part.group)
    return f"{group} {name}".strip()


@lru_cache(maxsize=1000)
def _in_group(name: str, group: str) -> tuple[str, str]:
    """Return a part's name in the group that a cabinet may have many of, and the group; empty where there is none."""
    if not group.startswith(GROUPS):
        return _turned(name), ""
    group = group.replace("-", " ")
    if name == group:
        return "", group
    name = name.removeprefix(f"{group} ").removeprefix(f"{group.split()[0]} ")
    return "" if group.startswith(name) else _turned(name), group


def _turned(name: str) -> str:
    """Return a name with what stands behind a comma before it: `left stile` for `stile, left`."""
    head, comma, which = name.partition(", ")
    return f"{which} {head}" if comma else head


def summed_up(parts: Iterable[Part], every: Mapping[tuple[str, Role], int]) -> str:
    """Return parts in as few words as name them; `every` is how many there are in all, by cabinet and role."""
    by_cabinet: dict[str, dict[Role, list[Part]]] = {}
    for part in {part.id: part for part in parts}.values():
        by_cabinet.setdefault(part.cabinet, {}).setdefault(part.role, []).append(part)
    phrases: dict[str, list[str]] = {}
    for cabinet, roles in by_cabinet.items():
        words = [word for role, some in roles.items() for word in _kind(some, role, every[cabinet, role])]
        phrases.setdefault(joined(words), []).append(cabinet)
    return "; ".join(what + (f" of {joined(of)}" if any(of) else "") for what, of in phrases.items())


def _kind(some: Sequence[Part], role: Role, every: int) -> list[str]:
    if len(some) == 1:
        return [title(some[0])]
    if len(some) == every:
        return [f"both {NOUNS[role]}" if every == 2 else f"all {every} {NOUNS[role]}"]
    if len(some) <= NAMED:
        return [title(part) for part in some]
    return [f"{title(some[0])} and {len(some) - 1} more {NOUNS[role]}"]


def joined(words: Sequence[str]) -> str:
    """Return words as a sentence lists them: `a, b and c`."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def in_a_row(numbers: Iterable[int]) -> list[tuple[int, int]]:
    """Return rising numbers as rows of those that follow one another, each by its first and its last."""
    rows: list[tuple[int, int]] = []
    for number in numbers:
        if rows and number == rows[-1][1] + 1:
            rows[-1] = (rows[-1][0], number)
        else:
            rows.append((number, number))
    return rows


def first_of(words: Sequence[str], most: int) -> str:
    """Return the first so many words, and how many more there are: `a, b and 3 more`."""
    more = len(words) - most
    return ", ".join(words[:most]) + (f" and {more} more" if more > 0 else "")


def left_over_size(piece: CutPiece, part: Part) -> str:
    """Return what a piece is called that is cut as a part: its id, or how it lies where it is larger than the part."""
    for states, size in ((), (part.length, part.width)), ((TURNED,), (part.width, part.length)):
        over = {piece.dx - size[0], piece.dy - size[1]}
        if over == {0}:
            return part.id
        if min(over) >= 0 and len(over - {0}) == 1:
            return ", ".join((part.id, TO_FIT, *states, OVER_SIZE))
    return part.id


def part_of(piece: str, parts: Mapping[str, Part]) -> Part | None:
    """Return the part that a piece is, or will be once it is milled and cut to size: `tools/side, over size`."""
    return parts.get(piece.partition(", ")[0])


@dataclass(frozen=True, slots=True)
class NamedParts:
    """Parts by id, and how many different ones each cabinet has of each role, by which several are summed up."""

    by_id: Mapping[str, Part]
    every: Mapping[tuple[str, Role], int]

    @classmethod
    def of(cls, parts: Sequence[Part]) -> "NamedParts":
        """Return parts to be named."""
        return cls({part.id: part for part in parts}, totals(parts))


def pieces_summed_up(pieces: Iterable[str], named: NamedParts) -> tuple[list[str], list[str]]:
    """Return pieces that are parts, or will be, in as few words as name them, and the other names, each once."""
    by_state: dict[str, list[Part]] = {}
    others: dict[str, None] = {}
    for piece in pieces:
        name, *states = piece.split(", ")
        part = named.by_id.get(name)
        if part is None:
            others[piece] = None
        else:
            state = ", ".join([one for one in states if one in (STRIP, OVER_SIZE)]) if states else ""
            by_state.setdefault(state, []).append(part)
    words = [summed_up(some, named.every) + (f" ({state})" if state else "") for state, some in by_state.items()]
    return words, list(others)


def quoted(piece: str) -> str:
    """Return the name that is pencilled on a piece, as a sentence quotes it."""
    return f"“{piece}”"
