"""One entry told in a line: when it was true, when it was written, what it says, what became
of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from record.entry import Entry
from record.facts import STORED, Sort
from record.facts.values import from_json, in_words
from record.fold import Mends

HIDDEN = ("sha256", "signature", "camera_time", "camera_direction", "camera_place")


@dataclass(frozen=True, slots=True)
class Struck:
    """A field of an entry that was mended or taken back: by which entry, and what it says now."""

    field: str
    by: str
    now: str | None  # None: taken back, or the mend says nothing of it


@dataclass(frozen=True, slots=True)
class ToldEntry:
    """One entry, and every entry that mends or withdraws it."""

    entry: Entry
    over: tuple[Entry, ...]
    withdrawn: bool
    struck: tuple[Struck, ...] = ()

    @property
    def kind(self) -> str:
        content = self.entry.content
        if content is None:
            return "withheld"
        kind = STORED.get(content.kind)
        return kind.word if kind else f"{content.kind} (unread)"

    @property
    def said(self) -> tuple[str, ...]:
        content = self.entry.content
        if content is None:
            return ()
        return tuple(
            f"{name.replace('_', ' ')}: {in_words(from_json(form))}"
            for name, form in content.body.items()
            if name not in HIDDEN
        )

    @property
    def lines(self) -> tuple[str, ...]:
        """What it says, field by field; what was struck is marked, with what it was mended to."""
        content = self.entry.content
        names = [n for n in content.body if n not in HIDDEN] if content else []
        return tuple(map(self._line, names, self.said))

    def _line(self, name: str, words: str) -> str:
        struck = [one for one in self.struck if one.field == name]
        if not struck:
            return words
        after = "; ".join(
            f"now {one.now} ({one.by})" if one.now is not None else f"taken back ({one.by})"
            for one in struck
        )
        return f"~ {words}   STRUCK: {after}"

    @property
    def people(self) -> str:
        return people_of(self.entry)

    def marks(self) -> list[str]:
        """Return what was mended by this entry, and what mended it."""
        content = self.entry.content
        marks = swap_marks(self.entry)
        if content and content.replaces:
            targets = ", ".join(
                f"{r.number} ({', '.join(f.replace('_', ' ') for f in r.fields)})"
                if r.fields
                else r.number
                for r in content.replaces
            )
            word = "withdraws" if content.kind == "withdrawn" else "mends"
            marks.append(f"{word} {targets}, because {content.because}")
        for by in self.over:
            why = by.content.because if by.content else "the reason is withheld"
            verb = "withdrawn" if by.content and by.content.kind == "withdrawn" else "mended"
            marks.append(f"{verb} by {by.number}, because {why}")
        return marks


ORDER_NOT_KNOWN = "order not known"


def no_order(entries: Iterable[Entry]) -> frozenset[str]:
    """
    Return the hashes of happenings without an hour, on a day with another of the same things.

    Of those nobody can say which came first; a day with one happening leaves nothing to ask.
    """
    days: dict[tuple[str, str], list[Entry]] = {}
    for entry in entries:
        content = entry.content
        kind = STORED.get(content.kind) if content else None
        if content and not content.replaces and kind and kind.sort is Sort.HAPPENING:
            days.setdefault((content.on, content.about.partition("/")[0]), []).append(entry)
    return frozenset(
        entry.hash
        for same in days.values()
        for entry in same
        if len(same) > 1 and entry.content and entry.content.at is None
    )


def swap_marks(entry: Entry) -> list[str]:
    """Return how an entry is read otherwise than it was written, and by which swap of tags."""
    swapped, content = entry.swapped, entry.content
    if swapped is None or content is None:
        return []
    numbers = ", ".join(by.number for by in swapped.by)
    doubt = "; it has no hour, so order not known" if swapped.doubt else ""
    if swapped.written.about != content.about:
        said = f"written of {swapped.written.about}; the tags were swapped, {numbers}"
    elif swapped.written != content:
        names = [n for n, form in content.body.items() if form != swapped.written.body.get(n)]
        was = "; ".join(
            f"{name.replace('_', ' ')} {in_words(from_json(swapped.written.body[name]))}"
            for name in names
        )
        said = f"written as {was}; the tags were swapped, {numbers}"
    else:
        said = f"read as written; its tags may have been swapped, {numbers}"
    return [f"{said}{doubt}"]


def people_of(entry: Entry) -> str:
    """Return who did it, who saw it and who answers for it, as far as that was written."""
    content = entry.content
    if content is None:
        return ""
    pairs = (("did", content.did), ("saw", content.saw), ("said", content.by))
    return ", ".join(f"{word} {who}" for word, who in pairs if who)


def tell_entry(entry: Entry, mended: Mends) -> ToldEntry:
    return ToldEntry(
        entry,
        mended.over(entry),
        entry.hash in mended.withdrawn_by,
        tuple(_struck(entry, mended)),
    )


def _struck(entry: Entry, mended: Mends) -> Iterator[Struck]:
    """
    Yield each field that does not stand, once for every entry that says what holds in its place.

    A mend that was mended again is passed over for the one that mended it. What a mend only says
    again, such as the name of a station, is not struck.
    """
    for name, form in entry.content.body.items() if entry.content else ():
        if mended.stands(entry, name):
            continue
        for by in mended.withdrawn_by.get(entry.hash, ()):
            yield Struck(name, by.number, None)
        for by in {one.hash: one for one in _last(entry, name, mended, {entry.hash})}.values():
            said = by.content.body.get(name) if by.content else None
            if said == form:
                continue
            yield Struck(name, by.number, None if said is None else in_words(from_json(said)))


def _last(entry: Entry, name: str, mended: Mends, met: set[str]) -> Iterator[Entry]:
    """Yield what mends a field of an entry, each followed to the mend that nothing mends again."""
    over = (
        *mended.replaced_by.get((entry.hash, name), ()),
        *mended.replaced_by.get((entry.hash, ""), ()),
    )
    for by in over:
        if by.hash in met:
            continue
        again = list(_last(by, name, mended, {*met, by.hash}))
        yield from again or [by]


def told_form(told: ToldEntry) -> Mapping[str, Any]:
    """Return an entry for programs, its body as it stands in the line."""
    content, link = told.entry.content, told.entry.link
    form: dict[str, Any] = {
        "entry": told.entry.number,
        "hash": told.entry.hash,
        "writer": link.writer,
        "recorded": link.recorded,
        "kind": told.kind,
    }
    if content is None:
        return form
    swapped = told.entry.swapped
    return {
        **form,
        "about": content.about,
        "written_of": swapped.written.about if swapped else content.about,
        "swapped_by": [by.number for by in swapped.by] if swapped else [],
        "on": content.on,
        "at": content.at,
        "did": content.did,
        "saw": content.saw,
        "by": content.by,
        "body": dict(content.body),
        "mends": [{"entry": r.number, "fields": list(r.fields)} for r in content.replaces],
        "because": content.because,
        "mended_by": [entry.number for entry in told.over],
        "withdrawn": told.withdrawn,
        "struck": [
            {"field": one.field, "by": one.by, "now": one.now}
            for one in told.struck
            if one.field not in HIDDEN
        ],
    }
