"""Files of words: read, flattened to keys, and held against the English ones."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from importlib.resources.abc import Traversable
from string import Formatter
from types import MappingProxyType

from record.words.plural import FORMS, forms


class LanguageFault(Exception):
    """A language cannot be spoken; the text says which file and what to write."""


def read_words(file: Traversable, place: str) -> Mapping[str, str]:
    """Return a TOML file's words by key, tables joined with dots; none if there is no file."""
    return MappingProxyType(dict(_flat(read_toml(file, place))))


def read_toml(file: Traversable, place: str) -> dict[str, object]:
    """Return what a TOML file holds; nothing if there is none. Raises LanguageFault."""
    if not file.is_file():
        return {}
    try:
        return tomllib.loads(file.read_text(encoding="utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as fault:
        raise LanguageFault(f"{place}: {fault}") from fault


def _flat(held: Mapping[str, object], under: str = "") -> Iterator[tuple[str, str]]:
    for name, value in held.items():
        if isinstance(value, Mapping):
            yield from _flat(value, f"{under}{name}.")
        else:
            yield f"{under}{name}", str(value)


def faults(own: Mapping[str, str], whole: Mapping[str, str], place: str, code: str) -> list[str]:
    """
    Return what is wrong with a translation's words: place, what, and what to write instead.

    A key English does not have; a sentence that would leave out or cannot fill what is put into
    it; a number of things without one of the forms the language has.
    """
    found = [fault for key in own for fault in _fault(own, whole, key, place, code)]
    counted = dict.fromkeys(_counted(key, whole) for key in own)
    return found + [
        f"{place}: {key}.{form} is missing; {code} has the forms {', '.join(forms(code))}"
        for key in counted
        if key
        for form in forms(code)
        if f"{key}.{form}" not in own
    ]


def _fault(
    own: Mapping[str, str], whole: Mapping[str, str], key: str, place: str, code: str
) -> Iterator[str]:
    counted = _counted(key, whole)
    if counted and key.rpartition(".")[2] not in forms(code):
        yield f"{place}: {key}: {code} has no such form, only {', '.join(forms(code))}"
    if key not in whole and not counted:
        yield f"{place}: {key}: English has nothing of that name; take it out"
        return
    like = key if key in whole else f"{counted}.other"
    try:
        said = slots(own[key])
    except ValueError as fault:
        yield f"{place}: {key}: {fault}; a brace that stands for itself is doubled"
        return
    wanted = slots(whole[like])
    free = {"number"} if counted else set()  # "one day" needs no figure
    if said ^ wanted and not (counted and said ^ wanted <= free):
        yield f"{place}: {key} puts in {_named(said)}; write it with {_named(wanted)}, " + (
            "as English does"
        )


def _counted(key: str, whole: Mapping[str, str]) -> str:
    """Return the key of a number of things that a form's key belongs to, or nothing."""
    stem, _, form = key.rpartition(".")
    return stem if form in FORMS and f"{stem}.one" in whole and f"{stem}.other" in whole else ""


def slots(words: str) -> frozenset[str]:
    """Return the names that are filled in. Raises ValueError where a brace stands alone."""
    return frozenset(name for _, name, _, _ in Formatter().parse(words) if name is not None)


def _named(names: frozenset[str]) -> str:
    return ", ".join(f"{{{name}}}" for name in sorted(names)) or "nothing"
