"""How a cutting plan is written, on one sheet sawn by hand: 1000 × 500 mm into two parts of 400 × 300 mm.

Kerf 4 mm. Rip 300, then crosscut 400 twice: the strip leaves 1000 - 2 × (400 + 4) = 192 mm, the sheet
500 - 300 - 4 = 196 mm.
"""

from decimal import Decimal
from fractions import Fraction

import orjson
import pytest
from casewright.api.stock import Demand, ShopLimits, StockRequest, plan_stock
from casewright.api.wire.lengths import Lengths, Numbers, Texts
from casewright.api.wire.stock_document import stock_document
from casewright.sdk.model import StockPiece

MM = 1_000_000


@pytest.fixture(scope="module")
def document():
    sheet = StockPiece("ply", "birch", 18 * MM, 1000 * MM, 500 * MM, cost=Decimal("12.345"))
    wanted = Demand("shelf", "birch", 18 * MM, 400 * MM, 300 * MM, 2)
    limits = ShopLimits(kerf=4 * MM, keep_offcut=(900 * MM, 190 * MM))
    plan = plan_stock(StockRequest((wanted,), (sheet,), limits))
    return orjson.loads(orjson.dumps(stock_document(plan, Lengths("mm", Numbers("mm"), Texts("mm", Fraction(1, 10))))))


def test_lengths_are_numbers_in_job_units_with_bench_text_beside_them(document):
    (layout,) = document["layouts"]
    assert (layout["length"], layout["length_text"], layout["width"]) == (1000, "1000.0 mm", 500)
    assert [(p["part"], p["along_length"], p["along_width"]) for p in layout["parts"]] == [("shelf", 400, 300)] * 2
    assert {cut["kerf"] for cut in layout["cuts"]} == {4}
    assert layout["use"] == pytest.approx(2 * 400 * 300 / (1000 * 500))


def test_every_setting_is_visited_once(document):
    assert document["returns"] == 0
    # the 300 rip may be made as the 196 that is left, riding the fence
    cuts = document["layouts"][0]["cuts"]
    assert [cut["number"] for cut in cuts] == [1, 2, 3]
    assert [cut["fence"] for cut in cuts[1:]] == [400, 400]
    assert cuts[0]["fence"] == 300
    assert "settings" not in document


def test_what_is_left_and_what_is_kept(document):
    sizes = {(left["length"], left["width"]): left["keep"] for left in document["leftovers"]}
    assert sizes == {(1000, 196): True, (192, 300): False}
    (kept,) = [left for left in document["leftovers"] if left["keep"]]
    assert kept["line"] == "birch 18.0 mm: 1000.0 mm × 196.0 mm, grain along length, from ply 1"


def test_what_is_bought_costs_whole_hundredths_halves_upward(document):
    (bought,) = document["buy"]
    assert (bought["stock"], bought["quantity"], bought["cost"]) == ("ply", 1, 12.35)
    (bound,) = document["bound"]
    assert (bound["measure"], bound["least_cost"], bound["proved_least"]) == ("cost", 12.35, True)
