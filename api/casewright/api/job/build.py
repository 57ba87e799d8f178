"""What was read, laid over its house, into the SDK's frozen job: every default filled in."""

from collections.abc import Mapping
from typing import Any

from casewright.api.job import limits
from casewright.api.job.house import CONTENTS, DEFAULT, Origins, home
from casewright.api.job.problems import Findings, advice
from casewright.api.job.reading import UNREAD, ObjectReader, Picked, PickReader
from casewright.api.job.schema import JobSchemas
from casewright.api.job.schema.pieces import Base, Counter, Loading, Pins, Pull, SpaceEntry
from casewright.api.job.schema.run import Ends
from casewright.sdk import model
from casewright.sdk.engineering.units import KG_PER_LB, PA_PER_PSF
from casewright.sdk.units import inches, mm

Values = Mapping[str, Any]
LEAF = ("front", "hinge_side", "fixed_shelves", "loose_shelves", "drawers", "drawer_heights", "drawer_rule")
OVERLAY, GAP = inches("1/2"), mm(2)


class CabinetBuilder:
    """Builds one cabinet from merged values, recording each default it fills in."""

    def __init__(self, schemas: JobSchemas, at: str, origins: Origins, findings: Findings) -> None:
        self.schemas, self.at, self.origins, self.findings = schemas, at, origins, findings

    def build(self, values: Values) -> model.Cabinet | None:
        """Return the cabinet, or None where something needed is missing (noted)."""
        schemas, at = self.schemas, self.at
        full = self.filled(schemas.cabinet, values, at)
        case = self.case(full["case"]) if "case" in full else None
        frame = None if full["face_frame"] is None else self.face_frame(full["face_frame"])
        doors = None
        if full["doors"] is not None and case is not None:
            doors = self.doors(full["doors"], case, frame, full["form"])
        mounting = None if full["mounting"] is None else self.mounting(full["mounting"])
        drawers = None
        if full["drawers"] is not None and case is not None:
            drawers = self.drawers(full["drawers"], case, frame, doors)
        space = self.space(full.get("space", {}))
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
            base=None if full["base"] is None or case is None else self.base(full["base"], case),
            counter=None if full["counter"] is None else self.counter(full["counter"]),
            drawers=drawers,
            ends=model.Ends(**self.part(schemas.of(Ends), values, "ends", at)),
        )

    def filled(self, reader: ObjectReader, values: Values, at: str) -> dict[str, Any]:
        """Return the values with the schema's defaults, noting what is needed and not there."""
        full = dict(values)
        for key, default in reader.defaults.items():
            if key not in full:
                full[key] = default() if callable(default) else default
                self.origins[f"{at}/{key}"] = DEFAULT
        for key in reader.needed:
            if key not in full:
                fix = f'Add "{key}" to the cabinet or to "house".'
                self.findings.missing(f"{at}/{key}", fix, beyond_schema=True)
        return full

    def part(self, reader: ObjectReader, values: Values, key: str, at: str) -> dict[str, Any]:
        """Return a nested object of defaults and what was given of it."""
        if key not in values:
            self.origins[f"{at}/{key}"] = DEFAULT
            return {k: d() if callable(d) else d for k, d in reader.defaults.items()}
        return self.filled(reader, values[key], f"{at}/{key}")

    def choice(self, reader: Any, values: Values, key: str, at: str) -> model.Choice | None:
        """Return a picked joint, or the default one."""
        assert isinstance(reader, PickReader)
        pointer = f"{at}/{key}"
        picked: Picked | None = values.get(key) or self._default_pick(reader, pointer)
        if picked is None or picked.method is None:
            return None
        return model.Choice(picked.method, picked.options, picked.pointer)

    def _default_pick(self, reader: PickReader, pointer: str) -> Picked | None:
        method = reader.field.default_method
        if method not in reader.field.branches:
            self.findings.missing(
                pointer, advice("", reader.field.branches, verb=f"Name a {reader.field.what},"), beyond_schema=True
            )
            return None
        self.origins[pointer] = DEFAULT
        options = reader.load(method, {}, pointer, self.findings)
        return None if options is UNREAD else Picked(method, {}, options, {}, pointer)

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

    def doors(self, picked: Picked, case: model.Case, frame: model.FaceFrame | None, form: str) -> model.Doors | None:
        """Return what the doors share."""
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
            **{**full, "material": material, "pull": pull},
        )

    def pull(self, values: Values, form: str, at: str) -> model.PullChoice:
        """Return the pull; its end follows the form where the job does not say."""
        full = self.filled(self.schemas.of(Pull), values, at)
        full["at_end"] = self.or_else(full, "at_end", "lower" if form == "wall" else "upper", at)
        return model.PullChoice(**full)

    def mounting(self, picked: Picked) -> model.Mounting | None:
        """Return the mounting with the mass of the contents in kilograms."""
        at = f"{self.at}/mounting"
        if picked.method is None:
            known = self.schemas.mounting.field.branches
            self.findings.missing(f"{at}/method", advice("", known, verb="Name a mounting,"), beyond_schema=True)
            return None
        kg, lb = (picked.common.get(key) for key in CONTENTS)
        if kg is not None and lb is not None:
            self.findings.add(
                home(f"{at}/contents_lb", self.origins),
                "contents_kg or contents_lb, never both",
                "both",
                "Keep one of them.",
                beyond_schema=True,
            )
        if kg is None and lb is not None:
            kg = lb * KG_PER_LB
        return model.Mounting(model.Choice(picked.method, picked.options, picked.pointer), kg)

    def loading(self, cabinet: Values) -> model.Loading:
        """Return what shelves carry, in pascals."""
        at = f"{self.at}/loading"
        given = self.part(self.schemas.of(Loading), cabinet, "loading", self.at)
        pa, psf = given.pop("shelf_pa", None), given.pop("shelf_psf", None)
        if pa is not None and psf is not None:
            self.findings.add(
                home(f"{at}/shelf_psf", self.origins),
                "shelf_pa or shelf_psf, never both",
                "both",
                "Keep one of them.",
                beyond_schema=True,
            )
        if pa is None and psf is not None:
            pa = psf * PA_PER_PSF
        return model.Loading(**given) if pa is None else model.Loading(shelf_pa=pa, **given)

    def base(self, values: Values, case: model.Case) -> model.Base:
        """Return what the cabinet stands on."""
        at = f"{self.at}/base"
        full = self.filled(self.schemas.of(Base), values, at)
        return model.Base(**{**full, "material": self.or_else(full, "material", case.material, at)})

    def counter(self, values: Values) -> model.Counter:
        """Return the counter."""
        return model.Counter(**self.filled(self.schemas.of(Counter), values, f"{self.at}/counter"))

    def drawers(
        self, values: Values, case: model.Case, frame: model.FaceFrame | None, doors: model.Doors | None
    ) -> model.Drawers | None:
        """Return what the drawers share; what is not said follows the doors, the frame or the case."""
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
            "overlay": doors.overlay if doors else OVERLAY,
            "gap": doors.gap if doors else GAP,
        }
        chosen = {key: self.or_else(full, key, default, at) for key, default in follow.items()}
        return model.Drawers(**{**full, **chosen, "corner": corner, "bottom_joint": joint, "pointer": at})

    def or_else(self, full: Values, key: str, default: Any, at: str) -> Any:
        """Return a value, or a default that depends on others."""
        if full.get(key) is not None:
            return full[key]
        self.origins[f"{at}/{key}"] = DEFAULT
        return default

    def space(self, values: Values) -> model.Space:
        """Return the inside."""
        return self._space(values, home(f"{self.at}/space", self.origins), 0)

    def _space(self, values: Values, at: str, depth: int) -> model.Space:
        note = self.findings.add
        if depth > limits.SPACE_DEPTH:
            note(at, f"divisions at most {limits.SPACE_DEPTH} deep", depth, "Divide less deeply.", beyond_schema=True)
            return model.Space(at)
        reader = self.schemas.of(SpaceEntry)
        divisions = [key for key in ("bays", "tiers") if key in values]
        leaf = [key for key in LEAF if key in values]
        if len(divisions) + bool(leaf) > 1:
            got = " and ".join(f'"{key}"' for key in [*divisions, *leaf])
            fix = (
                "Put the front and the shelves into the bays or tiers."
                if leaf
                else "Put tiers inside a bay, or bays inside a tier."
            )
            note(at, "bays, or tiers, or a space with a front and shelves", got, fix, beyond_schema=True)
        if "size" in values and "share" in values:
            note(f"{at}/share", "size or share, never both", values["share"], 'Leave out "share".', beyond_schema=True)
        size, share = values.get("size"), values.get("share", 1)
        if divisions:
            key = divisions[0]
            parts = tuple(self._space(v, f"{at}/{key}/{i}", depth + 1) for i, v in enumerate(values[key]))
            return model.Space(at, size, share, "bays" if key == "bays" else "tiers", parts)
        full = {**reader.defaults, **values}
        fixed = full["fixed_shelves"]
        heights = fixed if isinstance(fixed, tuple) else None
        return model.Space(
            pointer=at,
            size=size,
            share=share,
            front=full["front"],
            hinge_side=full["hinge_side"],
            fixed_count=fixed if heights is None else len(heights),
            fixed_heights=heights,
            loose_count=full["loose_shelves"],
            drawer_count=full["drawers"],
            drawer_heights=None if "drawer_heights" not in full else tuple(full["drawer_heights"]),
            drawer_rule=full["drawer_rule"],
        )
