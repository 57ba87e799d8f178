"""The booklet's cutting pages: the cut list with its reasons, the stock layouts, and the saw settings to tick off."""

from collections.abc import Sequence

from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.setting import BOX, CELL, HEAD, SMALL, UNDER, drawings, gap, para, table
from casewright.api.papers.views.layout import layout
from casewright.api.papers.views.page import finish
from casewright.sdk.model import Part, Term
from reportlab.platypus import Flowable

GRAIN = {"along-length": "along length", "along-width": "along width", "free": "free"}
TOOLS = {"fence": "Fence at", "stop": "Stop at", "track": "Track cut at", "groove": "Groove", "rabbet": "Rabbet",
         "hole": "Holes"}  # fmt: skip


def cut_list(facts: Facts) -> list[Flowable]:
    """Return every part with its size and the terms each size comes from."""
    story: list[Flowable] = [para("Cut list", HEAD)]
    if not facts.plan.parts:
        return [*story, para("This job has no parts.")]
    story.append(para("Under each size stands where it comes from: the terms add up to it exactly.", SMALL))
    by_material: dict[str, list[Part]] = {}
    for part in facts.plan.parts:
        by_material.setdefault(part.material, []).append(part)
    for key, parts in by_material.items():
        material = facts.job.materials[key]
        story.append(para(f"{key}: {material.stuff}, {facts.text(material.thickness)} thick", UNDER))
        rows = [_row(facts, part) for part in parts]
        story.append(table(("Part", "No.", "Length × width × thickness", "Grain", "Why"), rows, (25, 6, 30, 13, 45)))
    return story


def _row(facts: Facts, part: Part) -> list[object]:
    why = [para(f"L: {reason(facts, part.why_length)}", CELL), para(f"W: {reason(facts, part.why_width)}", CELL)]
    if part.bands:
        why.append(para("band: " + ", ".join(dict.fromkeys(b.material for b in part.bands)), CELL))
    return [part.id, part.quantity, facts.size(part), GRAIN[part.grain], why]


def reason(facts: Facts, terms: Sequence[Term]) -> str:
    """Return the terms of a size: `inside width 22.5 + groove depth left 0.375`, in numbers that sum."""
    out = []
    for i, term in enumerate(terms):
        sign = "− " if term.nm < 0 else "+ " if i else ""
        out.append(f"{sign}{term.label} {facts.bare(abs(term.nm))}")
    return " ".join(out) or "as given"


def layouts(facts: Facts, paper: str, mark: str) -> list[Flowable]:
    """Return the stock layouts as drawings, with what to buy and what is left."""
    stock = facts.stock
    story: list[Flowable] = [para("Stock", HEAD)]
    if not stock:
        return [*story, para("The job gives no stock, so no layouts were planned.")]
    buy = stock.get("buy", ())
    if buy:
        story.append(para("To buy", UNDER))
        story.append(
            table(
                ("Stock", "Material", "Pieces", "Length × width × thickness", "Cost"),
                [
                    [
                        b["stock"],
                        b["material"],
                        b["quantity"],
                        _size(facts, b),
                        "" if b.get("cost") is None else f"{b['cost']:.2f}",
                    ]
                    for b in buy
                ],
                (20, 20, 10, 35, 15),
            )
        )
    short = stock.get("short", ())
    if short:
        story.append(para("Not to be had from this stock", UNDER))
        story.append(
            table(("Part", "Pieces", "Why"), [[s["part"], s["quantity"], s["reason"]] for s in short], (30, 10, 60))
        )
    kept = [one for one in stock.get("leftovers", ()) if one.get("keep")]
    if kept:
        story.append(para("Left over and worth keeping: write this on each piece", UNDER))
        story += [para(f"{BOX} {one['line']}", CELL) for one in kept]
    for one in stock.get("cautions", ()):
        story.append(para(f"{one['level'].capitalize()}: {one['message']}", SMALL))
    for bound in stock.get("bound", ()):
        if bound.get("proved_least"):
            story.append(para(f"{bound['material']}: proved that nothing cheaper would do ({bound['how']}).", SMALL))
    pages = layout(facts, None, paper)
    return [*story, *drawings(finish(facts, pages, paper, mark))]


def _size(facts: Facts, row: object) -> str:
    assert isinstance(row, dict)
    return " × ".join(facts.bare(facts.nm(row[k])) for k in ("length", "width", "thickness")) + f" {facts.units}"


def settings(facts: Facts) -> list[Flowable]:
    """Return the saw settings in working order, each with a box to tick."""
    story: list[Flowable] = [para("Saw settings in working order", HEAD)]
    story.append(
        para(
            "Set once, make every cut named, tick, go on. Riving knife and guard stay on; eyes, ears and lungs covered."
        )
    )
    found = facts.stock.get("settings", ())
    rows: list[list[object]] = []
    if found:
        for one in found:
            said = f"{TOOLS.get(one['tool'], one['tool'])} {facts.text(facts.nm(one['distance']))}"
            if one.get("cutter") is not None:
                said += f", cutter {facts.bare(facts.nm(one['cutter']))}, {facts.bare(facts.nm(one['depth']))} deep"
            rows.append([BOX, one["number"], said, _passes(one["passes"])])
        heads = ("", "No.", "Setting", "Cuts and parts")
        back = facts.stock.get("returns", 0)
        story.append(
            para("Every setting is visited once." if not back else f"{back} settings are gone back to.", SMALL)
        )
        return [*story, table(heads, rows, (4, 6, 30, 60))]
    rows += [
        [BOX, step.number, step.setting, f"{step.do} ({len(step.parts)} kinds of part)"]
        for step in facts.plan.steps
        if step.stage == "cut"
    ]
    if not rows:
        return [*story, para("Nothing is cut.")]
    story += [table(("", "Step", "Setting", "What"), rows, (4, 6, 22, 68)), gap()]
    return story


def _passes(passes: Sequence[object]) -> str:
    cuts = [p["cut"] for p in passes if isinstance(p, dict) and p.get("cut")]
    if cuts:
        parts = list(dict.fromkeys(p["part"] for p in passes if isinstance(p, dict) and p.get("part")))
        said = "cuts " + ", ".join(str(n) for n in cuts)
        return said + (": " + ", ".join(parts) if parts else "")
    out = []
    for p in passes:
        if isinstance(p, dict):
            datum = f" from {p['datum']}" if p.get("datum") else ""
            out.append(f"{p.get('part')} ({p.get('count')}), {p.get('does')}{datum}")
    return "; ".join(out)
