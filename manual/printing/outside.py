"""Finds what an HTML page would fetch from, or lead to, outside itself."""

import re
from dataclasses import dataclass
from html.parser import HTMLParser

_REFERENCES = frozenset(
    ("src", "srcset", "href", "xlink:href", "poster", "data", "action", "formaction", "background")
)
_INSIDE = ("#", "data:", "mailto:", "tel:")
_FETCHERS = frozenset(("script", "iframe", "object", "embed", "link", "base"))
_CSS_URL = re.compile(r"url\(\s*['\"]?\s*([^'\")]*)|@import\s+['\"]([^'\"]*)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Reference:
    """Something outside the page: the 1-based line it stands on, where, and what it names."""

    line: int
    place: str
    target: str


def references(html: str, *, css: str = "") -> tuple[Reference, ...]:
    """Everything in `html`, and in `css` beside it, that is not inside the page, in page order.

    A namespace name (`xmlns`) is a name and not a reference, as Namespaces in XML 1.0,
    section 1, has it; it is left out.
    """
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return (*reader.found, *_in_css(css, line=1, place="style sheet"))


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[Reference] = []
        self._in_style = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        line, _ = self.getpos()
        self._in_style = tag == "style"
        if tag in _FETCHERS:
            self.found.append(Reference(line, f"<{tag}>", dict(attrs).get("src") or tag))
            return
        for name, value in attrs:
            place = f"<{tag} {name}>"
            if name in _REFERENCES and not _is_inside(value or ""):
                self.found.append(Reference(line, place, value or ""))
            elif value and name not in _REFERENCES:
                self.found.extend(_in_css(value, line=line, place=place))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        self._in_style = False

    def handle_endtag(self, tag: str) -> None:
        self._in_style = False

    def handle_data(self, data: str) -> None:
        if self._in_style:
            line, _ = self.getpos()
            self.found.extend(_in_css(data, line=line, place="<style>"))


def _is_inside(target: str) -> bool:
    return target.strip().lower().startswith(_INSIDE)


def _in_css(css: str, *, line: int, place: str) -> list[Reference]:
    found = []
    for match in _CSS_URL.finditer(css):
        target = match[1] if match[1] is not None else match[2]
        if not _is_inside(target):
            found.append(Reference(line + css.count("\n", 0, match.start()), place, target))
    return found
