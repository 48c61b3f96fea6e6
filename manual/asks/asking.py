"""What a chapter may ask of the record, and what it is told when it asks for what is not there.

A chapter names kinds and fields in the trade's words. A field that nobody declared stops the
build; a field that nobody recorded prints as "not recorded", with a blank to fill in by hand.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import get_close_matches
from typing import Any

from markupsafe import Markup

from manual.languages import term
from record.answers.saying import value_words
from record.facts.fields import OneOf
from record.facts.sizes import Measure
from record.facts.values import Absent, Value, Why
from record.fold import Happening, Thing, natural
from record.readers import View
from record.units import Dimension, in_both


class AskFault(Exception):
    """A chapter asked for something the record cannot have."""


class Answer:
    """One thing, part or happening, as a chapter sees it: its fields by name, in words."""

    def __init__(self, of: Thing | Happening) -> None:
        self._of = of

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        return self[name]

    def __getitem__(self, name: str) -> Any:
        of = self._of
        own = _OWN.get(name)
        if own is not None and hasattr(of, own):
            return getattr(of, own)
        if name == "parts" and isinstance(of, Thing):
            return [Answer(part) for part in of.parts]
        if name == "entries":
            return [entry.number for entry in of.entries()]
        field = of.kind.field(name)
        if field is None:
            names = [field.name for field in of.kind.fields]
            near = get_close_matches(name, names, 1, 0.5)
            hint = f'; did you mean "{near[0]}"?' if near else ""
            raise AskFault(f'a {of.kind.word} has no field "{name}"{hint}')
        dimension = field.holds.dimension if isinstance(field.holds, Measure) else None
        return Told(of.value(field.name), dimension, isinstance(field.holds, OneOf))

    def has(self, name: str) -> bool:
        """Return whether a value stands there, rather than one of the absences."""
        self[name]  # a name nobody declared is a fault here too
        return not isinstance(self._of.value(name.replace(" ", "_")), Absent)

    @property
    def thing(self) -> Thing | Happening:
        return self._of


_OWN = {"tag": "tag", "key": "key", "on": "on", "at": "at", "about": "about", "moment": "moment"}


class Told:
    """A value that knows how to be printed, and whether there is one."""

    def __init__(
        self, value: Value, dimension: Dimension | None, one_of_a_list: bool = False
    ) -> None:
        self.value = value
        self._dimension = dimension
        self._one_of_a_list = one_of_a_list

    def __bool__(self) -> bool:
        return not isinstance(self.value, Absent)

    def __eq__(self, other: object) -> bool:
        return self.value == (other.value if isinstance(other, Told) else other)

    __hash__ = None  # type: ignore[assignment]

    def __str__(self) -> str:
        """The crew's words, and both unit systems where something was measured."""
        value = self.value
        if isinstance(value, str) and self._one_of_a_list:
            return term(value)
        return value_words(value, self._dimension, in_both)

    def __iter__(self) -> Iterator[str]:
        return iter(self.value if isinstance(self.value, tuple) else ())

    @property
    def missing(self) -> bool:
        """Nobody recorded it, or what was recorded disagrees: a person must still find out."""
        return isinstance(self.value, Absent) and self.value.why in (
            Why.NOT_RECORDED,
            Why.NOT_SETTLED,
        )


class Record:
    """The record as chapters see it: ``record.of("valve")``, ``record.happened("tested")``."""

    def __init__(self, view: View) -> None:
        self._view = view
        self.reader = view.reader
        self.withheld = view.withheld

    def of(self, word: str) -> list[Answer]:
        """Return the things of a kind, by tag."""
        _known_kind(word)
        return [Answer(thing) for thing in self._view.built.of_kind(word)]

    def thing(self, tag: str) -> Answer:
        things = self._view.built.things
        if tag not in things:
            near = get_close_matches(tag, things, 1, 0.5)
            hint = f'; did you mean "{near[0]}"?' if near else ""
            raise AskFault(f'the record has no "{tag}"{hint}')
        return Answer(things[tag])

    def happened(self, *words: str) -> list[Answer]:
        for word in words:
            _known_kind(word)
        return [Answer(happening) for happening in self._view.built.happened(*words)]

    def about(self, tag: str, *words: str) -> list[Answer]:
        """Return what happened to a thing, of these kinds."""
        for word in words:
            _known_kind(word)
        return [Answer(happening) for happening in self._view.built.about(tag, *words)]

    def procedures(self, event: str) -> list[Answer]:
        return [p for p in self.of("procedure") if p.event == event]

    def tags(self) -> list[str]:
        return sorted(self._view.built.things, key=natural)


def _known_kind(word: str) -> None:
    from record.facts import KINDS

    if word not in KINDS:
        near = get_close_matches(word, KINDS, 1, 0.5)
        hint = f'; did you mean "{near[0]}"?' if near else ""
        raise AskFault(f'there is no kind of fact "{word}"{hint}')


#: As character references these are plain letters in Markdown (CommonMark 0.31, 6.2), in raw
#: HTML, where a backslash would be printed, and within an attribute's quotes.
_MARKS = {ord(mark): f"&#{ord(mark)};" for mark in "\\`*_{}[]()#+-.!|~^$:=<>&'\""}
_BREAKS = re.compile(r"[\r\n\v\f\x1c-\x1e\x85\u2028\u2029]+")


def in_markdown(value: object) -> Markup:
    """
    Return a value as it is put into a chapter: no letter of it can become mark-up.

    "Not recorded" and a disagreement get a blank beside them, for whoever finds out.
    """
    if isinstance(value, Markup):
        return value
    missing = isinstance(value, Told) and value.missing
    text = _BREAKS.sub(" ", str(value)).translate(_MARKS)
    return Markup(f'<span class="gap">{text}</span>') if missing else Markup(text)


def sentence(value: object) -> Markup:
    """Return a value with a full stop behind it, unless whoever wrote it ended it already."""
    ended = str(value).rstrip().endswith((".", "!", "?", "…"))
    return in_markdown(value) if ended else in_markdown(value) + Markup(".")
