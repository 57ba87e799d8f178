"""A job as it was read, into the SDK's frozen record: every default filled in, each cabinet laid over its house."""

from collections.abc import Collection, Mapping
from decimal import Decimal
from functools import lru_cache
from typing import Any

from casewright.api.job.cabinet_builder import CabinetBuilder
from casewright.api.job.clean import cleared_of
from casewright.api.job.house import HOUSE, STYLE, WHOLE, Layer, Merger, Origins
from casewright.api.job.overlay import UsualOverlay
from casewright.api.job.picking import PickReader
from casewright.api.job.problems import Findings, advice
from casewright.api.job.reading import NullReader, ObjectReader
from casewright.api.job.references import each_once
from casewright.api.job.schema import TITLE_BLOCK, JobSchemas
from casewright.api.job.schema.built import BuiltSize
from casewright.api.job.schema.pieces import Climate, LoosePart
from casewright.api.job.schema.rates import Rates
from casewright.api.job.schema.run import Filler, Fillers, Obstacle
from casewright.api.job.schema.shop import Accuracy, Coat, GlueTimes, Shop
from casewright.api.job.schema.stock import Milling, Offcut, RoughBoard, Stock, StockPiece
from casewright.api.job.schema.wall import Masonry as MasonrySchema
from casewright.api.job.schema.wall import Studs, Wall
from casewright.sdk import model
from casewright.sdk.errors import PluginFaultError, pointer_to, steps_of
from casewright.sdk.fields import units_in_force
from casewright.sdk.units import DEFAULT_TAPE, Units


