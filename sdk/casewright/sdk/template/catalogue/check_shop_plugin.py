"""The catalogue loads, and its pull is one that a job can name."""

from casewright.sdk.testing import registry_with

import shop_plugin


def test_the_pull_is_listed_with_its_source() -> None:
    """The loader looks every entry over; what it takes is found by its id."""
    registry = registry_with(shop_plugin)
    assert registry.catalogue.pull("shop-plugin") == shop_plugin.PULL
    assert registry.sources[shop_plugin.NOTE.code].title == "Our own measurements"
