"""Issue an edition: build it, keep its files by their hashes, and record that it was issued."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from manual.bound.editions import ENGLISH, Edition, editions, last_for, since
from manual.build import Built, Progress, build, suffix
from manual.languages import spoken
from manual.plans.photos import Kept
from manual.plans.reuse import shelf_of
from record.entry import WRITER, Entry
from record.facts import KINDS
from record.facts.values import Value
from record.log import Log
from record.posting import Clock, RecordGrew, SaltSource, append_facts
from record.reserved import carried_in
from record.sheets import Draft, Sheet, SheetText
from record.sheets.lines import Piece


class NothingNew(Exception):
    """Nothing was recorded since the last edition, so a new one would say the same."""


class NotIssued(Exception):
    """The edition cannot be issued; the text says why."""


@dataclass(frozen=True, slots=True)
class Issued:
    """An edition that went out: its entry, what it was built of, and its number."""

    entry: Entry
    built: Built

    @property
    def number(self) -> int:
        return self.built.book.edition


def issue(
    log: Log,
    *,
    writer: str,
    reader: str,
    clock: Clock,
    salt: SaltSource,
    progress: Progress = lambda number, words: None,
    again: bool = False,
    today: Callable[[], str],
) -> Issued:
    """
    Build the next edition for ``reader``, keep its files, and record it by ``writer``.

    Raises NothingNew where the last edition says all there is (unless ``again``), NotIssued,
    ChapterFault, PressFault, LogFault.
    """
    progress(1, "read")
    if not WRITER.fullmatch(writer):
        raise NotIssued(f'"{writer}" is not a writer; write a few small letters, such as of')
    entries = log.entries()
    if not entries:
        raise NotIssued("the record is empty; `asburied blank site TAG` prints its first sheet")
    before = last_for(editions(entries), reader, spoken().code)
    if before and not again and not since(entries, before):
        raise NothingNew(f"nothing was recorded since edition {before.number}, which stands")
    with shelf_of(log):
        built = build(
            entries,
            reader=reader,
            kept=kept_photos(log),
            progress=progress,
            packed=carried_in(log.files, entries),
        )
    for name, data in built.files().items():
        log.files.keep("editions", data, suffix(name))
    sheet = _sheet(built, before, writer, today())
    try:
        entry = append_facts(log, sheet, clock=clock, salt=salt, made_of=entries)[0]
    except RecordGrew as fault:
        raise NotIssued(f"{fault}. Issue it again, so that they are in it") from fault
    return Issued(entry, built)


def kept_photos(log: Log) -> Kept:
    """Return what gives the bytes of a photo that the record holds, whole and as it came."""

    def kept(sha256: str) -> bytes | None:
        found = log.files.found("photos", sha256)
        return found.data if found and found.sha256 == sha256 else None

    return kept


def _sheet(built: Built, before: Edition | None, writer: str, day: str) -> Sheet:
    """Return the entry to be, in the form that posting takes."""
    book = built.book
    site = book.point.site
    body: dict[str, Value] = {
        "edition": book.edition,
        "supersedes": str(before.number) if before else "none",
        "reader": book.view.reader,
        "recorded_to": book.recorded_to,
        "checkpoint": book.point.hash,
        **built.hashes(),
        "program": book.version,
    }
    if spoken().code != ENGLISH:
        body["language"] = spoken().code
    nowhere = Piece("", 0, 0)
    draft = Draft(kind=KINDS["edition issued"], about=site, body=body, heading=nowhere, lines=())
    return Sheet(
        text=SheetText("manual issue", b"", ()),
        day=day,
        writer=writer,
        part=f"edition-{book.edition}",
        site=site,
        zone=book.zone,
        heading=nowhere,
        drafts=(draft,),
    )
