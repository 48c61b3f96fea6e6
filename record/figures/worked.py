"""A sum that was fed from the record: what was fed and what it rests on, or what is missing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from record.fold import Held
from record.reckon import SUMS, CannotReckon, Figure, Sum, supplied
from record.words import term


@dataclass(frozen=True, slots=True, kw_only=True)
class Fed:
    """
    One value fed to a sum.

    ``value`` is as the sum's input wants it: a float in the SI unit of its dimension, words, or a
    row of these by column. ``rests`` is what it was taken or worked from; ``how`` says which, where
    the value is not just what was recorded. A ``usual`` one rests on nothing.
    """

    key: str
    value: Any
    rests: tuple[Held, ...] = ()
    how: str = ""
    usual: bool = False

    @property
    def entries(self) -> tuple[str, ...]:
        """Return the numbers of the entries it rests on, once each."""
        return tuple(dict.fromkeys(held.entry.number for held in self.rests))


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """
    An input that is not recorded: in words for a person, and what to record.

    ``arises`` is False where somebody stated, with a reason, that there can be none.
    """

    words: str
    record: str
    arises: bool = True


Part = Fed | Missing | None  # None is an optional input of which nothing was said


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """
    One sum of ``record.reckon`` fed from the record.

    ``about`` is the tag it is of, ``what`` which of several figures of it. With anything in
    ``missing`` no figure is worked. ``refused`` says why the formula would not take what it was
    given. ``notes`` are what a person must know beside the result.
    """

    name: str
    about: str
    what: str = ""
    given: tuple[Fed, ...] = ()
    missing: tuple[Missing, ...] = ()
    figures: tuple[Figure, ...] = ()
    refused: str = ""
    notes: tuple[str, ...] = ()

    @property
    def sum(self) -> Sum:
        return SUMS[self.name]

    @property
    def wanting(self) -> bool:
        """Return whether something must still be recorded before it can be worked."""
        return any(one.arises for one in self.missing)

    @property
    def rests(self) -> tuple[Held, ...]:
        return tuple(held for fed in self.given for held in fed.rests)

    @property
    def heading(self) -> str:
        return f"{self.about}, {term(self.what)}" if self.what else self.about

    def number(self, name: str) -> float:
        """Return a figure by its name. Raises KeyError where there is no such number."""
        for figure in self.figures:
            if figure.name.strip() == name and not isinstance(figure.value, str):
                return figure.value
        raise KeyError(name)


def work(
    name: str, about: str, parts: Iterable[Part], *, what: str = "", notes: Iterable[str] = ()
) -> Worked:
    """Return a sum worked from what it is fed, or with what is missing; nothing is guessed."""
    kept = tuple(parts)
    fed = tuple(one for one in kept if isinstance(one, Fed))
    missing = tuple(dict.fromkeys(one for one in kept if isinstance(one, Missing)))
    told: dict[str, Any] = {"name": name, "about": about, "what": what, "notes": tuple(notes)}
    if missing:
        return Worked(given=fed, missing=missing, **told)
    values: dict[str, list[Any]] = {}
    for one in fed:
        values.setdefault(one.key, []).append(one.value)
    try:
        said = supplied(SUMS[name], values)
        figures = SUMS[name].work(said.given)
    except (ValueError, CannotReckon) as fault:
        return Worked(given=fed, refused=str(fault), **told)
    return Worked(
        given=(*fed, *_usual(SUMS[name], said.given, said.usual)), figures=figures, **told
    )


def _usual(one: Sum, given: dict[str, Any], usual: frozenset[str]) -> Iterable[Fed]:
    """Yield the usual values that held, each told as such."""
    for each in one.inputs:
        if each.key in usual:
            value = given[each.key]
            for kept in value if isinstance(value, tuple) else (value,):
                yield Fed(key=each.key, value=kept, how=each.usual_from, usual=True)
