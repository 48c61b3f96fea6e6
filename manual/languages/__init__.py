"""
The words of the manual, kept apart from its code: a language is a folder.

    words.toml      what the code itself says, by key; a {name} is filled in where it stands
    record.toml     what the record says, by the keys of record/words/en.toml
    terms.toml      words of the record's tables (kinds, choices, sums, tasks), from the English
    chapters/*.md   the chapters
    drafts/*.toml   the drafts of the emergency pages
    pages/*.jinja   pages by themselves: the brief to take along

What a folder lacks is said in English, which is whole; ``lacks`` tells what that is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from types import MappingProxyType

from manual.languages.terms import every_term
from record import words as record_words
from record.words import Words, term
from record.words.plural import FORMS, form_of
from record.words.written import LanguageFault, faults, read_toml, read_words

__all__ = [
    "Language",
    "LanguageFault",
    "english",
    "language",
    "plural",
    "say",
    "say_how_many",
    "shipped",
    "speaking",
    "spoken",
    "term",
]
CHAPTER = re.compile(r"\d\d-[a-z0-9-]+\.md")
#: A language tag as it stands in a page (BCP 47, RFC 5646): en, de, pt-BR.
CODE = re.compile(r"[a-z]{2,3}(-[A-Za-z0-9]{2,8})*")


@dataclass(frozen=True, slots=True)
class Language:
    """One language: its tag, and everything said in it, by name."""

    code: str
    says: Words
    record: Words
    chapters: Mapping[str, str]
    drafts: Mapping[str, str]
    pages: Mapping[str, str]
    lacks: tuple[str, ...] = ()  # what is said in English, because the folder does not have it

    @property
    def words(self) -> Mapping[str, str]:
        """What the manual says, by key."""
        return self.says.said


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
    """Speak a language for as long as the block lasts, the record's sentences as well."""
    before = _spoken.set(one)
    try:
        with record_words.speaking(one.record):
            yield
    finally:
        _spoken.reset(before)


def say(key: str, /, **put: object) -> str:
    """Return what stands under ``key`` in the language that is spoken, filled with ``put``."""
    return spoken().says.said[key].format_map(put)


def say_how_many(key: str, number: int, /, **put: object) -> str:
    """Return what stands under ``key`` for so many, in the form the spoken language has for it."""
    return spoken().says.how_many(key, number).format_map({"number": number, **put})


def plural(number: int, /, *, other: str, **forms: str) -> str:
    """Return, of the forms a chapter gives of a word, the one the spoken language has."""
    return forms.get(form_of(spoken().code, number), other)


_spoken: ContextVar[Language | None] = ContextVar("_spoken", default=None)


def _over(one: Language) -> Language:
    """Return a language with English where it has nothing. Raises LanguageFault."""
    whole = english()
    if found := tuple(_faults(one, whole)):
        raise LanguageFault("\n".join(found))
    return Language(
        one.code,
        one.says.over(whole.says),
        one.record.over(whole.record),
        MappingProxyType({**whole.chapters, **one.chapters}),
        MappingProxyType({**whole.drafts, **one.drafts}),
        MappingProxyType({**whole.pages, **one.pages}),
        tuple(_lacking(one, whole)),
    )


PARTS = ("chapters", "drafts", "pages")


def _lacking(one: Language, whole: Language) -> Iterator[str]:
    for what, mine, all_of_it in (
        ("words", one.says, whole.says),
        ("record", one.record, whole.record),
    ):
        counted = {_stem(key) for key in mine.said}  # its forms are its own, not those of English
        for key in all_of_it.said:
            if key not in mine.said and _stem(key) not in counted:
                yield f"{what}: {key}"
    for word, where in every_term().items():
        if word not in one.record.terms:
            yield f"terms: {word} ({where})"
    for what in PARTS:
        for name in getattr(whole, what):
            if name not in getattr(one, what):
                yield f"{what}: {name}"


def _stem(key: str) -> str:
    """Return the key of a number of things, of one of its forms; else the key itself."""
    stem, _, form = key.rpartition(".")
    return stem if form in FORMS else key


def _faults(one: Language, whole: Language) -> Iterator[str]:
    """Yield what a folder says that nobody asks for, and what it would leave out or cannot fill."""
    for file, mine, all_of_it in (
        ("words.toml", one.says, whole.says),
        ("record.toml", one.record, whole.record),
    ):
        yield from faults(mine.said, all_of_it.said, f"{one.code}/{file}", one.code)
    for word in one.record.terms:
        if word not in every_term():
            near = get_close_matches(word, every_term(), 1, 0.6)
            hint = f'; did you mean "{near[0]}"?' if near else "; take it out"
            yield f'{one.code}/terms.toml: the record has no term "{word}"{hint}'
    for what in PARTS:
        for name in getattr(one, what):
            if name not in getattr(whole, what):
                yield f"{one.code}/{what}/{name}: English has nothing of that name; take it out"


def _read(folder: Traversable, code: str) -> Language:
    terms = read_toml(folder / "terms.toml", f"{code}/terms.toml")
    own = record_words.english()
    if code != own.code:
        said = read_words(folder / "record.toml", f"{code}/record.toml")
        own = Words(code, said, MappingProxyType({k: str(v) for k, v in terms.items()}))
    return Language(
        code,
        Words(code, read_words(folder / "words.toml", f"{code}/words.toml")),
        own,
        MappingProxyType(_texts(folder / "chapters", CHAPTER)),
        MappingProxyType(_texts(folder / "drafts", re.compile(r"[a-z-]+\.toml"))),
        MappingProxyType(_texts(folder / "pages", re.compile(r"[a-z-]+\.html\.jinja"))),
    )


def _texts(folder: Traversable, name: re.Pattern[str]) -> dict[str, str]:
    if not folder.is_dir():
        return {}
    found = sorted((f for f in folder.iterdir() if name.fullmatch(f.name)), key=lambda f: f.name)
    return {f.name: f.read_text(encoding="utf-8") for f in found}
