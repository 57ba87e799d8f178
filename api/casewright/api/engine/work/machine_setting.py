"""Words for how a machine or tool is set for a joint's cut: how far from the side, what cutter or tilt, how deep."""

from collections.abc import Callable
from math import radians, tan

from casewright.sdk.model import Setting, Tilts

__all__ = ["machine_setting", "marked_out", "mitred"]


def marked_out(setting: Setting, exact: Callable[[int], str], middles: bool) -> list[str]:
    """Return how large a cut is whose places are marked on the piece; `middles` where the marks are for its middle."""
    height = setting.height or 0
    words = [f"{exact(height)} deep"]
    if setting.tilt_deg is not None:
        wide = f"{exact(setting.cutter or 0)} wide where it goes in"
        words = [f"dovetail cutter of {setting.tilt_deg:.4g}°", wide, *words]
    elif setting.cutter:
        words = [f"{exact(setting.cutter)} wide", *words]
    if setting.end is not None:
        words.append(f"{exact(setting.end)} along")
    where = "the middle of each at the places listed" if middles else "beginning at the marks each line gives"
    return [*words, where]


def machine_setting(setting: Setting, exact: Callable[[int], str], enters: bool) -> list[str]:
    """Return how machine or tool is set; `enters` where the cutter goes into the work, and no work over a table."""
    fence, height = setting.fence or 0, setting.height or 0
    deep = f"{exact(height)} {'deep' if enters else 'high'}"
    at = f"cut beginning {exact(fence)} from that side" if enters else f"fence at {exact(fence)}"
    if fence == 0:
        at = "cut beginning at that side" if enters else "the fence against the cutter"
    layer = [f"from {exact(setting.depth)} to {exact(height)} in"] if setting.depth else []
    if setting.tilt_deg is None:
        cutter = [f"{exact(setting.cutter)} {'wide' if enters else 'cutter'}"] if setting.cutter else []
        return [at, *cutter, *(layer or [deep])]
    if setting.tilts is None:
        wide = f"{exact(setting.cutter or 0)} wide where it goes in"
        return [at, f"dovetail cutter of {setting.tilt_deg:.4g}°", wide, deep]
    if setting.cutter is not None:
        return [
            f"blade tilted {setting.tilt_deg:.4g}° away from the fence, {exact(setting.cutter)} wide",
            f"the tip of the bevel to the fence, the blade meeting the bevel {exact(fence)} from the fence "
            f"and {exact(setting.depth or 0)} above the table",
            f"{exact(height)} deep, square to the bevel",
        ]
    return [*([at] if fence else []), *_tilted_blade(setting, exact), *layer]


def mitred(setting: Setting, exact: Callable[[int], str]) -> list[str]:
    """Return how a saw that is turned is set: how far from the stop it cuts at its fence and at the far edge."""
    turn_deg = setting.turn_deg or 0
    at_fence, far = _ends(setting, turn_deg, exact)
    return [f"saw turned {turn_deg:.4g}°", f"{at_fence} from the stop at the saw's fence and {far} at the far edge"]


def _tilted_blade(setting: Setting, exact: Callable[[int], str]) -> list[str]:
    tilt_deg = setting.tilt_deg or 0
    low, high = _ends(setting, tilt_deg, exact)
    return [
        f"blade tilted {tilt_deg:.4g}° {'towards' if setting.tilts is Tilts.NEAR else 'away from'} the fence",
        f"cutting from {low} at the table to {high} at {exact(setting.height or 0)} up",
    ]


def _ends(setting: Setting, slant_deg: float, exact: Callable[[int], str]) -> tuple[str, str]:
    """Return how far from fence or stop a slant begins and ends, from its base on."""
    at = setting.distance or 0
    leant, upright = exact(at + round((setting.height or 0) * tan(radians(slant_deg)))), exact(at) if at else "nothing"
    return (leant, upright) if setting.tilts is Tilts.NEAR else (upright, leant)
