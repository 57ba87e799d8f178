"""The pages of every method that ships, made once."""

from collections.abc import Mapping

import pytest
from casewright.api.use.method_pages import MethodPage, every_page, page_of
from casewright.sdk.loader import Registry, load


@pytest.fixture(scope="session")
def built_in() -> Registry:
    """Return the registry of what ships."""
    return load(discover="built-in")


@pytest.fixture(scope="session")
def pages(built_in: Registry) -> Mapping[tuple[str, str], MethodPage]:
    """Return every page by family and id."""
    return {(family, entry): page_of(built_in, family, entry) for family, entry, _ in every_page(built_in)}
