"""One record → its pieces: every place a lot goes in, what it holds, and what it held before."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from record.answers.isolations import where
from record.entry import Entry
from record.facts import KINDS, Kind, Sort
from record.facts.values import Absent, Why, from_json, in_words
from record.fold import Happening, Held, Mends, Stated, Thing, mends, sight
from record.readers import View
from record.recall.notices import copies, done, notices, told
from record.recall.values import (
    Came,
    LotOf,
    Piece,
    Site,
    Was,
    names_in,
)

SLOTS = (
    "lot",
    "lots",
    "seal_lot",
    "joint_lot",
    "filler_lot",
    "filler_lots",
    "consumables_lot",
    "packing_lot",
)
PART = "maker's_part"
#: Kinds that name a lot without being a place that it went in.
NO_PLACE = ("lot", "batch", "expected", "delivered", "returned", "recall noticed")
SUBJECTS = ("layer", "weld", "task", "lift", "material", "what")


@dataclass(frozen=True, slots=True)
class _Lots:
    """The lots that have entries of their own, by every name; batches are mixed of lots."""

    of: Mapping[str, LotOf] = field(default_factory=dict)

    def names(self, text: str) -> tuple[str, ...]:
        said = names_in(text)
        more = (name for each in said if each in self.of for name in self.of[each].names)
        return tuple(dict.fromkeys((*said, *more)))

    def parts(self, names: Iterable[str]) -> tuple[str, ...]:
        found = (part for name in names if name in self.of for part in self.of[name].parts)
        return tuple(dict.fromkeys(found))


def site_of(view: View) -> Site:
    """Return what a reader's view of one record says of lots."""
    built = view.built
    lots = tuple(_lots(view))
    known = _Lots({name: lot for lot in lots for name in lot.names})
    site = built.site_thing()
    pieces = (*_things(view, known), *_happenings(view, known))
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


def _lots(view: View) -> Iterator[LotOf]:
    own: dict[str, LotOf] = {}
    for lot in view.built.of_kind("lot"):
        said = (lot.tag, lot.text("number") or "")
        names = tuple(dict.fromkeys(name for text in said for name in names_in(text)))
        parts = names_in(lot.text(PART) or "")
        one = LotOf(names=names, parts=parts, entry=_numbers(lot.entries())[0])
        own.update(dict.fromkeys(names, one))
        yield one
    for batch in view.built.of_kind("batch"):
        names = _Lots(own).names(batch.text("lots") or "")
        parts = _Lots(own).parts(names)
        entry = _numbers(batch.entries())[0]
        yield LotOf(names=(*names_in(batch.tag), *names), parts=parts, entry=entry)


def _slots(kind: Kind) -> Iterator[str]:
    """Yield the fields of a kind that each hold a lot of their own."""
    if kind.word not in NO_PLACE:
        found = [name for name in SLOTS if kind.field(name)]
        yield from found or ([PART] if kind.field(PART) else [])


def _things(view: View, known: _Lots) -> Iterator[Piece]:
    entries = view.built.entries
    mended = mends(entries, sight(entries))
    by_tag: dict[str, list[Entry]] = {}
    for entry in entries:
        if entry.content is not None:
            by_tag.setdefault(entry.content.about, []).append(entry)
    for whole in view.built.things.values():
        for thing in (whole, *whole.parts):
            for slot in _slots(thing.kind):
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
    view: View, known: _Lots, whole: Thing, thing: Thing, slot: str, before: tuple[Was, ...]
) -> Piece:
    said = _said(thing, slot)
    names = known.names(said)
    # The maker's part of a run is the pipe's, not that of what its joints were glued with.
    own = _said(thing, PART) if slot in ("lot", PART) else ""
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
        lot_absent=_absent(thing, slot),
        part=own or ", ".join(known.parts(names)),
        parts=parts,
        part_absent="" if parts and not own else _absent(thing, PART),
        entries=_numbers(held.entry for each in (slot, PART) for held in thing.held(each))
        or _numbers(thing.entries()),
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


def _said(stated: Stated, name: str) -> str:
    """Return what a field holds, in words: all of it, where two statements differ."""
    held = [each.value for each in stated.held(name) if not isinstance(each.value, Absent)]
    return ", ".join(dict.fromkeys(in_words(value) for value in held))


def _absent(stated: Stated, name: str) -> str:
    value = stated.value(name)
    if not isinstance(value, Absent):
        return ""
    return "not settled" if value.why is Why.NOT_SETTLED else in_words(value)


def _before(
    view: View, thing: Thing, slot: str, entries: Sequence[Entry], mended: Mends, known: _Lots
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


def _happenings(view: View, known: _Lots) -> Iterator[Piece]:
    kinds = [
        kind.word
        for kind in KINDS.values()
        if kind.sort is Sort.HAPPENING and any(True for _ in _slots(kind))
    ]
    for one in view.built.happened(*kinds):
        for slot in _slots(one.kind):
            if one.held(slot) or (one.kind.field(slot) or _NO).needed:
                yield _of_happening(view, known, one, slot)


_NO = KINDS["lot"].fields[-1]  # a field that need not be stated


def _of_happening(view: View, known: _Lots, one: Happening, slot: str) -> Piece:
    batches = ", ".join(tag for name in ("batch", "batches") for tag in one.tags(name))
    said = ", ".join(filter(None, (_said(one, slot), batches)))
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
        lot_absent=_absent(one, slot),
        part=", ".join(known.parts(names)),
        parts=known.parts(names),
        part_absent="" if known.parts(names) else "not recorded",
        entries=_numbers(one.entries()),
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


def _used_on(view: View, known: _Lots) -> Iterator[Piece]:
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
                part=_said(lot, PART),
                parts=names_in(_said(lot, PART)),
                part_absent=_absent(lot, PART),
                entries=_numbers(held.entry for held in lot.held("used_on")),
            )


def _came(view: View, known: _Lots) -> Iterator[Came]:
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


def _numbers(entries: Iterable[Entry]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(entry.number for entry in entries))
