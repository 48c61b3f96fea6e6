"""The figures of the record as the manual prints them: sum by sum, and what is still to write."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from manual.languages import say, term
from record.figures import Fed, Worked, figures, waiting
from record.readers import View
from record.reckon import figure_words, value_words
from record.reckon.sum import DANGER


@dataclass(frozen=True, slots=True)
class GivenRow:
    """One input: its key, its value in both unit systems, how it was come by, its entries."""

    key: str
    value: str
    how: str
    entries: str


@dataclass(frozen=True, slots=True)
class FigureTold:
    """One figure of a sum: the tag it is of, what of it, its inputs and what came out."""

    tag: str
    heading: str
    given: tuple[GivenRow, ...]
    results: tuple[tuple[str, str], ...]
    refused: str
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SumTold:
    """One sum with every figure of it that the record feeds, and what stands beside them."""

    name: str
    title: str
    formula: str
    source: str
    caution: str
    danger: bool
    confirm: str
    figures: tuple[FigureTold, ...]


@dataclass(frozen=True, slots=True)
class ToWrite:
    """One thing that is not recorded, the line that would record it, and what waits for it."""

    words: str
    record: str
    figures: str


@dataclass(frozen=True, slots=True)
class WorkedTold:
    """All of the chapter: the sums, what is to be written, and what does not arise."""

    sums: tuple[SumTold, ...]
    to_write: tuple[ToWrite, ...]
    never: tuple[ToWrite, ...]


def worked_told(view: View) -> WorkedTold:
    """Return every figure of what a reader may see, as the chapter prints it."""
    found = figures(view)
    told = (one for one in found if not one.missing)
    return WorkedTold(
        sums=tuple(_sum(list(of)) for _, of in groupby(told, key=lambda one: one.name)),
        to_write=tuple(_to_write(found, arises=True)),
        never=tuple(_to_write(found, arises=False)),
    )


def _to_write(found: tuple[Worked, ...], *, arises: bool) -> Iterator[ToWrite]:
    for one in waiting(found, arises=arises):
        yield ToWrite(term(one.missing.words), term(one.missing.record), one.figures)


def _sum(found: list[Worked]) -> SumTold:
    one = found[0].sum
    return SumTold(
        name=one.name,
        title=term(one.title),
        formula=term(one.formula),
        source=term(one.source),
        caution=_capital(term(one.caution.removeprefix(DANGER))),
        danger=one.caution.startswith(DANGER),
        confirm=term(one.confirm),
        figures=tuple(map(_figure, found)),
    )


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _figure(worked: Worked) -> FigureTold:
    return FigureTold(
        tag=worked.about.partition("/")[0],
        heading=worked.heading,
        given=tuple(_given(worked, fed) for fed in worked.given),
        results=tuple((term(one.name.strip()), figure_words(one)) for one in worked.figures),
        refused=term(worked.refused),
        notes=tuple(map(term, worked.notes)),
    )


def _given(worked: Worked, fed: Fed) -> GivenRow:
    wanted = worked.sum.input(fed.key)
    assert wanted is not None, fed.key
    how = (
        say("figures.usual_not_recorded", how=term(fed.how) or say("figures.common_practice"))
        if fed.usual
        else term(fed.how)
    )
    return GivenRow(term(fed.key), value_words(wanted, fed.value), how, ", ".join(fed.entries))
