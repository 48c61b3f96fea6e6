"""A manual laid out on its pages, with the page of every element and the boxes its words lie in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

SVG = "{http://www.w3.org/2000/svg}"
_NO_WORDS = frozenset({"head", "style", "script", f"{SVG}title", f"{SVG}desc"})
#: What lies within a page's edges by itself: heads and feet.
_MARGIN = "MarginBox"


class Pages:
    """The laid out manual: ``root`` is its HTML, ``sheets`` are WeasyPrint's page boxes."""

    def __init__(self, root: Any, document: Any) -> None:
        self.root = root
        self.sheets = [page._page_box for page in document.pages]
        self._over = {child: parent for parent in root.iter() for child in parent}
        self._page = _first_pages(self.sheets)

    def page_of(self, element: Any) -> int | None:
        """Return the page on which an element, or what it stands in, begins."""
        while element is not None and element not in self._page:
            element = self._over.get(element)
        return self._page.get(element)

    def above(self, element: Any) -> Iterator[Any]:
        """Yield what an element stands in, from the inside out, itself first."""
        while element is not None:
            yield element
            element = self._over.get(element)

    def elements(self, *names: str) -> Iterator[Any]:
        for element in self.root.iter():
            if element.tag in names:
                yield element

    def classed(self, name: str) -> Iterator[Any]:
        for element in self.root.iter():
            if name in element.get("class", "").split():
                yield element

    def words(self) -> Iterator[tuple[Any, str]]:
        """Yield every run of words with its element, those of drawings too."""
        yield from _words(self.root)

    def boxes(self) -> Iterator[tuple[int, Any, tuple[Any, ...]]]:
        """Yield the page of each box that prints something, the box, and those it lies in."""
        for number, sheet in enumerate(self.sheets, start=1):
            for box, around in _printing(sheet, ()):
                yield number, box, around


def _words(element: Any) -> Iterator[tuple[Any, str]]:
    if element.tag in _NO_WORDS:
        return
    if element.text:
        yield element, element.text
    for child in element:
        yield from _words(child)
        if child.tail:
            yield element, child.tail


def text_of(element: Any) -> str:
    """Return an element's words on one line."""
    return " ".join("".join(words for _, words in _words(element)).split())


def kids(box: Any) -> Iterator[Any]:
    """Yield the boxes in a box; one that was taken out of the flow is what stands for it."""
    for child in getattr(box, "children", ()):
        yield getattr(child, "_box", child)


def is_margin(box: Any) -> bool:
    return type(box).__name__ == _MARGIN


def is_text(box: Any) -> bool:
    return type(box).__name__ == "TextBox"


def is_picture(box: Any) -> bool:
    return hasattr(box, "replacement")


def _printing(box: Any, around: tuple[Any, ...]) -> Iterator[tuple[Any, tuple[Any, ...]]]:
    if is_text(box) or is_picture(box):
        yield box, around
    for child in kids(box):
        yield from _printing(child, (*around, box))


def _first_pages(sheets: list[Any]) -> Mapping[Any, int]:
    found: dict[Any, int] = {}
    for number, sheet in enumerate(sheets, start=1):
        waiting = [sheet]
        while waiting:
            box = waiting.pop()
            if not is_margin(box):
                if box.element is not None and box.element_tag == box.element.tag:
                    found.setdefault(box.element, number)
                waiting.extend(kids(box))
    return found
