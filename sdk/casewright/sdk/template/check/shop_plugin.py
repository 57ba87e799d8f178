"""Shop plugin: a caution for every part that one person cannot carry."""

from collections.abc import Sequence
from typing import ClassVar

from casewright.sdk.checks import Design, ExtraCheck
from casewright.sdk.kit import COMMON, LENGTH, Finding, hookimpl, mm

SDK = ((2, 0), (3, 0))
"""Versions of the SDK that all of this plugin was written for."""

LONGEST = mm(2000)
"""Longest part that one person handles alone in our shop (common practice, no source)."""


class ShopPlugin(ExtraCheck):
    """Parts longer than one person handles."""

    id: ClassVar[str] = "shop-plugin"
    title: ClassVar[str] = "Shop plugin"

    def find(self, design: Design) -> tuple[tuple[str, Finding], ...]:
        """Return a caution about each long part."""
        message = "This part takes two people."
        return tuple(
            (part.id, Finding("shop-plugin", "caution", message, part.length, LONGEST, LENGTH, COMMON))
            for part in design.parts
            if part.length > LONGEST
        )


@hookimpl
def casewright_checks() -> Sequence[ExtraCheck]:
    """Return the checks of this plugin."""
    return (ShopPlugin(),)
