"""The differences of two plan documents, each number beside the one it was."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from math import fsum
from typing import Any

PART_FIELDS = ("quantity", "length", "width", "thickness", "material", "grain")
Document = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Compared:
    """The document of a plan, and how often each cabinet is made."""

    document: Document
    counts: Mapping[str, int]

    def total_kg(self) -> float:
        """Return the mass of all cabinets, empty."""
        return round(fsum(float(row["mass_kg"]) * self.counts[row["cabinet"]] for row in self.document["weights"]), 3)


def differences(was: Compared, now: Compared) -> dict[str, Any]:
    """Return what is different in `now`; both are plans in the same units."""
    before, after = was.document, now.document
    return {
        "parts": _parts(before["parts"], after["parts"]),
        "hardware": _hardware(before["hardware"], after["hardware"]),
        "stock": _stock(before["stock"], after["stock"]),
        "costs": _costs(before["costs"], after["costs"]),
        "weight": {
            "total_kg": {"was": was.total_kg(), "now": now.total_kg()},
            "cabinets": _weights(before["weights"], after["weights"]),
        },
        "checks": _checks(before["checks"], after["checks"]),
    }


def _parts(before: list[Document], after: list[Document]) -> dict[str, Any]:
    was, now = ({part["id"]: part for part in parts} for parts in (before, after))
    changed = []
    for key in was:
        if key not in now:
            continue
        names = [name for name in PART_FIELDS if was[key][name] != now[key][name]]
        cuts = was[key]["features"] != now[key]["features"]
        if names or cuts:
            row: dict[str, Any] = {name: {"was": was[key][name], "now": now[key][name]} for name in names}
            changed.append({"id": key, "sizes": row, "cuts_changed": cuts})
    return {
        "added": [_part(now[key]) for key in now if key not in was],
        "removed": [_part(was[key]) for key in was if key not in now],
        "changed": changed,
    }


def _part(part: Document) -> dict[str, Any]:
    return {"id": part["id"], **{name: part[name] for name in PART_FIELDS}, "text": part["text"]}


def _hardware(before: list[Document], after: list[Document]) -> list[dict[str, Any]]:
    names = {line["item"]: line["name"] for line in (*before, *after)}
    was, now = (_total(lines) for lines in (before, after))
    return [
        {"item": item, "name": names[item], "was": was[item], "now": now[item]}
        for item in sorted(names)
        if was[item] != now[item]
    ]


def _total(lines: list[Document]) -> Counter[str]:
    total: Counter[str] = Counter()
    for line in lines:
        total[line["item"]] += line["quantity"]
    return total


def _stock(before: Document | None, after: Document | None) -> dict[str, Any] | None:
    """Compare what is bought, how well it is used, and how often a setting is gone back to."""
    if before is None and after is None:
        return None
    was, now = _stock_figures(before), _stock_figures(after)
    stock: dict[str, Document] = {row["stock"]: row for plan in (before, after) if plan for row in plan["buy"]}
    bought = [{row["stock"]: row["quantity"] for row in plan["buy"]} if plan else {} for plan in (before, after)]
    return {
        "buy": [
            {
                "stock": key,
                "material": stock[key]["material"],
                "was": bought[0].get(key, 0),
                "now": bought[1].get(key, 0),
            }
            for key in sorted(stock)
            if bought[0].get(key, 0) != bought[1].get(key, 0)
        ],
        **{name: {"was": was[name], "now": now[name]} for name in was},
    }


def _stock_figures(plan: Document | None) -> dict[str, Any]:
    if plan is None:
        return dict.fromkeys(("use", "returns", "settings", "pieces", "parts_short", "cost"))
    costs = [row["cost"] for row in plan["buy"]]
    cost = None if None in costs else f"{sum((Decimal(repr(each)) for each in costs), Decimal(0)):.2f}"
    return {
        "use": plan["use"],
        "returns": plan["returns"],
        "settings": len({cut["step"] for layout in plan["layouts"] for cut in layout["cuts"]}),
        "pieces": len(plan["layouts"]),
        "parts_short": sum(row["quantity"] for row in plan["short"]),
        "cost": cost,
    }


def _costs(before: Document, after: Document) -> dict[str, Any]:
    """Compare totals by the shop's rates and the lines that differ; `by` is the difference of totals in one money."""
    compared: dict[str, Any] = {
        name: {"was": before[name], "now": after[name]} for name in ("materials", "work", "total", "hours", "missing")
    }
    by = None
    one_money = all(before[name] == after[name] for name in ("currency", "decimals"))
    if one_money and before["total"] is not None and after["total"] is not None:
        by = f"{Decimal(after['total']) - Decimal(before['total']):.{after['decimals']}f}"
    lines = [{(row["kind"], row["item"]): row for row in plan["lines"]} for plan in (before, after)]
    keys = dict.fromkeys((*lines[0], *lines[1]))
    compared["by"] = by
    compared["lines"] = [
        {"kind": key[0], "item": key[1], "was": _cost_line(lines[0].get(key)), "now": _cost_line(lines[1].get(key))}
        for key in keys
        if _cost_line(lines[0].get(key)) != _cost_line(lines[1].get(key))
    ]
    return compared


def _cost_line(line: Document | None) -> dict[str, Any] | None:
    return None if line is None else {name: line[name] for name in ("quantity", "unit", "rate", "amount")}


def _weights(before: list[Document], after: list[Document]) -> list[dict[str, Any]]:
    was, now = ({row["cabinet"]: row["mass_kg"] for row in rows} for rows in (before, after))
    return [
        {"cabinet": key, "was_kg": was.get(key), "now_kg": now.get(key)}
        for key in dict.fromkeys((*was, *now))
        if was.get(key) != now.get(key)
    ]


def _checks(before: list[Document], after: list[Document]) -> dict[str, Any]:
    """Match checks by code and subject, the first with the first: new ones, gone ones, and those of another level."""
    was, now = _by_place(before), _by_place(after)
    return {
        "new": [check for place, check in now.items() if place not in was],
        "gone": [check for place, check in was.items() if place not in now],
        "level": [
            {
                "code": check["code"],
                "subject": check["subject"],
                "message": now[place]["message"],
                "was": check["level"],
                "now": now[place]["level"],
            }
            for place, check in was.items()
            if place in now and now[place]["level"] != check["level"]
        ],
        "stops": {
            name: sum(1 for c in rows if c["level"] == "stop") for name, rows in (("was", before), ("now", after))
        },
    }


def _by_place(checks: list[Document]) -> dict[tuple[str, str, int], Document]:
    seen: Counter[tuple[str, str]] = Counter()
    by_place: dict[tuple[str, str, int], Document] = {}
    for check in checks:
        place = (check["code"], check["subject"])
        by_place[(*place, seen[place])] = check
        seen[place] += 1
    return by_place
