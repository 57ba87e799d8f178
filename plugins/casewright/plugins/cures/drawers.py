"""Cures for drawers that meet something on their way out: doors hinged on the other side, fewer or other slides."""

from collections.abc import Iterable
from typing import ClassVar

from casewright.plugins.cures.spaces import other_hinge_sides
from casewright.sdk.methods import Change, CureGenerator, Stop
from casewright.sdk.patching import patch_setting
from casewright.sdk.units import INCH, to_number


class DrawerCures(CureGenerator):
    """Cures for drawers that are blocked."""

    id: ClassVar[str] = "drawers"
    title: ClassVar[str] = "Drawers free to come out"
    codes: ClassVar[frozenset[str]] = frozenset({"drawer-blocked", "clash"})

    def changes(self, stop: Stop) -> Iterable[Change]:
        """Yield doors hinged on the other side, smaller overlays, shorter slides, lower boxes."""
        cabinet = stop.cabinet
        if cabinet is None or cabinet.drawers is None:
            return
        units, drawers = stop.plan.job.units, cabinet.drawers
        yield from other_hinge_sides(stop, cabinet)
        for overlay in (drawers.overlay // 2, 0):
            by = f"that lap the case by {stop.write.cut(overlay)}" if overlay else "no larger than their openings"
            words = f"drawer fronts {by}"
            yield Change(
                words, patch_setting(stop.document, (stop.at("drawers", "overlay"), to_number(overlay, units)))
            )
        for more in (INCH // 4, INCH // 2):
            for key in ("above", "below"):
                was = drawers.above if key == "above" else drawers.below
                words = f"{stop.write.cut(was + more)} of room {key} the drawer boxes"
                yield Change(
                    words, patch_setting(stop.document, (stop.at("drawers", key), to_number(was + more, units)))
                )
        for slide in sorted(stop.choices.catalogue.slides, key=lambda one: -one.length):
            if slide.id != drawers.slide:
                yield Change(slide.title, patch_setting(stop.document, (stop.at("drawers", "slide"), slide.id)))
