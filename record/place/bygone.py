"""Things as they stood on the day when something was measured from them.

A mend of a landmark or a benchmark says it was never so: it moves everything measured from it.
A later statement says it is so from then on: what was measured before stays where it was.
"""

from __future__ import annotations

from collections.abc import Collection

from record.fold import AsBuilt, Thing, fold


class Bygone:
    """The things of one record, asked how they stood on a day; each day is folded once."""

    def __init__(self, built: AsBuilt) -> None:
        self._built = built
        self._days: dict[str, AsBuilt] = {}

    def thing(self, tag: str, on: str, names: Collection[str]) -> Thing | None:
        """Return a thing as of day ``on``; ``names`` are the fields that matter."""
        now = self._built.thing(tag)
        if now is None or all(held.on <= on for name in names for held in now.held(name)):
            return now
        if on not in self._days:
            self._days[on] = fold(self._built.entries, as_of=on)
        then = self._days[on].thing(tag)
        said_then = then and all(then.held(name) for name in names if now.held(name))
        return then if said_then else now  # what was first said later was so before
