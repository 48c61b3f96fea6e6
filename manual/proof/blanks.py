"""What a person is still to find out: blanks to be filled by hand, and drills not yet recorded."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from manual.proof.finding import Finding
from manual.proof.pages import Pages, text_of

_SHOWN = 5


def gaps(pages: Pages) -> Iterator[Finding]:
    """Yield the blanks of each page, by what they are blanks of; not the lines of a form."""
    by_page: dict[int | None, dict[str, None]] = {}
    for element in filter(text_of, pages.classed("gap")):
        named = by_page.setdefault(pages.page_of(element), {})
        named[_named(pages, element)] = None
    for page, names in sorted(by_page.items(), key=lambda each: each[0] or 0):
        shown = "; ".join(list(names)[:_SHOWN])
        more = f"; and {len(names) - _SHOWN} more" if len(names) > _SHOWN else ""
        yield Finding(
            rule="blank",
            page=page,
            wrong="blanks, as nobody recorded it",
            line=shown + more,
            instead="find out and record it, or fill it in by hand",
            stops=False,
        )


def _named(pages: Pages, gap: Any) -> str:
    """Return what a blank is of: the heading of its row or column, else its own words."""
    chain = list(pages.above(gap))
    for inner, outer in pairwise(chain):
        if outer.tag == "tr":
            return _in_row(pages, outer, inner) or text_of(outer)[:60]
        if outer.tag in ("p", "li", "dd"):
            return text_of(outer)[:60]
    return text_of(gap)[:60]


def _in_row(pages: Pages, row: Any, cell: Any) -> str:
    first, at = text_of(row[0]), list(row).index(cell)
    table = next((each for each in pages.above(row) if each.tag == "table"), None)
    head = table.find("thead/tr") if table is not None else None
    column = text_of(head[at]) if head is not None and at < len(head) else ""
    return ", ".join(dict.fromkeys(word for word in (first, column) if word))


def drafts(pages: Pages) -> Iterator[Finding]:
    """Yield the emergency pages that no recorded drill stands behind."""
    for element in pages.classed("draft"):
        sheet = next((e for e in pages.above(element) if e.tag == "section"), element)
        heading = sheet.find("h1")
        yield Finding(
            rule="draft",
            page=pages.page_of(element),
            wrong="a draft: no drill was recorded for this event",
            line=text_of(heading) if heading is not None else "",
            instead="walk it through and record it as a procedure",
            stops=False,
        )
