"""rectpack's guillotine packers, without their merging of free room: what straight cuts part is cut so."""

from __future__ import annotations

from typing import Any

from rectpack import guillotine


def _unmerged(packer: type) -> type:
    class Unmerged(packer):  # type: ignore[misc, valid-type]
        def __init__(self, width: int, height: int, rot: bool = True, *args: Any, **kwargs: Any) -> None:
            super().__init__(width, height, rot, False, *args, **kwargs)

    return Unmerged


PACKERS = tuple(
    _unmerged(packer)
    for packer in (
        guillotine.GuillotineBssfSas,
        guillotine.GuillotineBafSas,
        guillotine.GuillotineBlsfLas,
        guillotine.GuillotineBssfMaxas,
    )
)
