"""What a record says of recalls themselves: notices, who was told, what was done, which copies."""

from __future__ import annotations

from collections.abc import Iterator

from record.entry import Entry
from record.fold import Happening, sight
from record.readers import View
from record.recall.values import Copy, Done, Notice, Told, listed


def notices(view: View) -> Iterator[Notice]:
    for one in view.built.happened("recall noticed"):
        yield Notice(
            notice=one.words("notice"),
            words=f"{one.words('what')}, by {one.words('from')}: {one.words('hazard')}; "
            f"to do: {one.words('to_do')}",
            lots=listed(one.text("lots") or ""),
            parts=listed(one.text("maker's_part") or ""),
            on=one.on,
            entry=one.entry.number,
        )


def told(view: View) -> Iterator[Told]:
    for one in view.built.happened("recall told"):
        answered = f", answered: {one.text('answered')}" if one.text("answered") else ""
        yield Told(
            notice=one.words("notice"),
            who=f"{one.words('told')}, {one.words('how')}{answered}",
            on=one.on,
            entry=one.entry.number,
        )


def done(view: View) -> Iterator[Done]:
    for one in view.built.happened("recall done"):
        yield Done(
            notice=one.words("notice"),
            tag=one.about,
            done=one.words("done"),
            found=one.text("found") or "",
            on=one.on,
            entry=one.entry.number,
        )


def copies(view: View) -> Iterator[Copy]:
    """Yield the newest edition in each holder's hands, and each reader's newest, with what stood
    in it of recalls when it was issued: by what it had seen, never by a clock."""
    issued = {
        (one.words("edition"), one.text("reader") or ""): one
        for one in view.built.happened("edition issued")
    }
    newest = {one.text("reader") or "": one for one in issued.values()}
    held: dict[tuple[str, str], tuple[Happening, Happening]] = {}
    for given in view.built.happened("copy handed over"):
        edition = issued.get((given.words("edition"), given.text("reader") or ""))
        if edition is not None:
            held[(given.words("handed_to"), given.text("reader") or "")] = (given, edition)
    known = _Known(view)
    for (holder, reader), (given, edition) in held.items():
        yield _copy(known, edition, reader, holder, (given.entry, edition.entry))
    for reader, edition in newest.items():
        if not any(of == reader for _, of in held):
            yield _copy(known, edition, reader, "not recorded", (edition.entry,))


class _Known:
    """Which entries about recalls an edition had seen."""

    def __init__(self, view: View) -> None:
        self._said = tuple(view.built.happened("recall noticed", "recall done"))
        self._seen = sight(view.built.entries) if self._said else None

    def by(self, edition: Happening) -> tuple[str, ...]:
        seen = self._seen
        if seen is None:
            return ()
        said = [entry for one in self._said for entry in one.entries()]
        return tuple(entry.number for entry in said if seen.saw(edition.entry, entry))


def _copy(
    known: _Known, edition: Happening, reader: str, holder: str, entries: tuple[Entry, ...]
) -> Copy:
    return Copy(
        edition=edition.words("edition"),
        reader=reader,
        holder=holder,
        knows=known.by(edition),
        entries=tuple(entry.number for entry in entries),
    )
