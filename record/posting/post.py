"""Post a sheet: read, ask, compare, seal, append. One transaction; all of it or none."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from record.entry import Content, Entry, Replaces, seal, seen_heads
from record.facts import KINDS
from record.facts.values import Value, to_json
from record.fold import fold, mends, sight
from record.log import Log
from record.posting.again import compare, posted_before
from record.posting.asked import Known, ask, known, targets_of
from record.posting.clock import Clock, SaltSource, instant
from record.posting.narrow import narrow, narrower, readers_of_tags, with_drafts
from record.posting.photos import Picture, take_pictures
from record.posting.row_names import without_known_names
from record.posting.sense import sense
from record.posting.swapped import swap_faults
from record.sheets import Draft, Sheet, SheetFault, SheetRejected, Told, read_csv, read_sheet


@dataclass(frozen=True, slots=True)
class Posted:
    """What became of a sheet."""

    title: str
    recorded: tuple[Entry, ...]
    already: tuple[Entry, ...]
    vanished: tuple[Entry, ...]


def post(
    log: Log,
    name: str,
    data: bytes,
    *,
    folder: Path | None,
    clock: Clock,
    salt: SaltSource,
    table: Told | None = None,
) -> Posted:
    """
    Record a day sheet, or raise SheetRejected with every fault of it and record nothing.

    ``folder`` is where the sheet's pictures are looked for. A sheet posted again records what
    is new in it; if nothing is, nothing. A comma-separated ``table`` is told what its file does
    not say. Raises LogFault and OSError where the disk refuses.
    """
    sheet = read_csv(name, data, table) if table else read_sheet(name, data)
    with log.writing() as writing:
        # Read within the write lock: two at once must not both build on the same head.
        entries = log.entries()
        now = clock()
        record = _known(entries)
        drafts, pictures, faults = take_pictures(sheet, folder)
        faults += list(_time_faults(sheet, now, entries))
        before = posted_before(sheet, entries)
        drafts = tuple(without_known_names(drafts, record.built, before))
        compared = compare(sheet, drafts, before)
        faults += compared.faults
        # Asked of what is new: what was recorded once is not judged again.
        fresh = _only(sheet, compared.new)
        faults += ask(fresh, record)
        faults += _narrower_faults(fresh, record)
        if faults:
            raise SheetRejected(faults)
        if not compared.new:
            return Posted(sheet.title, (), compared.already, compared.vanished)
        sealed = tuple(_seal(_and_sheet(fresh, drafts), entries, record, now, salt))
        # Only now, with the sheet folded in, can it be asked whether it makes sense.
        after = fold((*entries, *sealed))
        if faults := [*sense(fresh, after), *swap_faults(fresh, after, sealed)]:
            raise SheetRejected(faults)
        _keep_files(log, sheet, pictures, ".csv" if table else ".md")
        writing.append(sealed, received=instant(now))
    return Posted(sheet.title, sealed, compared.already, compared.vanished)


class RecordGrew(Exception):
    """Entries came in between reading the record and recording what was made of it."""


def append_facts(
    log: Log,
    drafts_of: Sheet,
    *,
    clock: Clock,
    salt: SaltSource,
    made_of: Sequence[Entry] | None = None,
) -> tuple[Entry, ...]:
    """
    Record drafts the program itself made (an edition issued), with no sheet kept.

    An entry says it has seen all that is there when it is written. Give the entries that the
    drafts were ``made_of``: where others have come in since, RecordGrew is raised and nothing
    is recorded, or the entry would claim to know what it does not.
    """
    with log.writing() as writing:
        entries = log.entries()
        if made_of is not None:
            known_then = {entry.hash for entry in made_of}
            new = [entry.number for entry in entries if entry.hash not in known_then]
            if new:
                raise RecordGrew(f"recorded meanwhile: {', '.join(new)}")
        now = clock()
        sealed = tuple(_seal(drafts_of, entries, _known(entries), now, salt))
        writing.append(sealed, received=instant(now))
    return sealed


def _known(entries: Sequence[Entry]) -> Known:
    built = fold(entries)
    # As they are meant: a swapped tag is mended under its right name.
    return known(built, built.entries, mends(built.entries, sight(built.entries)))


def _only(sheet: Sheet, drafts: Sequence[Draft]) -> Sheet:
    return replace(sheet, drafts=tuple(drafts))


def _time_faults(sheet: Sheet, now: datetime, entries: Sequence[Entry]) -> Iterator[SheetFault]:
    zone = None
    if sheet.zone:
        try:
            zone = ZoneInfo(sheet.zone)
        except (ValueError, OSError, KeyError):
            yield sheet.text.fault(
                sheet.heading,
                f'"{sheet.zone}" is not a time zone',
                'Write one such as "America/Denver".',
            )
    today = now.astimezone(zone).date()
    if sheet.day and date.fromisoformat(sheet.day) > today:
        yield sheet.text.fault(
            sheet.heading,
            f"{sheet.day} is in the future; today is {today.isoformat()}",
            "Write the day the work was done.",
        )
    if entries and entries[0].link.site != sheet.site:
        yield sheet.text.fault(
            sheet.heading,
            f"this record is of {entries[0].link.site}, and the sheet of {sheet.site}",
            f'Write "- site: {entries[0].link.site}" if it is of this one; else post it to the '
            "record of its own site.",
        )


def _mended(draft: Draft, record: Known) -> tuple[Entry, ...]:
    return tuple(entry for number in draft.mends for entry in targets_of(number, record)[:1])


def _narrower_faults(sheet: Sheet, record: Known) -> Iterator[SheetFault]:
    of_tags = with_drafts(readers_of_tags(record.entries), sheet.drafts)
    for draft in sheet.drafts:
        found = narrower(draft, of_tags, _mended(draft, record))
        if found:
            entry, lost = found
            yield sheet.text.fault(
                draft.spot("#mends"),
                f"{', '.join(lost)} may see {entry.number} and could not see what mends it",
                "Say it without naming what they may not see, and without narrower readers; "
                "their copies would keep the old words.",
            )


def _keep_files(log: Log, sheet: Sheet, pictures: Sequence[Picture], suffix: str) -> None:
    log.files.keep("sheets", sheet.text.data, suffix)
    for picture in pictures:
        log.files.keep("photos", picture.data, picture.suffix)


def _and_sheet(sheet: Sheet, every: Sequence[Draft]) -> Sheet:
    """Add the entry that says which sheet these came from."""
    body: dict[str, Value] = {
        "name": sheet.text.name,
        "sha256": hashlib.sha256(sheet.text.data).hexdigest(),
    }
    if sheet.part:
        body["part"] = sheet.part
    told = Draft(
        kind=KINDS["sheet posted"],
        about=sheet.site,
        body=body,
        key="",
        heading=sheet.heading,
        lines=(),
    )
    return _only(sheet, (*sheet.drafts, told))


def _seal(
    sheet: Sheet, entries: Sequence[Entry], record: Known, now: datetime, salt: SaltSource
) -> Iterator[Entry]:
    head, seen = seen_heads(entries, sheet.writer)
    seq, prev = (head.link.seq, head.hash) if head else (0, None)
    of_tags = with_drafts(readers_of_tags(record.entries), sheet.drafts)
    for draft in sheet.drafts:
        seq += 1
        entry = seal(
            _content(sheet, draft, record, narrow(draft, of_tags, _mended(draft, record)), seen),
            site=sheet.site,
            writer=sheet.writer,
            seq=seq,
            recorded=instant(now),
            prev=prev,
            salt=salt(sheet.writer, seq),
        )
        prev = entry.hash
        yield entry


def _content(
    sheet: Sheet, draft: Draft, record: Known, readers: tuple[str, ...], seen: dict[str, str]
) -> Content:
    return Content(
        kind=draft.kind.stored,
        version=draft.kind.version,
        about=draft.about,
        on=sheet.day,
        at=draft.at,
        zone=sheet.zone,
        did=draft.did,
        saw=draft.saw,
        by=draft.by,
        readers=readers,
        seen=seen,
        body={name: to_json(value) for name, value in draft.body.items()},
        replaces=tuple(_replaces(draft, record)),
        because=draft.because,
        source=_source(sheet, draft),
    )


def _replaces(draft: Draft, record: Known) -> Iterator[Replaces]:
    fields = () if draft.kind.word == "withdrawn" else tuple(draft.body)
    for number in draft.mends:
        target = targets_of(number, record)[0]
        yield Replaces(target.hash, target.number, fields)


def _source(sheet: Sheet, draft: Draft) -> dict[str, object] | None:
    """Say where the entry came from: its own lines alone are hashed, never their neighbours."""
    if not draft.lines:
        return {"sheet": sheet.title, "line": 0, "key": draft.key}
    own = "".join(f"{sheet.text.lines[n - 1]}\n" for n in draft.lines)
    return {
        "sheet": sheet.title,
        "line": draft.lines[0],
        "key": draft.key,
        "sha256": hashlib.sha256(own.encode("utf-8")).hexdigest(),
    }
