"""What a job picks by name: materials by key, methods by id with their options. Lengths in nm."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

__all__ = ["Choice", "Material", "Options"]

Options = Mapping[str, Any]
"""A method's options, as its own schema loaded them (lengths in nm)."""


@dataclass(frozen=True, slots=True)
class Material:
    """A material on hand: `thickness` is as measured, `nominal` only what it is sold as.

    `widest` is the widest board to be had, where no boards on hand say so. `to_size` is what is bought at its finished
    size and never worked in the shop, as its stuff says.
    """

    key: str
    kind: Literal["sheet", "board", "band"]
    stuff: str
    thickness: int
    nominal: str = ""
    widest: int | None = None
    to_size: bool = False


@dataclass(frozen=True, slots=True)
class Choice:
    """A method picked by id, with its options and the place in the job that picked it."""

    method: str
    options: Options
    pointer: str
