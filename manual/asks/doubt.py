"""What a buyer, an insurer or an inspector asks: who saw it, how late it was written, what is open.

Counted from one reader's view; what is withheld is counted nowhere but in its one number.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from manual.asks.releases import WentOn, went_on
from manual.bound.book import Book
from manual.bound.editions import QUIET
from manual.languages import say, term
from record.answers.covers import AFTER, UNKNOWN, cover_state
from record.entry import Entry
from record.fold import AsBuilt, natural
from record.readers import View
from record.trust.judge import judge

#: How late, in days → the key of how it is said; what is later than the last is LATER.
LATE = ((0, "same_day"), (1, "next_day"), (7, "within_week"))
LATER = "later"
LATEST = 8  # of the latest entries, told one by one


@dataclass(frozen=True, slots=True)
class Witness:
    """One name, and how many entries say that this one did it, saw it, or wrote it."""

    name: str
    did: int
    saw: int
    wrote: int


@dataclass(frozen=True, slots=True)
class Written:
    """One entry that was written late: its number, what it is of, and by how many days."""

    number: str
    about: str
    days: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """Everything the page tells."""

    witnesses: tuple[Witness, ...]
    alone: int  # happenings that nobody but whoever did or wrote them is said to have seen
    happenings: int
    late: tuple[tuple[str, int], ...]
    latest: tuple[Written, ...]
    after_cover: tuple[str, ...]
    order_unknown: tuple[str, ...]
    unreleased: tuple[WentOn, ...]
    mended: int
    signed: tuple[str, ...]


def doubt(book: Book) -> Doubt:
    """Return what the page tells of this reader's view."""
    built = book.view.built
    told = [e for e in built.entries if e.content and e.content.kind not in QUIET]
    seen = [h.entry for h in built.happened() if h.entry.content]
    happenings = [e for e in seen if e.content and e.content.kind not in QUIET]
    delays = {entry.hash: days_late(entry, book.zone) for entry in told}
    latest = sorted(told, key=lambda e: (-delays[e.hash], natural(e.number)))
    return Doubt(
        witnesses=tuple(_witnesses(told)),
        alone=sum(1 for entry in happenings if _alone(entry)),
        happenings=len(happenings),
        late=tuple(_counted([delays[entry.hash] for entry in told])),
        latest=tuple(
            Written(e.number, e.content.about if e.content else "", delays[e.hash])
            for e in latest[:LATEST]
            if delays[e.hash] > 0
        ),
        after_cover=_in_state(book.view, AFTER),
        order_unknown=_in_state(book.view, UNKNOWN),
        unreleased=tuple(one for one in went_on(book.view) if not one.let_go),
        mended=sum(1 for entry in told if entry.content and entry.content.replaces),
        signed=tuple(_signed(built)),
    )


def days_late(entry: Entry, zone: str) -> int:
    """
    Return days between the day an entry is true of and the day it was recorded, there.

    Both are claims of a writer: a clock can be wrong. Never less than none.
    """
    content = entry.content
    if content is None:
        return 0
    stamp = datetime.fromisoformat(entry.link.recorded.replace("Z", "+00:00"))
    written = stamp.astimezone(ZoneInfo(content.zone or zone)).date()
    return max((written - date.fromisoformat(content.on)).days, 0)


def _counted(delays: list[int]) -> Iterator[tuple[str, int]]:
    from_days = -1
    for most, words in LATE:
        yield say(f"doubt.written.{words}"), sum(1 for days in delays if from_days < days <= most)
        from_days = most
    yield say(f"doubt.written.{LATER}"), sum(1 for days in delays if days > from_days)


def _witnesses(told: list[Entry]) -> Iterator[Witness]:
    did, saw, wrote = (_names(told, how) for how in (_did, _saw, _wrote))
    for name in sorted({*did, *saw, *wrote}, key=lambda n: (n.casefold(), n)):
        yield Witness(name, did[name], saw[name], wrote[name])


def _names(told: list[Entry], how: Callable[[Entry], str | None]) -> Counter[str]:
    return Counter(name for entry in told if (name := how(entry)))


def _did(entry: Entry) -> str | None:
    return entry.content.did if entry.content else None


def _saw(entry: Entry) -> str | None:
    return entry.content.saw if entry.content else None


def _wrote(entry: Entry) -> str:
    return entry.link.writer


def _alone(entry: Entry) -> bool:
    """Whether nobody else is named: who saw it is missing, or is whoever did it or wrote it."""
    saw = (_saw(entry) or "").casefold()
    did = (_did(entry) or entry.link.writer).casefold()
    return not saw or saw == did


def _in_state(view: View, state: str) -> tuple[str, ...]:
    built = view.built
    tags = {s.thing.tag for s in view.shapes if cover_state(built, s) == state}
    return tuple(sorted(tags, key=natural))


def _signed(built: AsBuilt) -> Iterator[str]:
    for one in judge(built.entries):
        chains = ", ".join(chain.to for chain in one.covers)
        yield say(
            "doubt.signed",
            day=one.day,
            signer=one.signer,
            chains=chains,
            standing=term(one.standing.value),
        )
