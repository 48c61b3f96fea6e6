"""One thing as it stands: every field, what it holds, and the entry it rests on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from record.accounts.proof_words import form, proof_lines
from record.accounts.proofs import STANDS, Proof, proofs
from record.answers.found import find_thing
from record.answers.history import chain_form
from record.answers.saying import value_words
from record.answers.told import people_of, swap_marks
from record.facts.sizes import Measure
from record.facts.values import Value, to_json
from record.fold import Held, Stated, Thing
from record.fold.looks import Chain, chains
from record.readers import View


@dataclass(frozen=True, slots=True)
class ShownField:
    """One field: the statements it holds. More than one that differ are not settled."""

    name: str
    words: str
    held: tuple[Held, ...]
    settled: bool


@dataclass(frozen=True, slots=True)
class Shown:
    """One thing; ``parts`` are its stations, layers, steps or contents."""

    tag: str
    kind: str
    fields: tuple[ShownField, ...]
    not_recorded: tuple[str, ...]  # needed fields of which nobody wrote a word
    parts: tuple[Shown, ...]
    unread: tuple[str, ...]  # entries about it that this version cannot read
    why_unread: tuple[str, ...] = ()  # and why, one for each
    chains: tuple[Chain, ...] = ()  # what failed, was repaired, and passed again
    lapsed: tuple[Proof, ...] = ()  # tests of it that passed and prove nothing now


def show(view: View, tag: str) -> Shown:
    """Return a thing, or a part of one (``AIR-IN/2``), as it stands. Raises NotFound."""
    thing = find_thing(view, tag)
    return replace(
        _shown(view, thing),
        chains=tuple(chains(view.built, tag)),
        lapsed=tuple(one for one in proofs(view, tag) if one.state != STANDS),
    )


def _shown(view: View, thing: Thing) -> Shown:
    fields = tuple(
        ShownField(
            name=name.replace("_", " "),
            words=said(thing, name),
            held=held,
            settled=name not in thing.unsettled(),
        )
        for name, held in thing.fields.items()
    )
    unread = [
        u
        for u in view.built.unread
        if u.entry.content and u.entry.content.about.partition("/")[0] == thing.tag
    ]
    return Shown(
        tag=thing.tag,
        kind=thing.kind.word,
        fields=fields,
        not_recorded=tuple(f.key for f in thing.kind.fields if f.needed and not thing.held(f.name)),
        parts=tuple(_shown(view, part) for part in thing.parts),
        unread=tuple(u.entry.number for u in unread),
        why_unread=tuple(u.why for u in unread),
    )


def said(stated: Stated, name: str) -> str:
    """Return a field in words; measured values in both unit systems."""
    kind = getattr(stated, "kind", None)
    field = kind.field(name) if kind else None
    dimension = field.holds.dimension if field and isinstance(field.holds, Measure) else None
    return value_words(stated.value(name), dimension)


def show_words(shown: Shown) -> list[str]:
    """Return a thing in lines of plain text."""
    lapsed = (f"  {line}" for one in shown.lapsed for line in proof_lines(one))
    return [*_lines(shown, ""), *(f"  {chain.words}" for chain in shown.chains), *lapsed]


def _lines(shown: Shown, indent: str) -> Iterator[str]:
    yield f"{indent}{shown.tag}: {shown.kind}"
    for number, why in zip(shown.unread, shown.why_unread, strict=False):
        yield f"{indent}  {number} is about it too, and cannot be read for sure: {why}"
    width = max((len(field.name) for field in shown.fields), default=0)
    for field in shown.fields:
        numbers = ", ".join(held.entry.number for held in field.held)
        days = ", ".join(dict.fromkeys(_moment(held) for held in field.held))
        people = dict.fromkeys(said for held in field.held if (said := people_of(held.entry)))
        marks = dict.fromkeys(mark for held in field.held for mark in swap_marks(held.entry))
        who, swapped = ("".join(f"; {each}" for each in said) for said in (people, marks))
        worked = "".join(f"; {each}" for each in _worked(field))
        rests_on = f"({numbers}, {days}{who}{swapped}{worked})"
        yield f"{indent}  {field.name:{width}}  {field.words}   {rests_on}"
    for name in shown.not_recorded:
        yield f"{indent}  {name:{width}}  not recorded"
    for part in shown.parts:
        yield from _lines(part, indent + "  ")


def _worked(field: ShownField) -> list[str]:
    """Return how a value that nobody wrote was worked from readings."""
    return list(dict.fromkeys(held.worked for held in field.held if held.worked))


def _moment(held: Held) -> str:
    return f"{held.on} {held.at}" if held.at else held.on


def show_form(shown: Shown) -> Mapping[str, Any]:
    """
    Return a thing for programs: ``tag``, ``kind``, ``fields``, ``not_recorded``, ``parts``.

    A field has ``held``: a list of ``value`` (as in an entry line, SI), ``on``, ``at`` and
    ``entry``; ``settled``; and ``worked``, how a value that nobody wrote was worked.
    """
    return {
        "tag": shown.tag,
        "kind": shown.kind,
        "fields": {
            field.name: {
                "words": field.words,
                "settled": field.settled,
                "worked": "; ".join(_worked(field)),
                "held": [
                    {
                        "value": _json(held.value),
                        "on": held.on,
                        "at": held.at,
                        "entry": held.entry.number,
                        "writer": held.entry.link.writer,
                        **_people(held),
                        "swapped": swap_marks(held.entry),
                    }
                    for held in field.held
                ],
            }
            for field in shown.fields
        },
        "not_recorded": list(shown.not_recorded),
        "unread": list(shown.unread),
        "parts": [show_form(part) for part in shown.parts],
        "chains": [chain_form(chain) for chain in shown.chains],
        "lapsed": [form(one) for one in shown.lapsed],
    }


def _people(held: Held) -> Mapping[str, str | None]:
    content = held.entry.content
    return {name: getattr(content, name, None) for name in ("did", "saw", "by")}


def _json(value: Value) -> Any:
    try:
        return to_json(value)
    except TypeError:
        return str(value)


__all__ = ["Shown", "ShownField", "said", "show", "show_form", "show_words"]
