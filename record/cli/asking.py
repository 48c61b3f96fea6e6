"""What every asking command shares: its options, opening the record, printing the answer."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterable, Mapping, Sequence
from contextvars import ContextVar
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Annotated, Any

import typer

from record.cli.app import Refused

if TYPE_CHECKING:
    from record.entry import Entry
    from record.log import Place
    from record.posting import Clock, SaltSource
    from record.readers import View


#: As of when a question was asked, in words and for programs; from :func:`view` to :func:`tell`.
_ASKED: ContextVar[tuple[str, dict[str, str | None]]] = ContextVar("asked", default=("", {}))

Json = Annotated[bool, typer.Option("--json", help="Print stable keys in SI units, for programs.")]
KnownAt = Annotated[
    str | None,
    typer.Option(
        "--as-known-at",
        metavar="MOMENT",
        help="What was written by then (the writers' clocks), a day or 2031-05-14T20:00; or "
        "exactly: edition 2, or a checkpoint's first 8 digits.",
    ),
]
AsOf = Annotated[
    str | None,
    typer.Option("--as-of", metavar="DAY", help="As it stood in the field on that day."),
]
Reader = Annotated[
    str,
    typer.Option("--reader", help="owner, technician, trade or responder: what they may see."),
]


def now() -> datetime:
    """Return the time: the machine's, or $ASBURIED_NOW where a test or the demo fixes it."""
    fixed = os.environ.get("ASBURIED_NOW")
    if not fixed:
        return datetime.now(UTC)
    try:
        moment = datetime.fromisoformat(fixed)
    except ValueError:
        raise Refused(f"ASBURIED_NOW is not a moment: {fixed}", 2) from None
    return moment if moment.tzinfo else moment.replace(tzinfo=UTC)


def today_there(seen: View, day: str | None = None) -> tuple[str, str]:
    """Return the day asked for, else today where the site is, and the site's zone."""
    from zoneinfo import ZoneInfo

    from record.fold import zone_of

    zone = zone_of(seen.built.entries)
    if day is not None:
        return day_option(day).isoformat(), zone
    return now().astimezone(ZoneInfo(zone)).date().isoformat(), zone


def clock() -> Clock:
    from record.posting import stopped_clock

    return stopped_clock(now())


def salt() -> SaltSource:
    """Return where salts come from: the system, or $ASBURIED_SALT_SEED for tests and the demo."""
    from record.posting import random_salt, seeded_salt

    seed = os.environ.get("ASBURIED_SALT_SEED")
    return seeded_salt(seed) if seed else random_salt


def read_entries(record: Place) -> tuple[Entry, ...]:
    from record.log import Log

    with Log.open(record) as log:
        return log.entries()


def view(record: Place, known_at: str | None, as_of: str | None, reader: str) -> View:
    """Open the record and return what the reader may see of it, as known and as of."""
    from record.cli.known import known
    from record.facts import READERS
    from record.facts.kind import OWNER
    from record.index import as_built
    from record.log import Log
    from record.readers import look, look_at
    from record.reserved import carried_in

    if reader not in READERS:
        raise Refused(f'"{reader}" is not a reader; readers are {", ".join(READERS)}', 2)
    if reader == OWNER and not known_at and not as_of:
        # Left open: what is asked about is read when it is asked about.
        log = Log.open(record)
        built = as_built(log)
        # Opened by its index, a record lacks nothing; one that does is folded from its lines.
        whole = not isinstance(built.entries, tuple)
        return look_at(built, packed=None if whole else carried_in(log.files, built.entries))
    with Log.open(record) as log:
        entries = log.entries()
        packed = carried_in(log.files, entries)
    day, said = _day(as_of) if as_of else None, None
    if known_at:
        entries, said = known(entries, known_at)
    if said or day:
        _say_at_the_head(said, day)
    return look(entries, reader, as_of=day, packed=None if known_at else packed)


def spelled(seen: View, tag: str) -> str:
    """
    Return a tag, or a part of one, as the record spells it: whoever wears gloves types a-l3.

    Only where nothing has it as it was typed, and one thing alone has it in other letters.
    """
    whole, slash, part = tag.partition("/")
    if seen.built.thing(whole) is not None:
        return tag
    like = [each for each in seen.built.things if each.casefold() == whole.casefold()]
    if len(like) != 1:
        return tag
    # What was withdrawn, or cannot be read, has a history under its own spelling.
    entries = seen.built.entries
    had = any(entry.content and entry.content.about == whole for entry in entries)
    return tag if had else f"{like[0]}{slash}{part}"


def _say_at_the_head(known: str | None, as_of: str | None) -> None:
    """Keep what was asked as of when, for :func:`tell` to say ahead of the answer."""
    said = [f"as known at {known}"] if known else []
    said += [f"as it stood on {as_of}"] if as_of else []
    words = " and ".join(said)
    _ASKED.set((words, {"as_known_at": known, "as_of": as_of}))


def _day(text: str) -> str:
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise Refused(f"{text} is not a day; write it as 2031-05-14", 2) from None


def check_day(text: str | None) -> str | None:
    return _day(text) if text else None


def day_option(text: str) -> date:
    return date.fromisoformat(_day(text))


def tell(words: Iterable[str], form: Mapping[str, Any] | Sequence[Any], as_json: bool) -> None:
    """
    Print an answer, as words or as JSON.

    Where it was asked as of a day or as known then, that is said first; in JSON, an object has
    ``as_known_at`` and ``as_of``.
    """
    head, keys = _ASKED.get()
    _ASKED.set(("", {}))
    if as_json:
        print_json({**keys, **form} if isinstance(form, Mapping) else form)
        return
    if head:
        print(f"{head[0].upper()}{head[1:]}:")
    for line in words:
        print(line)


def print_json(whole: Any) -> None:
    """Print an answer for programs; tests hold every one that passes here to its schema."""
    print(json.dumps(whole, ensure_ascii=False, indent=2))


def asked_words() -> str:
    """Return as of when :func:`view` was asked, in words; nothing where it was asked of today."""
    return _ASKED.get()[0]


def on_terminal() -> bool:
    return sys.stdin.isatty() and sys.stdout.isatty()
