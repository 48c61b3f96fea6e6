"""
What the record says in sentences, kept apart from its code, so that a translation is a folder.

    en.toml     what the code says, by key; a {name} is filled in where it stands
    names.toml  names that code goes by and that are printed as terms
    terms       what stands in the record's own tables (kinds, choices, sums, tasks), by its English

English is whole, and spoken when nobody says otherwise. ``speaking`` speaks another for a while:
whatever is worked out meanwhile is said in it. Faults of a command are not said here: they are
for whoever types, as the words of a sheet are.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from record.words.plural import form_of
from record.words.written import read_toml, read_words


@dataclass(frozen=True, slots=True)
class Words:
    """
    The sentences of one language by key, and its terms by their English.

    ``said`` is whole: what a translation lacks stands in it in English. ``own`` are the keys
    that it says itself.
    """

    code: str
    said: Mapping[str, str]
    terms: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    own: frozenset[str] = frozenset()

    def over(self, whole: Words) -> Words:
        """Return this language with another where it has nothing."""
        said = MappingProxyType({**whole.said, **self.said})
        return Words(self.code, said, self.terms, frozenset(self.said))

    def how_many(self, key: str, number: int) -> str:
        """Return what stands under ``key`` for a number, in the form the language has for it."""
        code = self.code if f"{key}.other" in self.own else "en"
        form = form_of(code, number)
        return self.said.get(f"{key}.{form}") or self.said[f"{key}.other"]


@cache
def english() -> Words:
    """Return the language that is whole."""
    return Words("en", read_words(files(__name__) / "en.toml", "record.toml"))


@cache
def names() -> tuple[str, ...]:
    """Return the names that stand in code and are printed as terms."""
    read = read_toml(files(__name__) / "names.toml", "names.toml")["names"]
    return tuple(map(str, read)) if isinstance(read, list) else ()


def spoken() -> Words:
    """Return the language that is spoken now."""
    return _spoken.get() or english()


@contextmanager
def speaking(one: Words) -> Iterator[None]:
    """Speak a language for as long as the block lasts."""
    before = _spoken.set(one)
    try:
        yield
    finally:
        _spoken.reset(before)


def tell(key: str, /, **put: object) -> str:
    """Return what stands under ``key`` in the language that is spoken, filled with ``put``."""
    return spoken().said[key].format_map(put)


def tell_how_many(key: str, number: int, /, **put: object) -> str:
    """Return what stands under ``key`` for so many, in the form the spoken language has for it."""
    return spoken().how_many(key, number).format_map({"number": number, **put})


def term(word: str) -> str:
    """Return a word of the record's tables in the language that is spoken, or as it is."""
    return spoken().terms.get(word, word)


_spoken: ContextVar[Words | None] = ContextVar("_spoken", default=None)
