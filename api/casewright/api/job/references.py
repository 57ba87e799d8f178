"""Rules over a whole job that a schema cannot state: what is referred to is there, and numbers agree."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any, Protocol

from casewright.api.job import limits
from casewright.api.job.house import home
from casewright.api.job.problems import Findings, Phrase, advice
from casewright.sdk import model
from casewright.sdk.loader import Registry
from casewright.sdk.spelling import nearest_word
from casewright.sdk.units import TAPES
from casewright.sdk.writer import writer

SHEET_BOARD = ("sheet", "board")
STOCK: Mapping[str, tuple[str, ...]] = {"sheets": ("sheet",), "offcuts": SHEET_BOARD, "boards": ("board",)}
"""Lists of `stock`, and the kinds of material that each is of."""

STEEL = (
    "What screws hold in steel studs is not computed: have wood backing fixed to them as their maker or an engineer "
    "says, and give that wood here as the studs; how it is fixed to the steel is not judged."
)

StockRows = Mapping[str, Sequence[Mapping[str, Any]]]


def check(job: model.Job, registry: Registry, findings: Findings, values: Mapping[str, Any]) -> None:
    """Note every rule the job breaks. `values` are as read: its stock is not yet cut clean, and no cabinet left out."""
    checker = _Checker(job, registry, findings, values)
    checker.materials()
    checker.ids()
    for cabinet in job.cabinets:
        checker.cabinet(cabinet)
    checker.wall()
    checker.stock()
    checker.rates()
    checker.amounts()


class _Checker:
    def __init__(self, job: model.Job, registry: Registry, findings: Findings, values: Mapping[str, Any]) -> None:
        self.job, self.registry, self.findings = job, registry, findings
        self.stock_rows: StockRows = values.get("stock", {})
        self.left_out = {row.get("id") for row in values.get("cabinets", ())} - {c.id for c in job.cabinets}
        """Cabinets that lack something, which has been noted."""
        catalogue = registry.catalogue
        self.stuffs = {s.id: s for s in catalogue.stuffs}
        self.hinges = {h.id for h in catalogue.hinges}
        self.pulls = {p.id for p in catalogue.pulls}
        self.slides = {s.id for s in catalogue.slides}
        self.by_kind: dict[tuple[str, ...], list[str]] = {
            kinds: [k for k, m in job.materials.items() if m.kind in kinds]
            for kinds in (SHEET_BOARD, ("board",), ("band",), ("sheet",))
        }

    def note(self, pointer: str, rule: str, got: object, fix: str) -> None:
        self.findings.add(home(pointer, self.job.origins), rule, got, fix, beyond_schema=True)

    def material(self, key: str | None, kinds: tuple[str, ...], pointer: str) -> None:
        if key is None:
            return
        material = self.job.materials.get(key)
        words = " or ".join(kinds)
        if material is None:
            known, add = self.by_kind[kinds], f'dd a {words} named "{key}" to "materials".'
            fix = advice(key, known) if known else f"A{add}"
            if known and nearest_word(key, known) is None:
                fix = f"{fix[:-1]}; or a{add}"
            self.note(pointer, f"a key of `materials` that is a {words}", key, fix)
        elif material.kind not in kinds:
            self.note(pointer, f"a {words}", Phrase(f"{key}, a {material.kind}"), self._of(kinds))

    def _of(self, kinds: tuple[str, ...]) -> str:
        """Return what to do where the material is of another kind."""
        known = self.by_kind[kinds]
        return advice("", known) if known else f'Add a {" or ".join(kinds)} to "materials", and write its key here.'

    def known(self, word: str, known: Mapping[str, object] | set[str], what: str, pointer: str) -> bool:
        if word in known:
            return True
        self.note(pointer, f"a known {what}", word, advice(word, known))
        return False

    def materials(self) -> None:
        for key, material in self.job.materials.items():
            at = f"/materials/{key}/stuff"
            fits = {i: s for i, s in self.stuffs.items() if material.kind in ("band", s.kind)}
            if material.stuff in self.stuffs and material.stuff not in fits:
                kind = self.stuffs[material.stuff].kind
                fix = advice("", fits) + f' Or write "kind": "{kind}".'
                self.note(at, f"a stuff sold as a {material.kind}", Phrase(f"{material.stuff}, a {kind}"), fix)
            else:
                self.known(material.stuff, fits, "stuff", at)

    def ids(self) -> None:
        each_once(rows("/loose_parts", self.job.loose_parts), self.findings)
        each_once(self.stock_ids(), self.findings)

    def stock_ids(self) -> Iterator[tuple[str, str]]:
        """Yield the pointer and the id of each row of the stock, and the ids of what it is cut clean into."""
        clean: dict[str, dict[str, None]] = {}
        for one in self.job.stock.clean if self.job.stock else ():
            clean.setdefault(one.stock, {})[one.piece.id] = None
        for key in STOCK:
            for i, row in enumerate(self.stock_rows.get(key, ())):
                for name in (row["id"], *clean.pop(row["id"], ())):
                    yield f"/stock/{key}/{i}", name

    def cabinet(self, cabinet: model.Cabinet) -> None:
        at, case = cabinet.pointer, cabinet.case
        self.material(case.material, SHEET_BOARD, f"{at}/case/material")
        if case.shelf_material != case.material:
            self.material(case.shelf_material, SHEET_BOARD, f"{at}/case/shelf_material")
        if case.back is not None and case.back.material != case.material:
            self.material(case.back.material, SHEET_BOARD, f"{at}/case/back/material")
        self.material(case.case_band, ("band",), f"{at}/case/case_band")
        self.material(case.shelf_band, ("band",), f"{at}/case/shelf_band")
        if cabinet.face_frame is not None:
            self.material(cabinet.face_frame.material, ("board",), f"{at}/face_frame/material")
        self.stands_on(cabinet)
        self.material(cabinet.ends.material, SHEET_BOARD, f"{at}/ends/material")
        self.ends(cabinet)
        if cabinet.drawers is not None:
            self.drawers(cabinet.drawers)
        if cabinet.doors is not None:
            self.doors(cabinet, cabinet.doors)
        else:
            self.fronts(cabinet)

    def ends(self, cabinet: model.Cabinet) -> None:
        ends = cabinet.ends
        if ends.material is None and "finished" in (ends.left, ends.right):
            fix = "Name a material for the panel, or make the end open or hidden."
            self.note(f"{cabinet.pointer}/ends/material", "a material for the panel of a finished end", None, fix)

    def doors(self, cabinet: model.Cabinet, doors: model.Doors) -> None:
        at = f"{cabinet.pointer}/doors"
        if self.job.origins.get(f"{at}/material") != "default":
            self.material(doors.material, SHEET_BOARD, f"{at}/material")
        self.material(doors.panel, SHEET_BOARD, f"{at}/panel")
        self.material(doors.band, ("band",), f"{at}/band")
        self.known(doors.hinge, self.hinges, "hinge", f"{at}/hinge")
        if doors.pull is not None:
            self.known(doors.pull.item, self.pulls, "pull", f"{at}/pull/item")
        if doors.panel is None and self.registry.doors[doors.style].needs_panel:
            fix = 'Add "panel" with the key of a material, for example a thin sheet.'
            self.note(f"{at}/panel", f"a panel material, which {doors.style} doors need", None, fix)

    def stands_on(self, cabinet: model.Cabinet) -> None:
        at = cabinet.pointer
        if cabinet.base is not None:
            self.given(cabinet.base.material, f"{at}/base/material")
            if not cabinet.stands:
                self.note(
                    f"{at}/base",
                    "no base under a wall cabinet, which hangs",
                    cabinet.base.kind,
                    'Set "form" to "base".',
                )
        if cabinet.counter is not None:
            self.material(cabinet.counter.material, SHEET_BOARD, f"{at}/counter/material")

    def given(self, key: str, pointer: str) -> None:
        """Check a material that the job itself names; defaults have been checked where they come from."""
        if self.job.origins.get(pointer) != "default":
            self.material(key, SHEET_BOARD, pointer)

    def drawers(self, drawers: model.Drawers) -> None:
        at = drawers.pointer
        for name in ("material", "bottom", "front"):
            self.given(getattr(drawers, name), f"{at}/{name}")
        self.material(drawers.band, ("band",), f"{at}/band")
        if drawers.slide is not None:
            self.known(drawers.slide, self.slides, "drawer slide", f"{at}/slide")
        if drawers.pull is not None:
            self.known(drawers.pull, self.pulls, "pull", f"{at}/pull")

    def fronts(self, cabinet: model.Cabinet) -> None:
        styles = sorted(self.registry.doors, key=lambda style: self.registry.doors[style].needs_panel)
        fix = f'Add "doors" to the cabinet: {{"style": "{next(iter(styles), "…")}"}}.'
        for space in leaves(cabinet.space):
            if space.front in ("door", "door-pair"):
                self.note(f"{space.pointer}/front", "doors described where a space has a door", space.front, fix)

    def wall(self) -> None:
        wall = self.job.wall
        if wall is None:
            return
        if wall.studs is not None:
            boards = {i: s for i, s in self.stuffs.items() if s.kind == "board"}
            if wall.studs.stuff not in boards:
                self.studs_unknown(wall.studs.stuff, boards)
            at = wall.studs.at
            back = next((pair for pair in pairwise(at) if pair[1] <= pair[0]), None)
            if back is not None:
                write = writer(self.job.units)
                got = Phrase(f"{write.length(back[1])} after {write.length(back[0])}")
                self.note("/wall/studs/at", "stud centres from left to right", got, "Sort them, each once.")
        if wall.studs is not None and wall.masonry is not None:
            self.note("/wall/masonry", "studs or masonry, not both", Phrase("both"), "Keep what the wall is made of.")
        counts = {c.id: c.count for c in reversed(self.job.cabinets)}
        twice = len(counts) < len(self.job.cabinets)
        for cabinet_id, spots in wall.cabinets_at.items():
            at_id = f"/wall/cabinets_at/{cabinet_id}"
            if not self.job.cabinets and not self.job.loose_parts:
                continue  # of a job that lacks them all, which is noted
            if cabinet_id in self.left_out or (twice and cabinet_id not in counts):
                continue  # of a cabinet that lacks something, or by the id that one of two alike should have
            if not self.known(cabinet_id, counts, "cabinet id", at_id):
                continue
            if len(spots) != counts[cabinet_id]:
                self.note(
                    at_id,
                    f"as many places as the cabinet's count, {counts[cabinet_id]}",
                    Phrase(f"{len(spots)} place{'' if len(spots) == 1 else 's'}"),
                    'Give one place for each, or change "count".',
                )
            for i, spot in enumerate(spots):
                for side, filler in (("left", spot.filler_left), ("right", spot.filler_right)):
                    if filler is not None:
                        self.material(filler.material, SHEET_BOARD, f"{at_id}/{i}/fillers/{side}/material")
        if wall.corners in ("both", "right") and wall.length is None:
            fix = "Give the wall's length, so that its right end is known."
            self.note("/wall/length", "the length of a wall with a corner on the right", None, fix)
        each_once(rows("/wall/obstacles", wall.obstacles), self.findings)
        self.readings(wall)

    def studs_unknown(self, word: str, known: Mapping[str, object]) -> None:
        """Note studs of what no board is of: where that is no slip of the pen, they may be of steel."""
        fix = advice(word, known)
        if nearest_word(word, known) is None:
            fix = f"{fix} {STEEL}"
        self.note("/wall/studs/stuff", "a known stuff for studs", word, fix)

    def readings(self, wall: model.Wall) -> None:
        first: dict[tuple[str, int], int] = {}
        ends = {"left": ("both", "left"), "right": ("both", "right")}
        for i, one in enumerate(wall.readings):
            if first.setdefault((one.of, one.at), i) != i:
                fix = f"/wall/readings/{first[one.of, one.at]} has one there; keep one of them."
                self.note(f"/wall/readings/{i}/at", "one reading at a place", one.of, fix)
            if one.of in ends and wall.corners not in ends[one.of]:
                fix = f'Say that a wall stands there: "corners": "{one.of}" or "both".'
                self.note(f"/wall/readings/{i}/of", "a wall that stands at that end", one.of, fix)

    def rates(self) -> None:
        rates = self.job.rates
        if rates is None:
            return
        for key in rates.band_per_m:
            self.material(key, ("band",), f"/rates/band_per_m/{key}")

    def stock(self) -> None:
        for i, part in enumerate(self.job.loose_parts):
            self.material(part.material, SHEET_BOARD, f"/loose_parts/{i}/material")
        for key, kinds in STOCK.items():
            for i, row in enumerate(self.stock_rows.get(key, ())):
                self.material(row["material"], kinds, f"/stock/{key}/{i}/material")

    def amounts(self) -> None:
        job = self.job
        if job.tape not in TAPES[job.units]:
            words = ", ".join(str(t) for t in TAPES[job.units])
            self.note("/tape", f"a tape division in {job.units}", str(job.tape), f"Write one of: {words}.")
        if not job.cabinets and not job.loose_parts and not self.left_out:
            self.findings.missing("/cabinets", "Add a cabinet or a loose part.", beyond_schema=True)
        made = sum(c.count for c in job.cabinets)
        if made > limits.CABINETS_IN_ALL:
            rule = f"at most {limits.CABINETS_IN_ALL} cabinets in all"
            self.note("/cabinets", rule, made, "Send them as several jobs.")
        parts = sum(
            5
            + sum(
                1 + s.fixed_count + s.loose_count + 6 * (s.front == "drawer") * s.drawer_count for s in leaves(c.space)
            )
            for c in job.cabinets
        )
        if parts > limits.PARTS_IN_ALL:
            rule = f"at most {limits.PARTS_IN_ALL} parts in all"
            self.note("/cabinets", rule, parts, "Send them as several jobs.")


class _HasId(Protocol):
    @property
    def id(self) -> str: ...


def rows(at: str, items: Iterable[_HasId]) -> Iterator[tuple[str, str]]:
    """Yield the pointer and the id of each row of a list at a pointer."""
    for i, row in enumerate(items):
        yield f"{at}/{i}", row.id


def each_once(items: Iterable[tuple[str, str]], findings: Findings, wanted: Iterable[str] = ()) -> None:
    """Note every id, given with the pointer of its row, that an earlier row has; `wanted` ids are offered first."""
    every = list(items)
    taken = {item for _, item in every}
    free = [item for item in wanted if item not in taken]
    first: dict[str, str] = {}
    for at, item in every:
        if item in first:
            numbered = (f"{item[: limits.ID_LENGTH - 4]}-{n}" for n in range(2, len(every) + 2))
            other = free.pop(0) if free else next(name for name in numbered if name not in taken)
            taken.add(other)
            fix = f'{first[item]} has it; write another, such as "{other}".'
            findings.add(f"{at}/id", "an id of its own", item, fix, beyond_schema=True)
        first.setdefault(item, at)


def leaves(space: model.Space) -> Iterator[model.Space]:
    """Yield the undivided spaces of a space."""
    if not space.parts:
        yield space
    for part in space.parts:
        yield from leaves(part)
