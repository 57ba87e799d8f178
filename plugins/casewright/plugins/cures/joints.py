"""Cures for joints that cannot be made or do not hold: another method, shallower cuts, thicker or other stuff."""

from collections.abc import Iterable, Iterator, Mapping
from typing import ClassVar

from casewright.sdk.methods import Change, CureGenerator, Stop
from casewright.sdk.model import Cabinet, Joint, Machine, Part
from casewright.sdk.patching import Steps, at_path, patch_setting
from casewright.sdk.units import INCH, to_number

EACH = 4
"""Other methods tried for one place of the job."""

PREFERRED = ("screwed-butt", "dowel", "rabbet", "housed-groove", "loose-tenon", "pocket-screw", "biscuit", "applied")
"""In what order methods are tried: those with the fewest cuts first; the others follow by name."""

_ALLOWED = frozenset(
    {
        "narrow-landing", "pocket-at-edge", "pocket-screw-bite", "screw-in-thin-edge", "screw-near-end", "thin-lap",
        "thin-mortise-cheek", "thin-slot-cheek", "thin-tongue", "thin-web-behind-dowel", "thin-web-behind-mortise",
        "thin-web-behind-pins", "thin-web-behind-slot", "thin-web-behind-spline", "thin-wood-beside-dowel",
        "thin-wood-outside-groove",
    }
)  # fmt: skip


class JointCures(CureGenerator):
    """Cures for joints, and for cuts that the shop cannot make or that leave too little wood."""

    id: ClassVar[str] = "joints"
    title: ClassVar[str] = "Other joints, and stuff that has room for them"
    codes: ClassVar[frozenset[str]] = _ALLOWED | {
        "clash", "link-missing", "link-use", "locked-parts", "no-cutter", "no-machine",
        "no-room-for-driver", "not-seated", "outside-size",
        "shelf-ends", "web", "work-not-carried-out",
    }  # fmt: skip

    def changes(self, stop: Stop) -> Iterable[Change]:
        """Yield other methods for the joints that the check is about, then shallower cuts, insets and other stuff."""
        cabinet = stop.cabinet
        yield from _machines(stop)
        if cabinet is None:
            return
        places = dict.fromkeys(place for joint in _joints(stop) if (place := _place(stop, cabinet, joint)))
        for steps, kind, method in places:
            yield from _others(stop, steps, kind, method)
        if stop.check.code in ("web", "thin-wood-outside-groove"):
            yield from _shallower(stop, cabinet)
            yield from _insets(stop)
        yield from _stuff(stop, cabinet)


def _joints(stop: Stop) -> list[Joint]:
    """Return the joints that a check is about: itself, its part's, its cabinet's, or those of what hangs."""
    subject, cabinet = stop.check.subject, stop.cabinet
    own = [joint for joint in stop.plan.joints if joint.cabinet == (cabinet.id if cabinet else "")]
    about = [joint for joint in own if subject in (joint.id, joint.host, joint.guest)]
    return about or own


_Place = tuple[Steps, str, str]


def _place(stop: Stop, cabinet: Cabinet, joint: Joint) -> _Place | None:
    """Return where the job picks a joint's method, for which kind of meeting, and the method."""
    parts: Mapping[str, Part] = {part.id: part for part in stop.plan.parts}
    host, guest = parts.get(joint.host), parts.get(joint.guest)
    if host is None or guest is None:
        return None
    where: Steps | None = None
    if joint.kind == "corner":
        lower = guest.role == "bottom" and cabinet.case.bottom_corner is not None
        where = ("case", "bottom_corner" if lower else "corner")
    elif joint.kind == "tee":
        where = ("case", "fixed_joint")
    elif joint.kind == "box":
        where = ("drawers", "corner")
    elif joint.kind == "panel" and guest.role in ("back", "box-bottom"):
        where = ("case", "back", "joint") if guest.role == "back" else ("drawers", "bottom_joint")
    elif joint.kind == "frame" and host.group == "face-frame":
        where = ("face_frame", "joint")
    return None if where is None else (stop.at(*where), joint.kind, joint.method)


