"""The first page: at most five cautions, the same one once for all it is about."""

from dataclasses import replace

from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.today import CAUTIONS, _cautions
from casewright.sdk.findings import Check, Finding


def caution(subject: str, message: str) -> Check:
    return Check(subject, Finding("swing", "caution", message))


def test_a_caution_of_several_cabinets_stands_once(bay):
    facts = Facts(
        replace(bay, checks=(caution("tools", "try one door first"), caution("spares", "try one door first")))
    )
    found = [line for line in _cautions(facts) if "try one door first" in line]
    assert found == ["tools, spares: try one door first"]


def test_there_are_at_most_so_many(bay):
    facts = Facts(replace(bay, checks=tuple(caution("tools", f"number {n}") for n in range(9))))
    assert len(_cautions(facts)) == CAUTIONS
