"""Cures for what tips, hangs by nothing or is not held by what carries it: mountings, pins, runners, less load."""

from collections.abc import Iterable, Iterator
from typing import Any, ClassVar

from casewright.plugins.cures.spaces import leaves, space_at
from casewright.sdk.methods import Change, CureGenerator, Stop
from casewright.sdk.model import Cabinet
from casewright.sdk.patching import patch_setting
from casewright.sdk.units import INCH, MM, to_number

LAGS = ("lag-1-4-3", "lag-1-4-4", "lag-5-16-4")
PASCAL_PER_PSF = 47.880259
HEIGHTS = {"in": [n * INCH for n in (4, 6, 8)], "mm": [n * MM for n in (100, 150, 200)]}
"""Heights of strips that are tried, each with more fasteners over one another."""

SHARES = (0.75, 0.5, 0.25)
"""Shares of the stated load that are tried."""

_FIX = frozenset({"anti-tip", "mounting-missing", "no-stud", "tip-fastener-use"})
_CARRY = frozenset({"shelf-ends", "shelf-pins", "runner-load", "runner-screws"})


class StandingCures(CureGenerator):
    """Cures for tipping, for a mounting that is missing, and for what shelves and drawers lie on."""

    id: ClassVar[str] = "standing"
    title: ClassVar[str] = "Mountings against tipping, pins, runners and loads"
    codes: ClassVar[frozenset[str]] = _FIX | _CARRY

    def changes(self, stop: Stop) -> Iterable[Change]:
        """Yield mountings by their number of fasteners; larger pins; then less load."""
        cabinet = stop.cabinet
        if cabinet is None:
            return
        if stop.check.code in _FIX:
            yield from _mountings(stop, cabinet)
        if stop.check.code == "shelf-pins":
            yield from _pins(stop)
        if stop.check.code in _CARRY:
            yield from _divided(stop, cabinet)
        if stop.check.code in _CARRY | {"anti-tip"}:
            yield from _less(stop, cabinet)


def _mountings(stop: Stop, cabinet: Cabinet) -> Iterator[Change]:
    """Yield ways to fix the cabinet to its wall; the mass of the contents stays as it is given."""
    if cabinet.mounting is not None and not cabinet.stands:
        return
    methods = ("screw-strip",) if cabinet.stands else ("bevel-cleat", "screw-strip")
    named = [lag.title for lag in stop.choices.catalogue.lags if lag.id in LAGS]
    ways: list[tuple[str, dict[str, Any]]] = [("", {})]
    for lag, title in zip(LAGS, named, strict=False):
        ways += [(f", {title}, {count} in each stud", {"fastener": lag, "per_stud": count}) for count in (2, 3)]
    contents = {} if cabinet.mounting is None or cabinet.mounting.contents_kg is None else {
        "contents_kg": cabinet.mounting.contents_kg
    }  # fmt: skip
    units = stop.plan.job.units
    for height in HEIGHTS[units]:
        words, size = f", strips {stop.write.cut(height)} high", to_number(height, units)
        ways += [
            (f"{words}, {named[0]}, {count} in each stud", {"height": size, "fastener": LAGS[0], "per_stud": count})
            for count in (2, 4)
        ]
    for method in methods:
        title = "a strip inside, screwed to the wall" if method == "screw-strip" else "a pair of bevelled cleats"
        for words, options in ways:
            value = {"method": method, **contents, **options}
            yield Change(f"{title}{words}", patch_setting(stop.document, (stop.at("mounting"), value)))


def _pins(stop: Stop) -> Iterator[Change]:
    units, at = stop.plan.job.units, stop.at("case", "pins")
    for diameter in (5 * MM, INCH // 4, 7 * MM, 10 * MM):
        setting = ((*at, "diameter"), to_number(diameter, units))
        yield Change(f"pins {stop.write.cut(diameter)} thick", patch_setting(stop.document, setting))
    for diameter, depth in ((INCH // 4, 10 * MM), (7 * MM, 10 * MM), (7 * MM, 12 * MM), (10 * MM, 12 * MM)):
        settings = [((*at, key), to_number(size, units)) for key, size in (("diameter", diameter), ("depth", depth))]
        words = f"pins {stop.write.cut(diameter)} thick, {stop.write.cut(depth)} deep"
        yield Change(words, patch_setting(stop.document, *settings))


def _divided(stop: Stop, cabinet: Cabinet) -> Iterator[Change]:
    """Yield a divider in the middle of each space with shelves, so that they span half."""
    for leaf in leaves(cabinet.space):
        if leaf.front == "open" and (leaf.loose_count or leaf.fixed_count):
            half = {"loose_shelves": leaf.loose_count} if leaf.loose_count else {"fixed_shelves": leaf.fixed_count}
            yield Change(
                "a divider in the middle", patch_setting(stop.document, (space_at(stop, leaf), {"bays": [half, half]}))
            )


def _less(stop: Stop, cabinet: Cabinet) -> Iterator[Change]:
    for share in SHARES:
        load = cabinet.loading.shelf_pa * share
        key, value = ("shelf_psf", round(load / PASCAL_PER_PSF, 1)) if stop.write.inches else ("shelf_pa", round(load))
        words = f"at most {stop.write.quantity(load, 'Pa')} on shelves and bottom"
        loading = {"spread": cabinet.loading.spread, "limit": cabinet.loading.limit, key: value}
        yield Change(words, patch_setting(stop.document, (stop.at("loading"), loading)), keeps=False)