class JobBuilder:
    """Builds the record of one job; notes what is wrong beyond the schema."""

    def __init__(self, schemas: JobSchemas, values: dict[str, Any], units: Units, findings: Findings) -> None:
        self.schemas, self.units, self.findings = schemas, units, findings
        self.values = values
        self.origins: Origins = {}
        self.to_size = {stuff.id for stuff in schemas.registry.catalogue.stuffs if stuff.to_size}

    def job(self, astray: Collection[int] = ()) -> model.Job:
        """Return the job without the cabinets, by their places, that did not read well."""
        full = self._filled(self.schemas.root, self.values)
        wall, stock = full["wall"], full["stock"]
        return model.Job(
            title=full["title"],
            units=self.units,
            tape=full.get("tape", DEFAULT_TAPE[self.units]),
            materials={key: self._material(key, m) for key, m in sorted(full["materials"].items())},
            cabinets=self._cabinets(full["cabinets"], astray),
            wall=None if wall is None else self._wall(wall),
            shop=self._shop(full.get("shop", {})),
            stock=None if stock is None else self._stock(stock),
            loose_parts=tuple(model.LoosePart(**self._with_defaults(LoosePart, p)) for p in full["loose_parts"]),
            origins=self.origins,
            climate=model.Climate(**self._with_defaults(Climate, full.get("climate", {}))),
            rates=None if full["rates"] is None else self._rates(full["rates"]),
            done=tuple(full["done"]),
            built=tuple([self._built(i, row) for i, row in enumerate(full["built"]) if "measure" in row]),
            mistakes=tuple([self._mistake(i, row) for i, row in enumerate(full["built"]) if "mistake" in row]),
            title_block=model.TitleBlock(**{name: full[name] for name in TITLE_BLOCK}),
        )

    def _filled(self, reader: ObjectReader, values: Mapping[str, Any]) -> dict[str, Any]:
        return {**{k: d() if callable(d) else d for k, d in reader.defaults.items()}, **values}

    def _with_defaults(self, schema: Any, values: Mapping[str, Any]) -> dict[str, Any]:
        return self._filled(self.schemas.of(schema), values)

    def _material(self, key: str, values: Mapping[str, Any]) -> model.Material:
        return model.Material(
            key,
            values["kind"],
            values["stuff"],
            values["thickness"],
            values.get("nominal", ""),
            values.get("widest"),
            values["stuff"] in self.to_size,
        )

    def _cabinets(self, read: list[dict[str, Any]], astray: Collection[int]) -> tuple[model.Cabinet, ...]:
        merger = Merger(_cabinet_picks(self.schemas), self.findings)
        house = dict(self.values.get("house", {}))
        style = house.pop("style", None)
        under = merger.over(Layer(self._style(style), STYLE), house, HOUSE)
        thickness = {key: material["thickness"] for key, material in self.values.get("materials", {}).items()}
        usual = UsualOverlay(thickness, self.units)
        built = []
        well = [(i, values) for i, values in enumerate(read) if i not in astray]
        placed = (self.values.get("wall") or {}).get("cabinets_at", {})
        each_once(((f"/cabinets/{i}", values["id"]) for i, values in well), self.findings, placed)
        for i, values in well:
            at = f"/cabinets/{i}"
            layer = merger.over(under, values, "job")
            for path, label in layer.origins.items():
                self.origins[at + path] = label
            cabinet = CabinetBuilder(self.schemas, at, usual, self.origins, self.findings).build(layer.values)
            if cabinet is not None:
                built.append(cabinet)
        return tuple(built)

    def _style(self, style: str | None) -> Mapping[str, Any]:
        if style is None:
            return {}
        known = self.schemas.registry.houses
        if style not in known:
            self.findings.add("/house/style", "a known house style", style, advice(style, known), beyond_schema=True)
            return {}
        return _style_values(self.schemas, style, self.units)

    def _wall(self, values: Mapping[str, Any]) -> model.Wall:
        full = self._with_defaults(Wall, values)
        studs, masonry = full["studs"], full["masonry"]
        if studs is not None:
            given = self._with_defaults(Studs, studs)
            studs = model.Studs(tuple(given["at"]), given["stuff"], given["width"], given["depth"])
        places = {
            key: tuple(self._spot(s, pointer_to("wall", "cabinets_at", key, i)) for i, s in enumerate(spots))
            for key, spots in sorted(full["cabinets_at"].items())
        }
        return model.Wall(
            studs=studs,
            masonry=None if masonry is None else model.Masonry(**self._with_defaults(MasonrySchema, masonry)),
            lining=full["lining"],
            ceiling=full["ceiling"],
            cabinets_at=places,
            length=full["length"],
            corners=full["corners"],
            obstacles=tuple(model.Obstacle(**self._with_defaults(Obstacle, o)) for o in full["obstacles"]),
            readings=tuple(model.Reading(**reading) for reading in full["readings"]),
        )

    def _spot(self, values: Mapping[str, Any], pointer: str) -> model.Spot:
        fillers = self._with_defaults(Fillers, values.get("fillers", {}))
        left, right = (
            None if given is None else model.Filler(**self._with_defaults(Filler, given))
            for given in (fillers["left"], fillers["right"])
        )
        return model.Spot(values["x"], values["z"], left, right, pointer)

    def _built(self, number: int, values: Mapping[str, Any]) -> model.BuiltSize:
        full = {"value": 0, **self._with_defaults(BuiltSize, values)}
        full.pop("mistake", None)
        measure = model.BuiltMeasure(full["measure"])
        return model.BuiltSize(**{**full, "measure": measure, "pointer": pointer_to("built", number)})

    def _mistake(self, number: int, values: Mapping[str, Any]) -> model.BuiltMistake:
        return model.BuiltMistake(
            pointer=pointer_to("built", number),
            cabinet=values["cabinet"],
            mistake=model.Mistake(values["mistake"]),
            part=values.get("part", ""),
            copy=values.get("copy"),
            value=values.get("value", 0),
        )

    def _rates(self, values: Mapping[str, Any]) -> model.Rates:
        full = {**self._with_defaults(Rates, values), "minutes": values.get("minutes", {})}
        return model.Rates(**{key: _exact(value) for key, value in full.items()})

    def _shop(self, values: Mapping[str, Any]) -> model.Shop:
        full = self._with_defaults(Shop, values)
        least, most = full["keep_offcut"]
        return model.Shop(
            **{
                **full,
                "groove_cutters": tuple(sorted(full["groove_cutters"])),
                "keep_offcut": (least, most),
                "glue": model.GlueTimes(**self._with_defaults(GlueTimes, full["glue"])),
                "finish": tuple(model.Coat(**self._with_defaults(Coat, coat)) for coat in full["finish"]),
                "machines": tuple(model.Machine(name) for name in full["machines"]),
                "accuracy": self._accuracy(full["accuracy"]),
            }
        )

    def _accuracy(self, values: Mapping[str, Any]) -> model.Accuracy:
        full = self._with_defaults(Accuracy, values)
        sheet = full.pop("sheet")
        return model.Accuracy({model.Action(name): nm for name, nm in full.items()}, sheet)

    def _stock(self, values: Mapping[str, Any]) -> model.Stock:
        full = self._with_defaults(Stock, values)
        pieces = (
            *(self._piece(p, "sheet", None) for p in full["sheets"]),
            *(self._piece(p, "offcut", 1) for p in full["offcuts"]),
            *(self._board(b) for b in full["boards"]),
        )
        cleared = [cleared_of(piece, full["kerf"], full["edge_trim"]) for piece in pieces]
        clean = tuple([piece for one in cleared if one for piece in one.pieces])
        whole = [piece for piece, one in zip(pieces, cleared, strict=True) if one is None]
        usable = [*whole, *(one.piece for one in clean)]
        return model.Stock(
            sheets=tuple([piece for piece in usable if piece.kind == "sheet"]),
            offcuts=tuple([piece for piece in usable if piece.kind == "offcut"]),
            boards=tuple([piece for piece in usable if piece.kind == "board"]),
            kerf=full["kerf"],
            edge_trim=full["edge_trim"],
            effort=full["effort"],
            clean=clean,
            cleared=tuple([one.stock for one in cleared if one]),
            order=full["order"],
            pieces_at_hand=full["pieces_at_hand"],
            **{f"mill_{key}": size for key, size in self._with_defaults(Milling, full.get("milling", {})).items()},
        )

    def _piece(self, values: Mapping[str, Any], kind: model.StockKind, copies: int | None) -> model.StockPiece:
        full = {"copies": copies, **self._with_defaults(Offcut if kind == "offcut" else StockPiece, values)}
        full = {**full, "cost": _exact(full["cost"]), "defects": self._defects(full["defects"])}
        return model.StockPiece(**full, kind=kind, thickness=self._thickness(full))

    def _board(self, values: Mapping[str, Any]) -> model.StockPiece:
        full = {"thickness": self._thickness(values), **self._with_defaults(RoughBoard, values)}
        rough: model.Surfaced = "none" if full["thickness"] > self._thickness(values) else "all-sides"
        full = {"surfaced": rough, **full}
        full = {**full, "cost": _exact(full["cost"]), "defects": self._defects(full["defects"])}
        return model.StockPiece(**full, kind="board")

    def _defects(self, rows: list[dict[str, Any]]) -> tuple[model.Defect, ...]:
        return tuple([model.Defect(**row) for row in rows])

    def _thickness(self, piece: Mapping[str, Any]) -> int:
        """Return the thickness of a piece's material, 0 for one that the job does not have (and is refused for)."""
        material = self.values.get("materials", {}).get(piece["material"])
        thickness: int = material["thickness"] if material else 0
        return thickness


