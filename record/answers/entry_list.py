"""The log as a list, narrowed by tag, kind, writer, day, sheet, or what it mends."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from record.answers.told import ORDER_NOT_KNOWN, ToldEntry, no_order, tell_entry
from record.entry import Entry
from record.fold import mends, sight
from record.readers import View


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Which entries are asked for, all of it together; None is any. Days are ISO."""

    tag: str | None = None
    kind: str | None = None
    writer: str | None = None
    day: str | None = None
    sheet: str | None = None  # its title, or the name of its file
    since: str | None = None
    until: str | None = None
    mends: bool = False  # only what mends or withdraws another
    forked: bool = False  # only numbers that stand twice


def entry_list(view: View, wanted: Wanted) -> tuple[ToldEntry, ...]:
    """
    Return the entries asked for, in showing order.

    Withheld ones match a writer and a fork only: more would tell what they are about.
    """
    entries = view.built.entries
    wanted = replace(wanted, sheet=_title(entries, wanted.sheet))
    mended = mends(entries, sight(entries))
    return tuple(tell_entry(entry, mended) for entry in entries if _wanted(entry, wanted))


def _wanted(entry: Entry, wanted: Wanted) -> bool:
    if wanted.writer is not None and entry.link.writer != wanted.writer:
        return False
    if wanted.forked and not entry.mark:
        return False
    content = entry.content
    asked = (wanted.tag, wanted.kind, wanted.day, wanted.sheet, wanted.since, wanted.until)
    if content is None:
        return all(each is None for each in asked) and not wanted.mends
    sheet = str((content.source or {}).get("sheet", ""))
    tags = (content.about, content.about.partition("/")[0])
    return (
        (wanted.tag is None or wanted.tag in tags)
        and (wanted.kind is None or content.kind == wanted.kind.replace(" ", "-"))
        and (wanted.day is None or content.on == wanted.day)
        and (wanted.since is None or content.on >= wanted.since)
        and (wanted.until is None or content.on <= wanted.until)
        and (not wanted.mends or bool(content.replaces))
        and (wanted.sheet is None or sheet == wanted.sheet)
    )


def _title(entries: Iterable[Entry], sheet: str | None) -> str | None:
    """Return the title of the sheet that was posted from a file of that name, if one was."""
    for entry in entries:
        content = entry.content
        if content and content.kind == "sheet-posted" and sheet:
            name = str(content.body.get("name", ""))
            if sheet in (name, name.rpartition("/")[2]):
                return str((content.source or {}).get("sheet", sheet))
    return sheet


def entry_words(found: tuple[ToldEntry, ...], width: int = 100) -> list[str]:
    """Return one line an entry, cut to ``width``; a mended one is marked ~."""
    return list(_lines(found, width)) or ["No entry is like that."]


def _said(told: ToldEntry, unordered: bool) -> Iterator[str]:
    if unordered:
        yield ORDER_NOT_KNOWN
    yield from told.marks()
    if told.people:
        yield told.people
    yield from told.said


def _lines(found: tuple[ToldEntry, ...], width: int) -> Iterator[str]:
    unordered = no_order(told.entry for told in found)
    for told in found:
        content = told.entry.content
        mark = "~" if told.over else " "
        if content is None:
            yield f"{mark} {told.entry.number:8} withheld, written {told.entry.link.recorded}"
            continue
        at = content.at or "     "
        text = (
            f"{mark} {told.entry.number:8} {content.on} {at}  {told.kind} {content.about}: "
            + "; ".join(_said(told, told.entry.hash in unordered))
        )
        yield text if len(text) <= width else text[: width - 1] + "…"
