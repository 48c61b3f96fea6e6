"""One thing that a careful reader of the manual would mark."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """
    What is wrong on a page, the words it is about, and what to do.

    ``page`` counts from 1; None is the whole manual. One that ``stops`` is a fault of the manual;
    any other is something that a person is still to find out, and is printed as such.
    """

    rule: str
    page: int | None
    wrong: str
    line: str
    instead: str
    stops: bool = True

    @property
    def told(self) -> str:
        """Where it is, what is wrong, and the words it is about."""
        place = f"page {self.page}" if self.page else "nowhere"
        about = f": {self.line}" if self.line else ""
        return f"{place}: {self.wrong}{about}"
