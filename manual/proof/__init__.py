"""The manual read over before it is printed: what to mend, each with its page and what to do."""

from __future__ import annotations

from collections.abc import Iterator

from manual.proof import alternatives, blanks, contrast, fit, links, tags
from manual.proof.finding import Finding
from manual.proof.pages import Pages
from record.readers import View

__all__ = ["Finding", "Pages", "read_over"]


def read_over(pages: Pages, view: View) -> Iterator[Finding]:
    """Yield what a careful reader would mark, rule by rule."""
    yield from tags.unknown(pages, view)
    yield from tags.left_out(pages, view)
    yield from links.dead(pages)
    yield from links.twice(pages)
    yield from fit.running_over(pages)
    yield from contrast.faint(pages)
    yield from alternatives.unsaid(pages)
    yield from blanks.drafts(pages)
    yield from blanks.gaps(pages)
