"""
The words of the manual, kept apart from its code: a language is a folder.

    words.toml      what the code itself says, by key; a {name} is filled in where it stands
    terms.toml      words of the record (kinds, choices, "not recorded"), from the English
    chapters/*.md   the chapters
    drafts/*.toml   the drafts of the emergency pages
    pages/*.jinja   pages by themselves: the brief to take along

What a folder lacks is said in English, which is whole; ``lacks`` tells what that is.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from string import Formatter
from types import MappingProxyType

CHAPTER = re.compile(r"\d\d-[a-z0-9-]+\.md")
#: A language tag as it stands in a page (BCP 47, RFC 5646): en, de, pt-BR.
CODE = re.compile(r"[a-z]{2,3}(-[A-Za-z0-9]{2,8})*")


class LanguageFault(Exception):
    """A language cannot be spoken; the text says which file and what to write."""


@dataclass(frozen=True, slots=True)
class Language:
    """One language: its tag, and everything said in it, by name."""

    code: str
    words: Mapping[str, str]
    terms: Mapping[str, str]
    chapters: Mapping[str, str]
    drafts: Mapping[str, str]
    pages: Mapping[str, str]
    lacks: tuple[str, ...] = ()  # what is said in English, because the folder does not have it


@cache
def english() -> Language:
    """Return the language that is whole."""
    return _read(files(__name__) / "en", "en")


def shipped() -> tuple[str, ...]:
    """Return the tags of the languages that come with the program."""
    return tuple(
        sorted(f.name for f in files(__name__).iterdir() if f.is_dir() and CODE.fullmatch(f.name))
    )


def language(asked: str) -> Language:
    """
    Return a language by its tag, or by the path of a folder that is named by one.

    Raises LanguageFault.
    """
    if asked in shipped():
        return english() if asked == "en" else _over(_read(files(__name__) / asked, asked))
    folder = Path(asked)
    if not folder.is_dir():
        raise LanguageFault(
            f'there is no language "{asked}"; there is {", ".join(shipped())}, or name a folder '
            "that holds words.toml, such as translations/de"
        )
    if not CODE.fullmatch(folder.name):
        raise LanguageFault(
            f'{folder}: "{folder.name}" is no language tag; name the folder such as de or pt-BR'
        )
    return _over(_read(folder, folder.name))


def spoken() -> Language:
    """Return the language that is spoken now."""
    return _spoken.get() or english()


@contextmanager
def speaking(one: Language) -> Iterator[None]:
    """Speak a language for as long as the block lasts."""
    before = _spoken.set(one)
    try:
        yield
    finally:
        _spoken.reset(before)


def say(key: str, /, **put: object) -> str:
    """Return what stands under ``key`` in the language that is spoken, filled with ``put``."""
    return spoken().words[key].format_map(put)


def say_how_many(key: str, number: int, /, **put: object) -> str:
    """Return what stands under ``key.one`` for 1, else under ``key.more``."""
    return say(f"{key}.one" if number == 1 else f"{key}.more", number=number, **put)


def term(word: str) -> str:
    """Return a word of the record in the language that is spoken, or as it is."""
    return spoken().terms.get(word, word)


_spoken: ContextVar[Language | None] = ContextVar("_spoken", default=None)


def _over(one: Language) -> Language:
    """Return a language with English where it has nothing. Raises LanguageFault."""
    whole = english()
    if faults := tuple(_faults(one, whole)):
        raise LanguageFault("\n".join(faults))
    return Language(
        one.code,
        MappingProxyType({**whole.words, **one.words}),
        one.terms,
        MappingProxyType({**whole.chapters, **one.chapters}),
        MappingProxyType({**whole.drafts, **one.drafts}),
        MappingProxyType({**whole.pages, **one.pages}),
        tuple(f"{what}: {name}" for what, name in _names(whole) if name not in getattr(one, what)),
    )


def _names(one: Language) -> Iterator[tuple[str, str]]:
    for what in ("words", "chapters", "drafts", "pages"):
        yield from ((what, name) for name in getattr(one, what))


def _faults(one: Language, whole: Language) -> Iterator[str]:
    """Yield what a folder says that nobody asks for, and what it would leave out or cannot fill."""
    for what, name in _names(one):
        place = f"{one.code}/words.toml: {name}" if what == "words" else f"{one.code}/{what}/{name}"
        if name not in getattr(whole, what):
            yield f"{place}: English has nothing of that name; take it out"
        elif what == "words" and _slots(one.words[name]) != _slots(whole.words[name]):
            yield (
                f"{place} puts in {_named(one.words[name])}; write it with "
                f"{_named(whole.words[name])}, as English does"
            )


def _slots(words: str) -> frozenset[str]:
    return frozenset(name for _, name, _, _ in Formatter().parse(words) if name is not None)


def _named(words: str) -> str:
    return ", ".join(f"{{{name}}}" for name in sorted(_slots(words))) or "nothing"


def _read(folder: Traversable, code: str) -> Language:
    return Language(
        code,
        MappingProxyType(dict(_flat(_toml(folder / "words.toml", code)))),
        MappingProxyType({k: str(v) for k, v in _toml(folder / "terms.toml", code).items()}),
        MappingProxyType(_texts(folder / "chapters", CHAPTER)),
        MappingProxyType(_texts(folder / "drafts", re.compile(r"[a-z-]+\.toml"))),
        MappingProxyType(_texts(folder / "pages", re.compile(r"[a-z-]+\.html\.jinja"))),
    )


def _toml(file: Traversable, code: str) -> dict[str, object]:
    if not file.is_file():
        return {}
    try:
        return tomllib.loads(file.read_text(encoding="utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as fault:
        raise LanguageFault(f"{code}/{file.name}: {fault}") from fault


def _flat(held: Mapping[str, object], under: str = "") -> Iterator[tuple[str, str]]:
    for name, value in held.items():
        if isinstance(value, Mapping):
            yield from _flat(value, f"{under}{name}.")
        else:
            yield f"{under}{name}", str(value)


def _texts(folder: Traversable, name: re.Pattern[str]) -> dict[str, str]:
    if not folder.is_dir():
        return {}
    found = sorted((f for f in folder.iterdir() if name.fullmatch(f.name)), key=lambda f: f.name)
    return {f.name: f.read_text(encoding="utf-8") for f in found}
