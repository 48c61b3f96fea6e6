"""What was known: at a moment, by the writers' clocks, or at a checkpoint, which is exact."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import UTC, date, datetime, time
from typing import TYPE_CHECKING

from record.cli.app import Refused

if TYPE_CHECKING:
    from record.entry import Entry

_EDITION = re.compile(r"edition[ -]?([1-9][0-9]{0,8})")
_HASH = re.compile(r"[0-9a-f]{8,64}")
Known = tuple[tuple["Entry", ...], str]  # the entries known then, and how that is said


def known(entries: Sequence[Entry], asked: str) -> Known:
    """
    Return what was known at ``asked``: a day, a moment, a checkpoint or its first 8 digits or
    more, or ``edition 2``. Raises Refused.
    """
    if number := _EDITION.fullmatch(asked.strip().casefold()):
        found = [e for e in _issued(entries) if _body(e, "edition") == number[1]]
        if not found:
            told = ", ".join(sorted({_body(e, "edition") for e in _issued(entries)})) or "none"
            raise Refused(f"no edition {number[1]} was issued; editions: {told}", 2)
        return _to_checkpoint(entries, found, f"edition {number[1]}")
    if _HASH.fullmatch(asked.casefold()):
        exact = _by_hash(entries, asked.casefold())
        if exact or not asked.isdecimal():  # eight digits may be a day without its dashes
            return exact or _no_such(asked)
    from record.fold import known_at

    return known_at(entries, instant(asked, entries)), f"{asked}, by the writers' clocks"


def _no_such(asked: str) -> Known:
    raise Refused(
        f"no edition of this record carries a checkpoint {asked}; `asburied manual list` shows them"
    )


def _by_hash(entries: Sequence[Entry], start: str) -> Known | None:
    from record.entry import checkpoint
    from record.entry.counted import entries_said

    now = checkpoint(entries[0].link.site, entries).hash if entries else ""
    if now.startswith(start):
        return tuple(entries), f"checkpoint {now[:16]}…, {entries_said(len(entries))}, exactly"
    found = [e for e in _issued(entries) if _body(e, "checkpoint").startswith(start)]
    return _to_checkpoint(entries, found, "checkpoint") if found else None


def _to_checkpoint(entries: Sequence[Entry], issued: Sequence[Entry], what: str) -> Known:
    """Return what an edition rests on: all that its entry had seen, held against its checkpoint."""

    from record.entry import checkpoint
    from record.entry.counted import entries_said
    from record.fold import known_to

    points = sorted({_body(entry, "checkpoint") for entry in issued})
    if len(points) > 1:
        raise Refused(f"{what} is one of several; write its checkpoint: {', '.join(points)}")
    then = known_to(entries, issued[0])
    gives = checkpoint(issued[0].link.site, then).hash
    if gives != points[0]:
        raise Refused(
            f"this record does not give the checkpoint of {issued[0].number} any more: "
            f"{points[0][:16]}… was printed, {gives[:16]}… is found. Run `asburied verify`."
        )
    said = f"checkpoint {gives[:16]}…, {entries_said(len(then))}, exactly"
    return then, said if what == "checkpoint" else f"{what}: {said}"


def _issued(entries: Sequence[Entry]) -> list[Entry]:
    return [e for e in entries if e.content and e.content.kind == "edition-issued"]


def _body(entry: Entry, name: str) -> str:
    return str(entry.content.body.get(name, "")) if entry.content else ""


def instant(moment: str, entries: Sequence[Entry]) -> str:
    """Return a day (to its end, where the site is) or a moment as an instant in UTC."""
    from zoneinfo import ZoneInfo

    from record.fold import zone_of

    try:
        if len(moment) == 10:
            found = datetime.combine(date.fromisoformat(moment), time(23, 59, 59))
        else:
            found = datetime.fromisoformat(moment)
    except ValueError:
        raise Refused(
            f"{moment} is not a moment; write 2031-05-14, 2031-05-14T20:00, edition 2, or the "
            "first 8 digits or more of a checkpoint",
            2,
        ) from None
    if found.tzinfo is None:
        found = found.replace(tzinfo=ZoneInfo(zone_of(entries)))
    return found.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
