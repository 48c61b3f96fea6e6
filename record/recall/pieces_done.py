"""Pieces that something was used for as it was done: a coat, a weld, a filter at a service."""

from __future__ import annotations

from collections.abc import Iterator

from record.answers.isolations import where
from record.facts import KINDS, Sort
from record.fold import Happening
from record.readers import View
from record.recall.lots import Lots, absent, numbers, slots_of, words_of
from record.recall.values import Piece

SUBJECTS = ("layer", "weld", "task", "lift", "material", "what")


def done_pieces(view: View, known: Lots) -> Iterator[Piece]:
    """Yield a piece for each lot that something done used, and where none is stated that should."""
    kinds = [
        kind.word
        for kind in KINDS.values()
        if kind.sort is Sort.HAPPENING and any(True for _ in slots_of(kind))
    ]
    for one in view.built.happened(*kinds):
        for slot in slots_of(one.kind):
            if one.held(slot) or (one.kind.field(slot) or _NO).needed:
                yield _of_happening(view, known, one, slot)


_NO = KINDS["lot"].fields[-1]  # a field that need not be stated


def _of_happening(view: View, known: Lots, one: Happening, slot: str) -> Piece:
    batches = ", ".join(tag for name in ("batch", "batches") for tag in one.tags(name))
    said = ", ".join(filter(None, (words_of(one, slot), batches)))
    names = known.names(said)
    subject = next((one.words(name) for name in SUBJECTS if one.held(name)), "")
    coat = f" {one.words('coat')}" if one.held("coat") else ""
    tags = ", ".join(one.tags("tags")) or one.about
    thing = view.built.thing(one.about.partition("/")[0])
    return Piece(
        tag=tags,
        kind=one.kind.word,
        type="",
        slot=slot.replace("_", " "),
        words=f"{one.kind.word}: {subject}{coat}, {one.moment}",
        where=where(thing) if thing else "place not recorded",
        lot=said,
        names=names,
        lot_absent=absent(one, slot),
        part=", ".join(known.parts(names)),
        parts=known.parts(names),
        part_absent="" if known.parts(names) else "not recorded",
        entries=numbers(one.entries()),
        gone=_again(view, one, slot),
        doing=True,
    )


def _again(view: View, one: Happening, slot: str) -> str:
    """Say that the same task put something else in its place since: a filter changed again."""
    if one.kind.word != "serviced":
        return ""
    for other in view.built.about(one.about, "serviced"):
        same = other.about == one.about and other.words("task") == one.words("task")
        if same and (other.on, other.at or "") > (one.on, one.at or "") and other.text(slot):
            return f"renewed {other.moment} with {other.words(slot)} ({other.entry.number})"
    return ""
