"""A page for each method, house style, check, generator of cures and family of the catalogue that is loaded."""

from casewright.api.use.method_pages.catalogue import catalogue_families
from casewright.api.use.method_pages.examples import example_of
from casewright.api.use.method_pages.pages import FAMILIES, MethodPage, every_page, index_text, page_of, page_path
from casewright.api.use.method_pages.pictures import NothingDrawnError, pictures_of

__all__ = [
    "FAMILIES", "MethodPage", "NothingDrawnError", "catalogue_families", "every_page", "example_of", "index_text",
    "page_of", "page_path", "pictures_of",
]  # fmt: skip
