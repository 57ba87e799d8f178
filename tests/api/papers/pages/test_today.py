"""The first page: at most five cautions, the same one once for all it is about."""

from dataclasses import replace
from decimal import Decimal

from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.today import CAUTIONS, _cautions, _cost
from casewright.sdk.findings import Check, Finding
from casewright.sdk.model import Costs


def caution(subject: str, message: str) -> Check:
    return Check(subject, Finding("swing", "caution", message))


def test_a_caution_of_several_cabinets_stands_once(bay):
    facts = Facts(
        replace(bay, checks=(caution("tools", "try one door first"), caution("spares", "try one door first")))
    )
    cautions = [line for line in _cautions(facts) if "try one door first" in line]
    assert cautions == ["tools, spares: try one door first"]


def test_a_caution_of_many_cabinets_counts_those_it_does_not_name(bay):
    facts = Facts(replace(bay, checks=tuple(caution(f"bay-{n}", "try one door first") for n in range(40))))
    assert "bay-0, bay-1, bay-2, bay-3 and 36 more: try one door first" in _cautions(facts)


def test_there_are_at_most_so_many(bay):
    facts = Facts(replace(bay, checks=tuple(caution("tools", f"number {n}") for n in range(9))))
    assert len(_cautions(facts)) == CAUTIONS


def test_a_price_that_leaves_lines_out_is_none_of_all(bay):
    lines = bay.costs.lines[:3]
    priced = Costs("EUR", 2, lines, Decimal(40), Decimal("12.5"), Decimal("0.5"))
    some = replace(priced, work=None, hours=Decimal(0), missing=2)
    none = replace(some, materials=None, missing=3)
    words = [" ".join(_cost(Facts(replace(bay, costs=costs)))) for costs in (priced, some, none)]
    assert words[0] == "52.50 EUR in all: 40.00 for what is bought, 12.50 for 0.5 h of work."
    assert words[1].startswith("40.00 EUR for what has a price: 40.00 for what is bought. 2 lines")
    assert "0.00" not in words[2]
