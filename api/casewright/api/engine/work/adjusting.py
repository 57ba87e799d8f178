"""How a hung door or drawer is set to its gaps: which screws move it which way, and how far they reach."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from casewright.sdk.hardware import Slide
from casewright.sdk.materials import Hinge

__all__ = ["Adjustment", "adjusting_words", "hinge_adjustments", "slide_adjustments"]


@dataclass(frozen=True, slots=True)
class Adjustment:
    """What one kind of screw moves, in few words (`short`) and with the gaps it sets, and how far either way, in nm."""

    short: str
    screws: str
    moves: str
    one_way: int
    other_way: int


def hinge_adjustments(hinge: Hinge) -> tuple[Adjustment, ...]:
    """Return how a door on cup hinges is set; what is not on record is left out."""
    every = (
        Adjustment(
            "side",
            "side screw of each hinge",
            "the door left or right: the gaps at its upright edges. All hinges alike shift it, one alone tilts it",
            hinge.side_adjustment,
            hinge.side_adjustment,
        ),
        Adjustment(
            "height",
            "screws or cam of each plate",
            "the door up or down: the gaps over and under it. All plates alike",
            hinge.height_adjustment,
            hinge.height_adjustment,
        ),
        Adjustment(
            "depth",
            "depth screw of each hinge",
            "the door out or in: the gap behind it, where it would bind, or its face flush with the next one",
            hinge.depth_out,
            hinge.depth_in,
        ),
    )
    return tuple([one for one in every if one.one_way or one.other_way])


def slide_adjustments(slide: Slide) -> tuple[Adjustment, ...]:
    """Return how a drawer on slides is set; what is not on record is left out."""
    every = (
        Adjustment(
            "height",
            "upright slots of the drawer's members",
            "the drawer up or down: the gaps over and under its front",
            slide.height_adjustment,
            slide.height_adjustment,
        ),
        Adjustment(
            "depth",
            "level slots of the case's members",
            "the drawer out or in: its front flush, or free of the case",
            slide.depth_adjustment,
            slide.depth_adjustment,
        ),
    )
    return tuple([one for one in every if one.one_way or one.other_way])


def adjusting_words(adjustments: Iterable[Adjustment], text: Callable[[int], str]) -> str:
    """Return how far screws reach, in few words: `side ±5/64 in, depth 1/8 in out, 5/64 in in`."""
    words = []
    for one in adjustments:
        if one.one_way == one.other_way:
            words.append(f"{one.short} ±{text(one.one_way)}")
        else:
            words.append(f"{one.short} {text(one.one_way)} out, {text(one.other_way)} in")
    return ", ".join(words)
