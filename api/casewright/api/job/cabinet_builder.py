"""A cabinet as it was read, laid over its house, into the SDK's frozen record: every default filled in."""

from typing import Any, assert_never

from casewright.api.job.defaults import Defaults, Values
from casewright.api.job.house import CONTENTS, HOUSE, STYLE, Origins, home
from casewright.api.job.overlay import UsualOverlay
from casewright.api.job.picking import Picked
from casewright.api.job.problems import Findings, Phrase, advice
from casewright.api.job.reading import UNREAD
from casewright.api.job.schema import JobSchemas
from casewright.api.job.schema.pieces import Base, Counter, Loading, Pins, Pull, SpaceEntry
from casewright.api.job.schema.run import Ends
from casewright.api.job.space_builder import build_space
from casewright.sdk import model
from casewright.sdk.engineering.units import KG_PER_LB, PA_PER_PSF
from casewright.sdk.units import mm

GAP = mm(2)
SHELF_LOADS = ("shelf_pa", "shelf_psf")
LEAN = ("lean_kg", "lean_lb")


class CabinetBuilder(Defaults):
    """Builds one cabinet from merged values, recording each default it fills in."""

    def __init__(self, schemas: JobSchemas, at: str, usual: UsualOverlay, origins: Origins, findings: Findings) -> None:
        super().__init__(origins, findings)
        self.schemas, self.at, self.usual = schemas, at, usual

    def build(self, values: Values) -> model.Cabinet | None:
        """Return the cabinet, or None where something needed is missing (noted)."""
        schemas, at = self.schemas, self.at
        full = self.filled(schemas.cabinet, values, at)
        case = self.case(full["case"]) if "case" in full else None
        frame = None if full["face_frame"] is None else self.face_frame(full["face_frame"])
        space = build_space(
            schemas.of(SpaceEntry), self.findings, full.get("space", {}), home(f"{at}/space", self.origins)
        )
        overlay = 0 if case is None else self.usual.over(space, case, frame)
        doors = None
        if full["doors"] is not None and case is not None:
            doors = self.doors(full["doors"], case, frame, (full["form"], overlay))
        mounting = None if full["mounting"] is None else self.mounting(full["mounting"])
        if mounting is not None:
            self.contents_inside(mounting, full)
        drawers = None
        if full["drawers"] is not None and case is not None:
            drawers = self.drawers(full["drawers"], case, frame, doors or overlay)
        if case is None or any(key not in full for key in ("width", "height", "depth")):
            return None
        return model.Cabinet(
            id=full["id"],
            title=full["title"],
            count=full["count"],
            form=full["form"],
            width=full["width"],
            height=full["height"],
            depth=full["depth"],
            case=case,
            space=space,
            face_frame=frame,
            doors=doors,
            mounting=mounting,
            pointer=at,
            loading=self.loading(full),
            base=None if case is None else self.base(full, case),
            counter=None if full["counter"] is None else self.counter(full["counter"]),
            drawers=drawers,
            ends=model.Ends(**self.part(schemas.of(Ends), values, "ends", at)),
        )

    def case(self, values: Values) -> model.Case | None:
        """Return the case."""
        at = f"{self.at}/case"
        reader = self.schemas.case
        full = self.filled(reader, values, at)
        corner = self.choice(reader.fields["corner"], full, "corner", at)
        fixed = self.choice(reader.fields["fixed_joint"], full, "fixed_joint", at)
        lower = full.get("bottom_corner")
        material = full.get("material")
        back = self.back(full, at, material)
        pins = self.part(self.schemas.of(Pins), full, "pins", at)
        if material is None or corner is None or fixed is None or back is UNREAD:
            return None
        return model.Case(
            material=material,
            shelf_material=self.or_else(full, "shelf_material", material, at),
            corner=corner,
            fixed_joint=fixed,
            top_inset=full["top_inset"],
            bottom_inset=full["bottom_inset"],
            back=back,
            pins=model.Pins(**pins),
            case_band=full["case_band"],
            shelf_band=full["shelf_band"],
            shelf_setback=full["shelf_setback"],
            bottom_corner=None if lower is None else model.Choice(lower.method, lower.options, lower.pointer),
            top_kind=full["top_kind"],
            stretcher=full["stretcher"],
        )

    def back(self, case: Values, case_at: str, material: str | None) -> Any:
        """Return the back, None for no back, or `UNREAD`."""
        if "back" in case and case["back"] is None:
            return None
        at = f"{case_at}/back"
        reader = self.schemas.back
        full = self.part(reader, case, "back", case_at)
        joint = self.choice(reader.fields["joint"], full, "joint", at)
        if joint is None or material is None:
            return UNREAD
        return model.Back(self.or_else(full, "material", material, at), full["inset"], joint)

    def face_frame(self, values: Values) -> model.FaceFrame | None:
        """Return the face frame."""
        at = f"{self.at}/face_frame"
        reader = self.schemas.face_frame
        full = self.filled(reader, values, at)
        joint = self.choice(reader.fields["joint"], full, "joint", at)
        if joint is None or "material" not in full:
            return None
        return model.FaceFrame(**{**full, "joint": joint})

    def doors(
        self, picked: Picked, case: model.Case, frame: model.FaceFrame | None, usual: tuple[model.Form, int]
    ) -> model.Doors | None:
        """Return what the doors share; `usual`: the form, and the overlay where they name none."""
        form, overlay = usual
        at = f"{self.at}/doors"
        reader = self.schemas.doors
        assert reader.common is not None
        full = self.filled(reader.common, picked.common, at)
        if picked.method is None:
            self.findings.missing(
                f"{at}/style", advice("", reader.field.branches, verb="Name a door style,"), beyond_schema=True
            )
            return None
        material = self.or_else(full, "material", case.material if frame is None else frame.material, at)
        pull = None if full["pull"] is None else self.pull(full["pull"], form, f"{at}/pull")
        return model.Doors(
            style=picked.method,
            options=picked.options,
            pointer=picked.pointer,
            **{**full, "material": material, "pull": pull, "overlay": self.or_else(full, "overlay", overlay, at)},
        )

    def pull(self, values: Values, form: model.Form, at: str) -> model.PullChoice:
        """Return the pull; its end follows the form where the job does not say."""
        full = self.filled(self.schemas.of(Pull), values, at)
        full["at_end"] = self.or_else(full, "at_end", _pull_end(form), at)
        return model.PullChoice(**full)

    def mounting(self, picked: Picked) -> model.Mounting | None:
        """Return the mounting with the mass of the contents in kilograms."""
        at = f"{self.at}/mounting"
        if picked.method is None:
            known = self.schemas.mounting.field.branches
            self.findings.missing(f"{at}/method", advice("", known, verb="Name a mounting,"), beyond_schema=True)
            return None
        assert self.schemas.mounting.common is not None
        kg = self.either(picked.common, CONTENTS, KG_PER_LB, at)
        full = self.filled(self.schemas.mounting.common, picked.common, at)
        other = {key: value for key, value in full.items() if key not in CONTENTS}
        return model.Mounting(model.Choice(picked.method, picked.options, picked.pointer), kg, **other)

    def contents_inside(self, mounting: model.Mounting, full: Values) -> None:
        """Note contents whose centre lies outside the cabinet."""
        for key, size, at in (
            ("contents_from_left", "width", mounting.contents_from_left),
            ("contents_from_front", "depth", mounting.contents_from_front),
        ):
            if at is not None and size in full and at > full[size]:
                pointer = home(f"{self.at}/mounting/{key}", self.origins)
                rule = f"a contents' centre within the cabinet's {size}"
                self.findings.add(pointer, rule, "more", f"Make it no more than the {size}.", beyond_schema=True)

    def loading(self, cabinet: Values) -> model.Loading:
        """Return what shelves carry, in pascals."""
        given = self.part(self.schemas.of(Loading), cabinet, "loading", self.at)
        pa = self.either(given, SHELF_LOADS, PA_PER_PSF, f"{self.at}/loading")
        lean = self.either(given, LEAN, KG_PER_LB, f"{self.at}/loading")
        full = {key: value for key, value in given.items() if key not in (*SHELF_LOADS, *LEAN)}
        full |= {key: value for key, value in (("shelf_pa", pa), ("lean_kg", lean)) if value is not None}
        return model.Loading(**full)

    def either(self, values: Values, keys: tuple[str, str], factor: float, at: str) -> float | None:
        """Return a quantity given by the first key, or by the second times `factor`, noting where both are given."""
        first, second = (values.get(key) for key in keys)
        if first is not None and second is not None:
            pointer, rule = home(f"{at}/{keys[1]}", self.origins), f"{keys[0]} or {keys[1]}, never both"
            self.findings.add(pointer, rule, Phrase("both"), "Keep one of them.", beyond_schema=True)
        return second * factor if first is None and second is not None else first

    def base(self, cabinet: Values, case: model.Case) -> model.Base | None:
        """Return what the cabinet stands on; a base that its house gives is for those that stand."""
        at = f"{self.at}/base"
        hangs = cabinet["form"] == "wall" and self.origins.get(at) in (HOUSE, STYLE)
        if cabinet["base"] is None or hangs:
            return None
        full = self.filled(self.schemas.of(Base), cabinet["base"], at)
        return model.Base(**{**full, "material": self.or_else(full, "material", case.material, at)})

    def counter(self, values: Values) -> model.Counter:
        """Return the counter."""
        return model.Counter(**self.filled(self.schemas.of(Counter), values, f"{self.at}/counter"))

    def drawers(
        self, values: Values, case: model.Case, frame: model.FaceFrame | None, beside: model.Doors | int
    ) -> model.Drawers | None:
        """Return what the drawers share; what is not said follows the doors, the frame or the case.

        `beside`: the doors, or where there are none the usual overlay.
        """
        doors = None if isinstance(beside, int) else beside
        at = f"{self.at}/drawers"
        reader = self.schemas.drawers
        full = self.filled(reader, values, at)
        corner = self.choice(reader.fields["corner"], full, "corner", at)
        joint = self.choice(reader.fields["bottom_joint"], full, "bottom_joint", at)
        if corner is None or joint is None:
            return None
        face = doors.material if doors else frame.material if frame else case.material
        follow: dict[str, Any] = {
            "material": case.material,
            "bottom": case.back.material if case.back else case.material,
            "front": face,
            "hang": doors.hang if doors else "overlay",
            "overlay": beside if isinstance(beside, int) else beside.overlay,
            "gap": doors.gap if doors else GAP,
        }
        chosen = {key: self.or_else(full, key, default, at) for key, default in follow.items()}
        return model.Drawers(**{**full, **chosen, "corner": corner, "bottom_joint": joint, "pointer": at})


def _pull_end(form: model.Form) -> str:
    """Return the end of a door that its pull is near: the one a hand comes to first."""
    match form:
        case "wall":
            return "lower"
        case "base":
            return "upper"
        case "tall":
            return "nearest"
        case _:
            assert_never(form)