def _exact(value: Any) -> Any:
    """Return money and times as the decimals that were written; counts and words as they are."""
    if isinstance(value, float):
        return Decimal(repr(value))
    if isinstance(value, Mapping):
        return {key: _exact(inner) for key, inner in sorted(value.items())}
    return value


@lru_cache(maxsize=64)
def _cabinet_picks(schemas: JobSchemas) -> Mapping[str, PickReader]:
    return _picks(schemas.cabinet)


def _picks(reader: ObjectReader, path: str = "") -> dict[str, PickReader]:
    """Return the readers of picked methods in a cabinet by the path they stand at; `space` holds none."""
    picks: dict[str, PickReader] = {}
    for key, inner in reader.fields.items():
        plain = inner.inner if isinstance(inner, NullReader) else inner
        if isinstance(plain, PickReader):
            picks[f"{path}/{key}"] = plain
        elif isinstance(plain, ObjectReader) and key not in WHOLE:
            picks |= _picks(plain, f"{path}/{key}")
    return picks


@lru_cache(maxsize=64)
def _style_values(schemas: JobSchemas, style: str, units: Units) -> Mapping[str, Any]:
    """Return a registered house style's defaults, read in job units. Raises `PluginFaultError`."""
    registry = schemas.registry
    findings = Findings()
    with units_in_force(units):
        values = schemas.house.read(dict(registry.houses[style].defaults), "", findings)
    problems = [*findings.schema, *findings.beyond]
    if problems:
        worst = problems[0]
        keys = "".join(f"[{step!r}]" for step in steps_of(worst.pointer))
        fault = f"defaults{keys} cannot be used: {worst.rule}, got {worst.got}. {worst.fix}"
        raise PluginFaultError(registry.owner("houses", style), style, fault)
    out: Mapping[str, Any] = values
    return out
