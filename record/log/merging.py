"""Two records of one site become one: the union of their lines, byte for byte.

Nothing is chosen and nothing is dropped: a line is here or it comes. Every line that is handed
over is held against its hash first; one that does not match refuses the whole. Files come
before the entries that name them are committed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from record.entry import BadLine, Entry, digest, forks, numbered, read, stubs, tips
from record.log.faults import LogFault
from record.log.folder import Files, Folder
from record.log.kept import NAMED
from record.log.places import Office, Place
from record.log.plain import read_plain
from record.log.store import Log
from record.proof import KEY, MANIFEST, PACKED, SIGNATURE, TAG_MANIFEST, Proof

RESERVED = "reserved"
LINKS, CONTENTS, HEADS = "links.jsonl", "contents.jsonl", "checkpoint.txt"
_HASH = re.compile(r"[0-9a-f]{64}")


class NotMerged(Exception):
    """What was handed over cannot be taken in; the text says which line, and why."""


@dataclass(frozen=True, slots=True)
class Handed:
    """What another copy holds: its entries, every line held against its hash already."""

    name: str
    files: Files
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Union:
    """What comes: links that are not here, and contents that are not (their links may be)."""

    links: tuple[Entry, ...]
    contents: tuple[Entry, ...]
    forks: tuple[tuple[Entry, ...], ...]  # of the union, marked
    broken: tuple[Entry, ...]  # of the union: what they rest on is not in it


@dataclass(frozen=True, slots=True)
class Merged:
    """What became of a merge; ``absent`` are files that entries name and no copy held."""

    union: Union
    files: tuple[str, ...]
    absent: tuple[str, ...]


def handed_over(place: Place) -> Handed:
    """
    Read another copy: a record's folder, one of lines, or a site of a database.

    Raises NotMerged at the first line that does not match, NotARecord, RecordTooNew, LogFault.
    """
    folder = None if isinstance(place, Office) else Folder(place)
    if folder and (folder.path / LINKS).is_file() and not folder.database.exists():
        read = partial(_of_folder, folder.path)
        return Handed(str(place), folder, tuple(_of_lines(folder.path, read)))
    with Log.open(place) as other:
        return Handed(str(place), other.files, tuple(_of_log(place, other)))


def handed_lines(name: Path, files: Files, read: Callable[[str], bytes]) -> Handed:
    """
    Take a copy's lines from whatever has them: ``read`` gives each of its files by its name.

    ``name`` is what it is called in words. Raises NotMerged; what ``read`` raises goes through,
    but for OSError.
    """
    return Handed(str(name), files, tuple(_of_lines(name, read)))


def _of_folder(folder: Path, name: str) -> bytes:
    return read_plain(folder / name)


def _of_log(path: Place, other: Log) -> Iterator[Entry]:
    for place, (stored, _, link, content) in enumerate(other.lines(), start=1):
        entry = _checked(path, f"link {place} (stored as {stored[:12]}…)", link, content)
        if entry.hash != stored:
            raise NotMerged(
                f"{path}: {entry.number}, link {place} (stored as {stored[:12]}…): its line does "
                "not give the hash it is kept under; nothing was merged"
            )
        yield entry


def _of_lines(path: Path, read: Callable[[str], bytes]) -> Iterator[Entry]:
    links = _lines(path, LINKS, read)
    contents = _lines(path, CONTENTS, read, absent=b"")
    of_hash = {digest(line): line for line in contents}
    named = set()
    found = []
    for place, line in enumerate(links, start=1):
        entry = _checked(path, f"{LINKS}, line {place}", line, None)
        named.add(entry.link.content)
        whole = _checked(path, f"{LINKS}, line {place}", line, of_hash.get(entry.link.content))
        found.append(whole)
    _held_to_heads(path, found, read)
    yield from found
    for place, line in enumerate(contents, start=1):
        if digest(line) not in named:
            raise NotMerged(
                f"{path}: {CONTENTS}, line {place}: no link was sealed with it; nothing was merged"
            )


def _lines(
    path: Path, name: str, read: Callable[[str], bytes], absent: bytes | None = None
) -> list[bytes]:
    try:
        return read(name).splitlines(keepends=True)
    except OSError as fault:
        if isinstance(fault, FileNotFoundError) and absent is not None:
            return absent.splitlines(keepends=True)
        raise NotMerged(
            f"{path / name} cannot be read: {fault.strerror}; nothing was merged"
        ) from fault


def _held_to_heads(path: Path, entries: Sequence[Entry], read: Callable[[str], bytes]) -> None:
    """A line says nothing of its own hash: the next one does, and of the last the checkpoint."""
    try:
        text = read(HEADS).decode("utf-8")
    except (OSError, UnicodeDecodeError) as fault:
        raise NotMerged(
            f"{path}: its {HEADS} cannot be read, which says where each chain ends; "
            "nothing was merged"
        ) from fault
    said = set(text.splitlines()[1:])
    places = {entry.hash: place for place, entry in enumerate(entries, start=1)}
    for heads in tips(entries).values():
        for head in heads:
            line = f"{head.link.writer} {head.link.seq} {head.hash}"
            if line not in said:
                raise NotMerged(
                    f"{path}: {head.place}, {LINKS}, line {places[head.hash]}: no line after it "
                    f"and not {HEADS} names its hash; it was changed, or one was left out; "
                    "nothing was merged"
                )
            said.discard(line)
    if said:
        raise NotMerged(
            f"{path}: {HEADS} names {min(said)}, which is not there; nothing was merged"
        )


def _checked(path: Place, where: str, link: bytes, content: bytes | None) -> Entry:
    try:
        entry = read(link, None)
        where = f"{entry.number}, {where}"
        if content is not None and digest(content) != entry.link.content:
            raise BadLine("its content line does not give the hash its link was sealed with")
        return read(link, content)
    except BadLine as fault:
        raise NotMerged(f"{path}: {where}: {fault}; nothing was merged") from fault


def union(here: Sequence[Entry], others: Iterable[Sequence[Entry]]) -> Union:
    """Return what ``others`` add to ``here``. In any order, and again, the same is the sum."""
    every = {entry.hash: entry for entry in here}
    held = {entry.link.content for entry in here if entry.content_line is not None}
    links: dict[str, Entry] = {}
    contents: dict[str, Entry] = {}
    for other in others:
        for entry in other:
            if entry.hash not in every:
                links[entry.hash] = every[entry.hash] = entry
            if entry.content_line is not None and entry.link.content not in held:
                contents[entry.link.content] = every[entry.hash] = entry
                held.add(entry.link.content)
    known = numbered(every.values())
    return Union(
        tuple(links.values()),
        tuple(contents.values()),
        tuple(forks(known).values()),
        tuple(e for e in known if e.link.prev is not None and e.link.prev not in every),
    )


def merge(log: Log, others: Sequence[Handed], *, received: str, dry_run: bool = False) -> Merged:
    """
    Take in what ``others`` hold and this record does not: all of it, or nothing.

    Raises NotMerged (another site, a file that was changed) and LogFault.
    """
    if dry_run:
        return _merged(log, others, keep=False)
    with log.writing() as writing:
        # Read within the write lock: whoever posts at the same time waits, or was before.
        merged = _merged(log, others, keep=True)
        writing.take(merged.union.links, merged.union.contents, received=received)
    return merged


def _merged(log: Log, others: Sequence[Handed], *, keep: bool) -> Merged:
    here = log.entries()
    _one_site(log, here, others)
    found = union(here, [other.entries for other in others])
    files: list[str] = []
    absent: dict[str, None] = {}
    for other in others:
        for name in _named(other.entries):
            if _is_whole(log.files, name) or name in files:
                continue
            if _bring(other, log.files, name, keep=keep):
                files.append(name)
            else:
                absent[name] = None
    if keep:
        _bring_reserved(log.files, [*here, *found.links], found.contents, others)
    return Merged(found, tuple(files), tuple(name for name in absent if name not in files))


def _bring_reserved(
    to: Files, links: Sequence[Entry], contents: Sequence[Entry], others: Sequence[Handed]
) -> None:
    """Bring along what says what is reserved of the very contents that are lacking after this."""
    every = {entry.hash: entry for entry in (*links, *contents)}
    lacks = stubs(tuple(every.values()))
    if lacks is None or to.found(RESERVED, lacks) is not None:
        return
    for other in others:
        if (found := other.files.found(RESERVED, lacks)) is not None:
            if (proof := _proof(other, lacks)) is not None:
                to.put(PACKED, lacks, ".json", proof)
            to.put(RESERVED, lacks, found.suffix, found.data)
            return


def _proof(other: Handed, lacks: str) -> bytes | None:
    """Return what the bag was signed with: as a copy keeps it, or from round the bag's lines."""
    kept = other.files.found(PACKED, lacks)
    if kept is not None or not isinstance(other.files, Folder):
        return kept.data if kept else None
    bag = other.files.path.absolute().parent
    if not all((bag / name).is_file() for name in (MANIFEST, TAG_MANIFEST, KEY, SIGNATURE)):
        return None
    manifest, tags, key = (
        read_plain(bag / name).decode("utf-8", "backslashreplace")
        for name in (MANIFEST, TAG_MANIFEST, KEY)
    )
    return Proof(manifest, tags, key, read_plain(bag / SIGNATURE).hex()).written()


