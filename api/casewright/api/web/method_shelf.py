"""The pages of methods as a browser gets them, each made when it is first asked for and kept."""

from threading import Lock

from casewright.api.papers.drawing.svg import to_svg
from casewright.api.use.method_pages import MethodPage, every_page, index_text, page_of
from casewright.api.web.pages import Shelf, text_html
from casewright.sdk.loader import Registry

BESIDE = Shelf("../../../docs", "../../")
"""From the page of a method to the others."""


class MethodShelf:
    """The pages of one registry's methods."""

    def __init__(self, registry: Registry) -> None:
        self.registry = registry
        self._known = frozenset((family, entry) for family, entry, _ in every_page(registry))
        self._pages: dict[tuple[str, str], MethodPage] = {}
        self._lock = Lock()

    def index(self) -> bytes:
        """Return the page that lists all."""
        return text_html(index_text(self.registry))

    def page(self, family: str, entry: str) -> bytes:
        """Return a method's page. Raises `KeyError` where there is none."""
        return text_html(self._made(family, entry).text, BESIDE)

    def picture(self, family: str, entry: str, name: str) -> bytes:
        """Return a picture of a method as SVG. Raises `KeyError` where there is none."""
        return to_svg(self._made(family, entry).pictures[name]).encode()

    def _made(self, family: str, entry: str) -> MethodPage:
        if (family, entry) not in self._known:
            raise KeyError(entry)
        with self._lock:
            if (family, entry) not in self._pages:
                self._pages[family, entry] = page_of(self.registry, family, entry)
            return self._pages[family, entry]
