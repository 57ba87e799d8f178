"""Cures for panels of doors: sheets and grooves that go together, room to move, and doors without panels."""

from collections.abc import Iterator

from casewright.plugins.cures.moving import Setting
from casewright.plugins.cures.setting import TAPE, number, set_doors
from casewright.plugins.cures.stock import SOLD
from casewright.sdk.methods import Change, Stop
from casewright.sdk.model import Doors, Material
from casewright.sdk.patching import at_path, patch_setting
from casewright.sdk.units import INCH

PANEL = frozenset({"panel-movement", "panel-room", "panel-thicker-than-groove", "thin-groove-wall"})
LOOSE = frozenset({"clash", "not-seated"})
"""What a panel too thick for its grooves shows too."""


def panel_changes(stop: Stop, doors: Doors) -> Iterator[Change]:
    """Yield overlays of which two doors leave room for one another, what panels and grooves may be, and other doors."""
    yield from _overlays(stop, doors)
    yield from _panels(stop, doors)
    yield from _without_panels(stop, doors)


def _overlays(stop: Stop, doors: Doors) -> Iterator[Change]:
    """Yield overlays of which two doors leave room for one another."""
    if stop.check.code in LOOSE and doors.hang == "overlay":
        for quarters in (3, 2, 1):
            size = doors.overlay * quarters // 4 // TAPE[stop.plan.job.units] * TAPE[stop.plan.job.units]
            yield set_doors(stop, doors, f"an overlay of {stop.write.cut(size)}", overlay=number(stop, size))


def _panels(stop: Stop, doors: Doors) -> Iterator[Change]:
    """Yield sheets for the panel, grooves as wide and deep as it asks, more room, and a groove of less wood."""
    materials, write = stop.plan.job.materials, stop.write
    style = stop.choices.doors.get(doors.style)
    keys = set(style.options().fields) if style else set()
    panel = materials[doors.panel] if doors.panel else None
    if panel is not None and "groove_width" in keys and stop.check.code in LOOSE | {"panel-thicker-than-groove"}:
        words = f"panel grooves {write.cut(panel.thickness)} wide"
        yield set_doors(stop, doors, words, style=True, groove_width=number(stop, panel.thickness))
    if "groove_width" in keys and stop.check.code == "thin-groove-wall":
        size = materials[doors.material].thickness // 3
        yield set_doors(
            stop, doors, f"panel grooves {write.cut(size)} wide", style=True, groove_width=number(stop, size)
        )
    if "panel_clearance" in keys and stop.check.code in ("panel-room", "panel-movement"):
        value, limit = stop.check.value, stop.check.limit
        room = max(round(one) for one in (value, limit, 0) if isinstance(one, (int, float))) + TAPE[stop.plan.job.units]
        now = doors.options.get("groove_depth") or 3 * INCH // 8
        if room < now:
            yield set_doors(
                stop,
                doors,
                f"{write.cut(room)} of room for the panel",
                style=True,
                panel_clearance=number(stop, room),
            )
        for depth in (now + room, 2 * now, 5 * now // 2):
            words = f"panel grooves {write.cut(depth)} deep, with {write.cut(room)} of room"
            sizes = {"groove_depth": number(stop, depth), "panel_clearance": number(stop, room)}
            yield set_doors(stop, doors, words, style=True, **sizes)
    for one in materials.values():
        if one.kind == "sheet" and one.key != doors.panel:
            yield set_doors(stop, doors, f"door panels of {one.key}", panel=one.key)

    if stop.check.code in LOOSE | {"panel-thicker-than-groove"} and panel is not None and "groove_width" in keys:
        yield from _thinner_panel(stop, doors, panel)


def _thinner_panel(stop: Stop, doors: Doors, panel: Material) -> Iterator[Change]:
    """Yield the panel's own stuff in the thickest size sold that a groove may be as wide as, with a sheet to buy."""
    job, document = stop.plan.job, stop.document
    widest = job.materials[doors.material].thickness * 2 // 5
    sold = [(row.least + row.most) // 2 for row in stop.choices.catalogue.stuff(panel.stuff).thicknesses]
    size, key = max((one for one in sold if one <= widest), default=None), f"{panel.key[:32]}-thinner"
    if size is None or key in job.materials or panel.kind != "sheet":
        return
    made = {"kind": "sheet", "stuff": panel.stuff, "thickness": number(stop, size)}
    settings: list[Setting] = [(("materials", key), made)]
    if job.stock is not None:
        length, width = SOLD[job.units][0]
        row = {"id": f"{key}-sheet", "material": key, "length": number(stop, length), "width": number(stop, width)}
        settings.append((("stock", "sheets", "-"), {**row, "copies": None}))
    at = stop.at("doors")
    whole = {"style": doors.style, "panel": key, "groove_width": number(stop, size)}
    given = at_path(document, at) is not None
    settings += [((*at, name), value) for name, value in whole.items()] if given else [(at, whole)]
    words = f"door panels of the same stuff {stop.write.cut(size)} thick"
    yield Change(words, patch_setting(document, *settings))


def _without_panels(stop: Stop, doors: Doors) -> Iterator[Change]:
    """Yield doors of a style that has no panel, of which the options of the style as it is are left out."""
    style = stop.choices.doors.get(doors.style)
    if style is None or not style.needs_panel:
        return
    given = at_path(stop.document, stop.at("doors")) or {}
    kept = {key: value for key, value in given.items() if key not in style.options().fields}
    for other, method in sorted(stop.choices.doors.items()):
        if not method.needs_panel:
            setting = (stop.at("doors"), {**kept, "style": other})
            yield Change(f"doors as {method.title.lower()}", patch_setting(stop.document, setting), keeps=False)
