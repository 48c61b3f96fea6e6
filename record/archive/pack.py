"""What of a record goes into a bag: every link, and of contents and files what its reader may see.

A content that is left out leaves its link, so that every chain still verifies. Its salt is in the
content line and goes nowhere else: whoever guesses the content cannot tell that they are right.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from record.archive.bag import PAYLOAD, BagFile, bagged
from record.archive.kinds import schemas
from record.archive.plain import plain_files
from record.archive.readme import readme
from record.archive.reserving import reserving
from record.archive.signatures import signatures
from record.archive.signing import signed as sealed_by
from record.entry import Entry, checkpoint, tips
from record.facts.kind import OWNER
from record.log import LogFault
from record.log.folder import Files
from record.log.kept import NAMED
from record.readers import View
from record.trust import Key, Standing, key_of_bag


@dataclass(frozen=True, slots=True)
class Packed:
    """
    A bag, and what became of the record in it.

    ``contents`` of ``entries`` say what they say; ``absent`` are files that entries name and the
    record itself does not hold. ``site`` is the name of the record, ``checkpoint`` its hash.
    """

    files: tuple[BagFile, ...]
    site: str
    reader: str
    checkpoint: str
    entries: int
    contents: int
    kept: int
    absent: tuple[str, ...]
    held_back: int = 0  # entries that whoever packed it chose to leave out
    signed_by: str = ""


def packed(view: View, files: Files, *, held_back: int = 0, key: Key | None = None) -> Packed:
    """
    Return the bag of what ``view`` shows, the same bytes for the same record, reader and key.

    ``held_back`` of its entries were taken out of it before, and the README says how many. With
    ``key`` all of it is signed.

    Raises LogFault where the record is empty, or a file of it was changed, or the copy would not
    know the key.
    """
    entries = sorted(view.built.entries, key=lambda e: (e.link.writer, e.link.seq, e.hash))
    if not entries:
        raise LogFault("the record is empty; there is nothing to pack")
    kept, absent = _kept(entries, files, view.reader)
    site = entries[0].link.site
    point = checkpoint(site, entries)
    contents = {e.link.content for e in entries if e.content_line is not None}
    signed = tuple(signatures(entries))
    reserved = tuple(reserving(view, entries, key.public if key else ""))
    signer = _signer(entries, key) if key else ""
    payload = [
        *(BagFile.of(PAYLOAD + name, data) for name, data in plain_files(entries)),
        *(BagFile.of(f"{PAYLOAD}schema/{word}.txt", page) for word, page in schemas()),
        *signed,
        *reserved,
        *kept,
    ]
    newest = max(entry.link.recorded for entry in entries)
    words = readme(
        site=site,
        reader=view.reader,
        checkpoint=point.hash,
        entries=len(entries),
        contents=len(contents),
        signed=bool(signed),
        recorded_to=newest,
        held_back=held_back,
        reserved=next((each.sha256 for each in reserved), ""),
        signer=signer,
    )
    bag = bagged([*payload, BagFile.of("README.txt", words)], _info(site, view.reader, newest))
    return Packed(
        sealed_by(bag, key) if key else bag,
        site,
        view.reader,
        point.hash,
        len(entries),
        len(contents),
        len(kept),
        absent,
        held_back,
        signer,
    )


def _signer(entries: Sequence[Entry], key: Key) -> str:
    """Return whose key it is. Raises LogFault where a signature by it would count for nothing."""
    counts = {writer: heads[0].link.seq for writer, heads in tips(entries).items()}
    of_key = key_of_bag(entries, key.public, counts)
    if of_key.standing is not Standing.GOOD or of_key.signer != key.writer:
        why = of_key.why or f"it is {of_key.signer}'s"
        raise LogFault(
            f"a signature by {key.writer} would count for nothing in this bag: {why}. Introduce "
            f"the key with `asburied writer {key.writer} --record`; nothing was packed"
        )
    return key.writer


def _info(site: str, reader: str, newest: str) -> Mapping[str, str]:
    """Return what stands in bag-info.txt; its day is the newest entry's, not today's."""
    return {
        "External-Identifier": " ".join(site.split()),
        "External-Description": f"The record of a buried shelter as it was built; copy: {reader}",
        "Bagging-Date": newest[:10],
        "Bag-Software-Agent": "asburied",
    }


def _kept(
    entries: Sequence[Entry], files: Files, reader: str
) -> tuple[tuple[BagFile, ...], tuple[str, ...]]:
    """Return the kept files that go along, and the names of those that nobody holds."""
    found, absent = [], []
    for name in dict.fromkeys(_named(entries, reader)):
        what, _, sha256 = name.partition("/")
        file = files.found(what, sha256)
        if file is None:
            absent.append(name)
            continue
        if file.sha256 != sha256:
            raise LogFault(f"{file.where} was changed: it is not what its name says; not packed")
        path = f"{PAYLOAD}{name}{file.suffix}"
        found.append(BagFile(path, len(file.data), sha256, _Again(files, what, sha256)))
    return tuple(found), tuple(absent)


@dataclass(frozen=True, slots=True)
class _Again:
    """Read a kept file when it is written, so that pictures are not all held at once."""

    files: Files
    what: str
    sha256: str

    def __call__(self) -> bytes:
        file = self.files.found(self.what, self.sha256)
        return b"" if file is None else file.data


def _named(entries: Iterable[Entry], reader: str) -> Iterator[str]:
    """Yield the files that entries name, but for editions of the manual for another reader."""
    for entry in entries:
        if entry.content is None or entry.content.kind not in NAMED:
            continue
        body = entry.content.body
        what, fields = NAMED[entry.content.kind]
        if what == "editions" and reader not in (OWNER, body.get("reader")):
            continue
        for field in fields:
            sha256 = body.get(field)
            if isinstance(sha256, str) and len(sha256) == 64:
                yield f"{what}/{sha256}"
