"""Questions that cannot be answered, and what to ask instead."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


class CannotAnswer(ValueError):
    """A question that has no answer as it was asked; the text says what to ask instead."""


class NotFound(CannotAnswer):
    """No such tag, or not of the kind asked for. ``close`` are tags that look like it."""

    def __init__(self, tag: str, problem: str, close: tuple[str, ...]) -> None:
        hint = f" Did you mean {' or '.join(close)}?" if close else ""
        super().__init__(f"{problem}.{hint}")
        self.tag, self.problem, self.close = tag, problem, close


class OffPanel(CannotAnswer):
    """The point asked about does not lie on the panel."""


def not_found(tag: str, problem: str, tags: Iterable[str]) -> NotFound:
    """Return the refusal for ``tag``, with up to three of ``tags`` that are like it."""
    by_fold = {each.casefold(): each for each in tags}
    close = get_close_matches(tag.casefold(), by_fold, 3, 0.6)
    return NotFound(tag, problem, tuple(by_fold[each] for each in close))
