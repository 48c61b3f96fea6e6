"""Editions: their numbers, what each supersedes, and what has changed since."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from record.entry import Entry
from record.fold import known_to

QUIET = ("edition-issued", "sheet-posted")  # entries that change nothing in a manual
ENGLISH = "en"  # what an entry that names no language is in


@dataclass(frozen=True, slots=True)
class Edition:
    """One edition that was issued, as its entry says."""

    number: int
    reader: str
    supersedes: str
    recorded_to: str
    checkpoint: str
    pdf: str
    html: str
    calendar: str
    emergency: str  # empty in an edition that had none by themselves
    cards: str
    language: str
    entry: Entry


def editions(entries: Sequence[Entry]) -> tuple[Edition, ...]:
    """Return the editions issued, oldest first."""
    found = []
    for entry in entries:
        content = entry.content
        if content is None or content.kind != "edition-issued":
            continue
        body = content.body
        found.append(
            Edition(
                number=int(body["edition"]),
                reader=str(body["reader"]),
                supersedes=str(body.get("supersedes", "")),
                recorded_to=str(body["recorded_to"]),
                checkpoint=str(body["checkpoint"]),
                pdf=str(body["pdf"]),
                html=str(body["html"]),
                calendar=str(body["calendar"]),
                emergency=str(body.get("emergency", "")),
                cards=str(body.get("cards", "")),
                language=str(body.get("language", ENGLISH)),
                entry=entry,
            )
        )
    return tuple(sorted(found, key=lambda edition: edition.number))


def last_for(issued: Sequence[Edition], reader: str, language: str = ENGLISH) -> Edition | None:
    """Return the newest edition for a reader in a language: one in another stands beside it."""
    wanted = (reader, language)
    return next((e for e in reversed(issued) if (e.reader, e.language) == wanted), None)


def next_number(issued: Sequence[Edition]) -> int:
    return max((edition.number for edition in issued), default=0) + 1


def since(entries: Sequence[Entry], edition: Edition | None) -> tuple[Entry, ...]:
    """
    Return the entries that an edition did not know: by what it had seen, not by any clock.

    Without an edition, all of them. Editions and posted sheets themselves are left out.
    """
    known = {e.hash for e in known_to(entries, edition.entry)} if edition else set()
    if edition:
        known.add(edition.entry.hash)
    return tuple(
        entry
        for entry in entries
        if entry.hash not in known and entry.content and entry.content.kind not in QUIET
    )