def _one_site(log: Log, here: Sequence[Entry], others: Sequence[Handed]) -> None:
    site = here[0].link.site if here else None
    for other in others:
        for entry in other.entries:
            site = site or entry.link.site
            if entry.link.site != site:
                raise NotMerged(
                    f"{other.name} is of {entry.link.site} ({entry.number}), and "
                    f"{log.place} of {site}; nothing was merged"
                )


def _named(entries: Iterable[Entry]) -> Iterator[str]:
    """Yield ``photos/<hash>`` for every file that entries name, once each."""
    names: dict[str, None] = {}
    for entry in entries:
        place, fields = NAMED.get(entry.content.kind if entry.content else "", ("", ()))
        body: Mapping[str, object] = entry.content.body if entry.content else {}
        for field in fields:
            sha256 = body.get(field)
            if isinstance(sha256, str) and _HASH.fullmatch(sha256):
                names[f"{place}/{sha256}"] = None
    return iter(names)


def _is_whole(files: Files, name: str) -> bool:
    place, _, sha256 = name.partition("/")
    found = files.found(place, sha256)
    return found is not None and found.sha256 == sha256


def _bring(other: Handed, to: Files, name: str, *, keep: bool) -> bool:
    """Copy one file, held against its hash. Returns whether the other copy has it."""
    place, _, sha256 = name.partition("/")
    try:
        found = other.files.found(place, sha256)
    except OSError as fault:
        raise LogFault(
            f"{fault.filename} cannot be read: {fault.strerror}; nothing was merged"
        ) from fault
    if found is None:
        return False
    if found.sha256 != sha256:
        raise NotMerged(
            f"{found.where} was changed: it is not what its name says; nothing was merged"
        )
    if keep:
        to.keep(place, found.data, found.suffix)
    return True
