"""What the booklet says over its settings."""

from casewright.api.papers.pages.settings import order_words
from casewright.sdk.model import Returns


def test_the_price_of_an_order_is_named_where_it_has_one():
    """20 different settings, 12 gone back to, 1 of which by setting too: 32 and 21."""
    assert order_words(Returns(12, False, 0, 20, 1, 4)) == (
        "32 settings of the saws, 21 if all of the stock were cut setting by setting; "
        "at most 4 loose pieces wait for their next cut."
    )
    assert order_words(Returns(0, True, 0, 20, 0, 9)) == (
        "20 settings of the saws; at most 9 loose pieces wait for their next cut."
    )
