"""One record → its pieces: every place a lot goes in, what it holds, and what it held before."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from record.answers.isolations import where
from record.entry import Entry
from record.facts.values import Absent, from_json, in_words
from record.fold import Held, Mends, Thing, mends, sight
from record.readers import View
from record.recall.lots import PART, Lots, absent, lots_of, numbers, slots_of, words_of
from record.recall.notices import copies, done, notices, told
from record.recall.pieces_done import done_pieces
from record.recall.values import (
    Came,
    Piece,
    Site,
    Was,
    names_in,
)


def site_of(view: View) -> Site:
    """Return what a reader's view of one record says of lots."""
    built = view.built
    lots = tuple(lots_of(view))
    known = Lots({name: lot for lot in lots for name in lot.names})
    site = built.site_thing()
    pieces = (*_things(view, known), *done_pieces(view, known))
    named = {(piece.tag, name) for piece in pieces for name in piece.names}
    more = [one for one in _used_on(view, known) if (one.tag, one.names[0]) not in named]
    return Site(
        site=built.site,
        name=site.words("name") if site else "not recorded",
        pieces=(*pieces, *more),
        came=tuple(_came(view, known)),
        lots=lots,
        notices=tuple(notices(view)),
        told=tuple(told(view)),
        done=tuple(done(view)),
        copies=tuple(copies(view)),
        unread=tuple(sorted(view.unread)),
        missing=view.lacking,
    )


def _things(view: View, known: Lots) -> Iterator[Piece]:
    entries = view.built.entries
    mended = mends(entries, sight(entries))
    by_tag: dict[str, list[Entry]] = {}
    for entry in entries:
        if entry.content is not None:
            by_tag.setdefault(entry.content.about, []).append(entry)
    for whole in view.built.things.values():
        for thing in (whole, *whole.parts):
            for slot in slots_of(thing.kind):
                if slot in ("lot", "lots", PART) or thing.held(slot):
                    stated = by_tag.get(thing.tag, ())
                    yield _piece(
                        view,
                        known,
                        whole,
                        thing,
                        slot,
                        _before(view, thing, slot, stated, mended, known),
                    )


def _piece(
    view: View, known: Lots, whole: Thing, thing: Thing, slot: str, before: tuple[Was, ...]
) -> Piece:
    said = words_of(thing, slot)
    names = known.names(said)
    # The maker's part of a run is the pipe's, not that of what its joints were glued with.
    own = words_of(thing, PART) if slot in ("lot", PART) else ""
    parts = tuple(dict.fromkeys((*names_in(own), *known.parts(names))))
    type_ = (thing.text("type") or "") if thing.kind.field("type") else ""
    name = thing.text("name") if thing.kind.field("name") else None
    return Piece(
        tag=thing.tag,
        kind=thing.kind.word,
        type=type_,
        slot=slot.replace("_", " "),
        words=", ".join(filter(None, (thing.kind.word, type_, name))),
        where=_where(thing if thing.held("hull") or thing is whole else whole),
        lot=said,
        names=names if slot != PART else (),
        lot_absent=absent(thing, slot),
        part=own or ", ".join(known.parts(names)),
        parts=parts,
        part_absent="" if parts and not own else absent(thing, PART),
        entries=numbers(held.entry for each in (slot, PART) for held in thing.held(each))
        or numbers(thing.entries()),
        before=before,
        gone="taken out"
        if thing.kind.field("state") and thing.text("state") == "taken out"
        else "",
        moved=_moved(view, thing, slot),
    )


def _where(thing: Thing) -> str:
    on = thing.text("on_run") if thing.kind.field("on_run") else None
    said = where(thing)
    return f"on {on}, {said}" if on else said


def _before(
    view: View, thing: Thing, slot: str, entries: Sequence[Entry], mended: Mends, known: Lots
) -> tuple[Was, ...]:
    """Return what the slot was said to hold once and is not said to hold now."""
    held = thing.held(slot)
    now = {each.entry.hash for each in held}
    as_of = view.built.as_of
    found = []
    for entry in entries:
        content = entry.content
        if content is None or slot not in content.body or entry.hash in now:
            continue
        if entry.hash in mended.withdrawn_by or (as_of and content.on > as_of):
            continue
        value = from_json(content.body[slot])
        by = mended.replaced_by.get((entry.hash, slot), ()) or tuple(h.entry for h in held)
        if isinstance(value, Absent) or not by or by[-1].content is None:
            continue
        found.append(
            Was(
                said=in_words(value),
                names=known.names(in_words(value)),
                on=content.on,
                entry=entry.number,
                since=by[-1].content.on,
                by=by[-1].number,
                mended=not mended.stands(entry, slot),
            )
        )
    return tuple(found)


def _moved(view: View, thing: Thing, slot: str) -> str:
    """Say whether it was taken out after what is written of it."""
    held: Held | None = max(
        thing.held(slot) or thing.held("type"), key=lambda h: (h.on, h.entry.order), default=None
    )
    if held is None:
        return ""
    for one in view.built.about(thing.tag, "opened up"):
        after = (one.on, one.entry.order) > (held.on, held.entry.order)
        if one.about == thing.tag and one.text("what") == "taken out" and after:
            closed = f"; then {one.text('closed_again')}" if one.text("closed_again") else ""
            return f"taken out {one.moment} ({one.entry.number}){closed}"
    return ""


def _used_on(view: View, known: Lots) -> Iterator[Piece]:
    """Yield what a lot's own entry says it was used on."""
    for lot in view.built.of_kind("lot"):
        names = known.names(f"{lot.tag}, {lot.text('number') or ''}")
        for tag in lot.tags("used_on"):
            thing = view.built.thing(tag)
            yield Piece(
                tag=tag,
                kind="lot",
                type=lot.text("type") or "",
                slot="used on",
                words=f"{thing.kind.word if thing else 'thing'}: given {lot.words('product')}",
                where=_where(thing) if thing else "place not recorded",
                lot=lot.text("number") or lot.tag,
                names=names,
                lot_absent="",
                part=words_of(lot, PART),
                parts=names_in(words_of(lot, PART)),
                part_absent=absent(lot, PART),
                entries=numbers(held.entry for held in lot.held("used_on")),
            )


def _came(view: View, known: Lots) -> Iterator[Came]:
    for one in view.built.happened("delivered", "returned"):
        if one.text("lot"):
            yield Came(
                what=f"{one.words('what')}, {one.words('amount')}",
                names=known.names(one.words("lot")),
                back=one.kind.word == "returned",
                on=one.on,
                entry=one.entry.number,
                used_for=one.tags("used_for"),
            )
