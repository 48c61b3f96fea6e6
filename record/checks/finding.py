"""What a rule finds: what is missing or wrong, how sure that is, and what clears it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from record.entry import Entry
from record.fold import Happening

if TYPE_CHECKING:
    from record.checks.hidden import Hidden
    from record.readers import View

Sure = Literal["certain", "cannot be told"]
CERTAIN: Sure = "certain"
CANNOT_BE_TOLD: Sure = "cannot be told"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """
    One thing that is missing or wrong before a covering goes on.

    ``clears`` is what to write in a day sheet or to do, a line each; ``shows`` are lines of a
    table that prove it. ``stops`` is False where it is only to be looked at, or was waived by
    name; ``waived`` is then the waiver. ``figures`` name the sums that work its numbers with all
    their inputs: ``asburied figures fall``.
    """

    rule: str
    about: str
    says: str
    sure: Sure
    why: str
    clears: tuple[str, ...]
    stops: bool
    entries: tuple[Entry, ...]
    shows: tuple[str, ...] = ()
    waived: Happening | None = None
    figures: tuple[str, ...] = ()

    @property
    def numbers(self) -> tuple[str, ...]:
        """The numbers of the entries it rests on."""
        return tuple(entry.number for entry in self.entries)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stated:
    """What must be so: in a few words, as a waiver names it, why, and the sums behind it."""

    word: str
    why: str
    figures: tuple[str, ...] = ()

    def finding(
        self,
        about: str,
        says: str,
        *,
        clears: Iterable[str],
        entries: Iterable[Entry] = (),
        sure: Sure = CERTAIN,
        stops: bool = True,
        shows: Iterable[str] = (),
    ) -> Finding:
        """Return a finding against this rule, its entries once each in showing order."""
        once = {entry.hash: entry for entry in entries}
        return Finding(
            rule=self.word,
            about=about,
            says=says,
            sure=sure,
            why=self.why,
            clears=tuple(clears),
            stops=stops,
            entries=tuple(sorted(once.values(), key=lambda entry: entry.order)),
            shows=tuple(shows),
            figures=self.figures,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule(_Stated):
    """
    What must be so before work is covered.

    ``find`` yields what is against it among the things that are about to be hidden.
    """

    find: Callable[[Hidden], Iterator[Finding]]


@dataclass(frozen=True, slots=True, kw_only=True)
class HandoverRule(_Stated):
    """
    What must be so of the whole work before the crew hands it over.

    ``find`` yields what is against it in all that a reader may see. ``stops`` of a finding says
    that the lead does not sign yet.
    """

    find: Callable[[View], Iterator[Finding]]
