"""The manual as it would be printed now, read over: everything that is to be mended first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from manual.bound.book import Book
from manual.build import STAGES, Progress, bind, draw, whole_manual, write
from manual.languages import spoken
from manual.plans.photos import Kept, none_kept
from manual.printing.press import Blot
from manual.proof import Finding, read_over
from record.entry import Entry
from record.reserved import Reserved

OF = 5  # stages, as the sealing is left out


def check(
    entries: Sequence[Entry],
    reader: str,
    progress: Progress,
    *,
    kept: Kept = none_kept,
    packed: Reserved | None = None,
) -> tuple[Book, list[Finding]]:
    """
    Return the book, with the photos that ``kept`` has, and what a careful reader finds.

    Raises ChapterFault, PictureFault.
    """
    from manual import theme
    from manual.printing import press

    progress(2, STAGES[1])
    book = bind(entries, reader, kept, packed)
    progress(3, STAGES[2])
    body = write(book)
    progress(4, STAGES[3])
    title, whole = whole_manual(book, draw(book, body))
    progress(5, STAGES[4])
    pages, blots = press.proof(theme.page(whole, title=title, lang=spoken().code))
    return book, [*_stopped(blots), *read_over(pages, book.view)]


def _stopped(blots: Iterable[Blot]) -> Iterator[Finding]:
    """Yield what would stop the press."""
    for blot in blots:
        wrong = f"{blot.place}: {blot.wrong}"
        yield Finding(rule="press", page=None, wrong=wrong, line=blot.line, instead=blot.instead)


def told(findings: Sequence[Finding]) -> Iterator[str]:
    """Yield the findings in their order, page by page; what to do once after those it is for."""
    for number, one in enumerate(findings):
        yield one.told
        if [each.instead for each in findings[number + 1 : number + 2]] != [one.instead]:
            yield f"  {one.instead}"


def form(findings: Iterable[Finding]) -> list[dict[str, object]]:
    """Return the findings as they stand in JSON."""
    return [
        {
            "rule": one.rule,
            "page": one.page,
            "wrong": one.wrong,
            "line": one.line,
            "instead": one.instead,
            "stops": one.stops,
        }
        for one in findings
    ]
