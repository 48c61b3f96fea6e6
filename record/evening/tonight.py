"""A view and a day → what a crew lead must know that evening."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from record.accounts.balance import Account, accounts
from record.accounts.left import Position, StillOn, for_a_time, positions, still_on
from record.accounts.proofs import NOT_TOLD, VOID, Proof, proofs
from record.checks.coming import Coming, coming
from record.facts.values import in_words
from record.figures.flood import AT_MARK, FloatMark, float_marks
from record.fold import Thing, natural
from record.readers import View

#: States of a hand-over item that close it; any other leaves it owed.
CLOSED = ("done", "closed", "settled")


@dataclass(frozen=True, slots=True, kw_only=True)
class Owed:
    """One thing that somebody still owes: what, whom, until when, and what it holds up."""

    about: str
    what: str
    by: str
    due: str | None
    touches: tuple[str, ...]
    late: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Evening:
    """
    What stands on the evening of ``day``, as one reader may see it.

    ``today`` counts entries of that day by writer. ``withheld`` entries this reader may not see
    may hold more of everything here.
    """

    day: str
    site: str
    today: tuple[tuple[str, int], ...]
    marks: tuple[FloatMark, ...]
    coming: tuple[Coming, ...]
    lapsed: tuple[Proof, ...]
    on_still: tuple[StillOn, ...]
    for_a_time: tuple[Position, ...]
    not_known: tuple[Position, ...]
    owed: tuple[Owed, ...]
    withheld: int

    @property
    def tomorrow(self) -> str:
        return (date.fromisoformat(self.day) + timedelta(days=1)).isoformat()

    @property
    def stops(self) -> bool:
        """Whether water is at a mark, or something stops a covering that may go on by tomorrow."""
        wet = any(mark.state == AT_MARK for mark in self.marks)
        return wet or any(one.near and one.readiness.stops for one in self.coming)


def evening(view: View, day: str) -> Evening:
    """Return what stands on the evening of ``day`` (ISO)."""
    places = positions(view)
    return Evening(
        day=day,
        site=view.built.site,
        today=_today(view, day),
        marks=float_marks(view),
        coming=coming(view, day),
        lapsed=tuple(one for one in proofs(view) if one.state in (VOID, NOT_TOLD)),
        on_still=still_on(view),
        for_a_time=for_a_time(places),
        not_known=tuple(one for one in places if one.state == "not known"),
        owed=owed(view, day),
        withheld=view.withheld,
    )


def _today(view: View, day: str) -> tuple[tuple[str, int], ...]:
    """Count the entries of a day by writer; what the program writes by itself is none."""
    told = Counter(
        entry.link.writer
        for entry in view.built.entries
        if entry.content and entry.content.on == day and entry.content.kind != "sheet-posted"
    )
    return tuple(sorted(told.items(), key=lambda pair: (-pair[1], pair[0])))


def owed(view: View, day: str) -> tuple[Owed, ...]:
    """Return open hand-over items and what was planned and did not come, the earliest due first."""
    items = [*_items(view, day), *_not_come(view, day)]
    return tuple(sorted(items, key=lambda one: (one.due or "9999", natural(one.about))))


def _items(view: View, day: str) -> list[Owed]:
    return [
        Owed(
            about=item.tag,
            what=item.words("what"),
            by=item.words("by_whom"),
            due=item.text("due"),
            touches=item.tags("touches"),
            late=_late(item.text("due"), day),
        )
        for item in view.built.of_kind("hand-over item")
        if is_open(item)
    ]


def is_open(item: Thing) -> bool:
    """Return whether a hand-over item is not settled; not recorded or in dispute is open."""
    said = in_words(item.value("state")).casefold()
    return said.partition(",")[0].strip() not in CLOSED


def _not_come(view: View, day: str) -> list[Owed]:
    found = []
    for account in accounts(view):
        item = view.built.thing(account.name)
        if item is None or item.kind.word != "expected" or not _lacks(account):
            continue
        due = item.text("needed_by")
        came = f"{account.short.words} short" if account.short and account.came else "not come"
        found.append(
            Owed(
                about=item.tag,
                what=f"{account.what}: {came}",
                by=item.words("from"),
                due=due,
                touches=item.tags("before"),
                late=_late(due, day),
            )
        )
    return found


def _lacks(account: Account) -> bool:
    return not account.came or account.short is not None


def _late(due: str | None, day: str) -> bool:
    return due is not None and due < day


def owed_form(one: Owed) -> dict[str, Any]:
    """Return one thing owed as plain values."""
    return {
        "about": one.about,
        "what": one.what,
        "by": one.by,
        "due": one.due,
        "late": one.late,
        "touches": list(one.touches),
    }
