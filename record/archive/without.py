"""What is held back from a copy beyond what its reader may not see: the former owner's secrets.

The links stay, so that every chain verifies; a stub tells neither what it is about nor what it
says. What names a thing points at it: a sheet, a picture, an edition that shows it goes too.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from itertools import chain

from msgspec import structs

from record.entry import Content, Entry
from record.facts.kind import OWNER
from record.log.folder import Files
from record.log.kept import NAMED
from record.readers import look

SHORT = 2  # letters; so short a tag may be a word, and is looked for just as it is written


class NothingSuch(ValueError):
    """What was asked to be held back is not there, or is the whole site."""


@dataclass(frozen=True, slots=True)
class HeldBack:
    """
    The entries of a copy, those held back without their contents.

    ``numbers`` are those held back. ``half`` are other things that lost an entry, as it named one
    of them, and are told of still: whoever packs must know, and nobody else.
    """

    entries: tuple[Entry, ...]
    numbers: tuple[str, ...]
    half: tuple[str, ...]


def held_back(entries: Sequence[Entry], asked: Sequence[str], files: Files) -> HeldBack:
    """
    Hold back all that is about, or names, the things of these tags, or is one of these entries.

    Raises NothingSuch where there is no such thing or entry, or where it is the site itself.
    """
    meant = look(
        entries
    ).built.entries  # plates may have been swapped: as it was meant, and as written
    tags, hashes = _asked(meant, asked)
    names = _naming(tags)
    held = {e.hash for e in meant if e.hash in hashes or _says(e, names)}
    held |= {each.hash for each in _sheets(meant, held, names, files)}
    held |= {each.hash for each in _same_files(meant, held)}
    held |= {each.hash for each in _editions(meant, held)}
    about = {_head(e) for e in meant if e.hash in held}
    told = {_head(e) for e in meant if e.content and e.hash not in held}
    site = {entry.link.site for entry in entries}
    return HeldBack(
        tuple(_stub(entry) if entry.hash in held else entry for entry in entries),
        tuple(entry.number for entry in entries if entry.hash in held),
        tuple(sorted((about & told) - site - {""})),
    )


def _asked(entries: Sequence[Entry], asked: Sequence[str]) -> tuple[list[str], set[str]]:
    """Return the tags as they are written in the record, and the hashes of entries asked for."""
    known = {_head(entry).casefold(): _head(entry) for entry in entries if entry.content}
    numbers = {entry.number: entry.hash for entry in entries}
    site = entries[0].link.site if entries else ""
    tags, hashes = [], set()
    for word in asked:
        tag = known.get(word.casefold())
        if tag == site and tag is not None:
            raise NothingSuch(f"{word} is the site itself; hold back things of it, or entries")
        if tag is not None:
            tags.append(tag)
        elif word in numbers:
            hashes.add(numbers[word])
        else:
            like = get_close_matches(word.casefold(), known, 3, 0.6)
            hint = f" Did you mean {' or '.join(known[each] for each in like)}?" if like else ""
            raise NothingSuch(f"no entry is about {word}, or has it for its number.{hint}")
    return tags, hashes


def _head(entry: Entry) -> str:
    return entry.content.about.partition("/")[0] if entry.content else ""


def _naming(tags: Iterable[str]) -> tuple[re.Pattern[str], ...]:
    """Return what finds a tag where it stands by itself, or with a part of it after a slash."""
    return tuple(
        re.compile(
            rf"(?<![\w-]){re.escape(tag)}(?![\w-])", 0 if len(tag) <= SHORT else re.IGNORECASE
        )
        for tag in tags
    )


def _says(entry: Entry, names: Sequence[re.Pattern[str]]) -> bool:
    written = (entry.content, entry.swapped.written if entry.swapped else None)
    words = chain.from_iterable(_words(content) for content in written if content)
    return any(name.search(text) for text in words for name in names)


def _words(content: Content) -> Iterator[str]:
    said = (content.about, content.did, content.saw, content.by, content.because)
    yield from (each for each in said if each)
    yield from _strings(content.body)
    yield from _strings(content.source)


def _strings(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for key, each in value.items():
            yield str(key)
            yield from _strings(each)
    elif isinstance(value, list | tuple):
        for each in value:
            yield from _strings(each)


def _sheets(
    entries: Sequence[Entry], held: set[str], names: Sequence[re.Pattern[str]], files: Files
) -> Iterator[Entry]:
    """Yield the sheets that tell of it: by their words, or as the one an entry came with."""
    sheets = [e for e in entries if e.content and e.content.kind == "sheet-posted"]
    of_writer: dict[str, list[Entry]] = {}
    for each in sorted(sheets, key=lambda e: e.link.seq):
        of_writer.setdefault(each.link.writer, []).append(each)
    came = set()
    for entry in entries:
        posted = of_writer.get(entry.link.writer, ())
        place = bisect_left(posted, entry.link.seq, key=lambda e: e.link.seq)
        if entry.hash in held and place < len(posted):
            came.add(_which(posted[place]))
    for each in sheets:
        if _which(each) in came or _tells(each, names, files):
            yield each


def _which(sheet: Entry) -> tuple[str, str, str]:
    """Return which sheet it is: one that was posted again has its old words in it still."""
    assert sheet.content is not None
    return sheet.link.writer, sheet.content.on, str(sheet.content.body.get("part", ""))


def _tells(sheet: Entry, names: Sequence[re.Pattern[str]], files: Files) -> bool:
    assert sheet.content is not None
    found = files.found("sheets", str(sheet.content.body.get("sha256", "")))
    if found is None:
        return bool(names)  # nobody can tell
    words = found.data.decode("utf-8", "replace")
    return any(name.search(words) for name in names)


def _same_files(entries: Sequence[Entry], held: set[str]) -> Iterator[Entry]:
    """Yield what names a file that is held back: the file does not go, whoever names it."""
    gone = {one for e in entries if e.hash in held for one in _files(e)}
    yield from (e for e in entries if gone.intersection(_files(e)))


def _files(entry: Entry) -> Iterator[str]:
    if entry.content is not None and entry.content.kind in NAMED:
        for field in NAMED[entry.content.kind][1]:
            yield str(entry.content.body.get(field, ""))


def _editions(entries: Sequence[Entry], held: set[str]) -> Iterator[Entry]:
    """
    Yield the editions that may show it. Their hash has no salt: it would bear out a guess.
    """
    saw = {r for e in entries if e.hash in held and e.content for r in e.content.readers}
    for entry in entries:
        if held and entry.content and entry.content.kind == "edition-issued":
            shows = str(entry.content.body.get("reader", OWNER)) in {OWNER, *saw}
            yield from [entry] if shows else []


def _stub(entry: Entry) -> Entry:
    return structs.replace(entry, content=None, content_line=None, swapped=None)