def _others(stop: Stop, steps: Steps, kind: str, method: str) -> Iterator[Change]:
    """Yield the other methods for a kind of meeting."""
    family = stop.choices.boxes if kind == "box" else stop.choices.joints
    able = [name for name, one in family.items() if name != method and kind in one.does]
    able.sort(key=lambda name: (PREFERRED.index(name) if name in PREFERRED else len(PREFERRED), name))
    what = {"corner": "corners", "tee": "shelves and dividers", "panel": "panel", "frame": "frame", "box": "drawers"}
    for name in able[: EACH + 2]:
        words = f"{what[kind]} joined by {family[name].title.lower()}"
        yield Change(words, patch_setting(stop.document, (steps, {"method": name})))


def _shallower(stop: Stop, cabinet: Cabinet) -> Iterator[Change]:
    """Yield grooves of a quarter and of a sixth of the wood."""
    thickness = stop.plan.job.materials[cabinet.case.material].thickness
    keyed = {"fixed_joint": cabinet.case.fixed_joint, "corner": cabinet.case.corner}
    for part in (4, 6):
        for key, choice in keyed.items():
            if choice.method in ("housed-groove", "tongue-in-groove", "sliding-dovetail", "rabbet"):
                depth = to_number(thickness // part, stop.plan.job.units)
                words = f"grooves {stop.write.cut(thickness // part)} deep"
                setting = (stop.at("case", key), {"method": choice.method, "depth": depth})
                yield Change(words, patch_setting(stop.document, setting))


def _insets(stop: Stop) -> Iterator[Change]:
    """Yield a top and a bottom that stand in from the sides' ends."""
    for inset in (INCH // 2, 3 * INCH // 4):
        size = to_number(inset, stop.plan.job.units)
        settings = [(stop.at("case", key), size) for key in ("top_inset", "bottom_inset")]
        yield Change(
            f"top and bottom {stop.write.cut(inset)} in from the ends", patch_setting(stop.document, *settings)
        )


def _stuff(stop: Stop, cabinet: Cabinet) -> Iterator[Change]:
    """Yield the job's other sheets and boards for the case and its shelves, thicker ones first."""
    materials = stop.plan.job.materials
    now = materials[cabinet.case.material]
    others = [one for one in materials.values() if one.kind == now.kind and one.key != now.key]
    for one in sorted(others, key=lambda one: (one.thickness < now.thickness, one.thickness, one.key))[:EACH]:
        settings = [(stop.at("case", "material"), one.key), (stop.at("case", "shelf_material"), one.key)]
        yield Change(f"the case of {one.key}", patch_setting(stop.document, *settings))
    yield from _next_thickness(stop, cabinet)


def _next_thickness(stop: Stop, cabinet: Cabinet) -> Iterator[Change]:
    """Yield the case's own stuff in the next thickness that it is sold in."""
    job = stop.plan.job
    now = job.materials[cabinet.case.material]
    sold = sorted((row.least + row.most) // 2 for row in stop.choices.catalogue.stuff(now.stuff).thicknesses)
    thicker = next((size for size in sold if size > now.thickness * 11 // 10), None)
    key = f"{now.key[:30]}-thicker"
    if thicker is None or key in job.materials:
        return
    made = {"kind": now.kind, "stuff": now.stuff, "thickness": to_number(thicker, job.units)}
    settings = [(("materials", key), made), (stop.at("case", "material"), key)]
    yield Change(f"a case of the same stuff {stop.write.cut(thicker)} thick", patch_setting(stop.document, *settings))


def _machines(stop: Stop) -> Iterator[Change]:
    """Yield each machine that the shop's list lacks, those that the steps ask for first; then all of them."""
    have = at_path(stop.document, ("shop", "machines"))
    if stop.check.code != "no-machine" or not isinstance(have, list):
        return
    used = [str(step.machine) for step in stop.plan.steps]
    every = dict.fromkeys((*used, *(str(one) for one in Machine)))
    lacking = [one for one in every if one not in have and one != "by-hand"]
    at = ("shop", "machines")
    for machine in lacking[:EACH]:
        words = f"a {machine.replace('-', ' ')} in the shop"
        yield Change(words, patch_setting(stop.document, ((*at, "-"), machine)), keeps=False)
    if len(lacking) > 1:
        yield Change("a shop with every machine", patch_setting(stop.document, (at, [*have, *lacking])), keeps=False)
    for machine in lacking[EACH:]:
        words = f"a {machine.replace('-', ' ')} in the shop"
        yield Change(words, patch_setting(stop.document, ((*at, "-"), machine)), keeps=False)
