"""The figures of a record, in words and as JSON."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from textwrap import wrap
from typing import Any

from record.entry.counted import withheld_said
from record.figures.worked import Fed, Missing, Worked
from record.reckon import Sum, figure_form, figure_words, value_words
from record.words import tell, term

WIDTH = 100


@dataclass(frozen=True, slots=True)
class Waiting:
    """One thing that is not recorded, and every figure that waits for it."""

    missing: Missing
    of: tuple[Worked, ...]

    @property
    def figures(self) -> str:
        """Which figures wait for it: "uplift of A, B; cover-load of A"."""
        by_sum = groupby(self.of, key=lambda one: one.name)
        return "; ".join(
            tell("figures.of_sum", name=term(name), of=", ".join(dict.fromkeys(each)))
            for name, each in ((name, [one.about for one in found]) for name, found in by_sum)
        )


def waiting(found: Iterable[Worked], *, arises: bool = True) -> tuple[Waiting, ...]:
    """Return what is missing, once each, with the figures it keeps from being worked."""
    kept: dict[Missing, list[Worked]] = {}
    for worked in found:
        for missing in worked.missing:
            if missing.arises is arises:
                kept.setdefault(missing, []).append(worked)
    return tuple(Waiting(missing, tuple(of)) for missing, of in kept.items())


def words(found: Sequence[Worked], withheld: int = 0) -> Iterator[str]:
    """Yield every figure, sum by sum; what could not be worked comes last, with what to record."""
    told = [one for one in found if not one.missing]
    for _, of in groupby(told, key=lambda one: one.name):
        yield from _sum(list(of))
    yield from _not_worked(found)
    if withheld:
        yield from _wrapped("", f"{withheld_said(withheld)} from this reader: what is said "
                            "here to be not recorded may stand in them.")  # fmt: skip


def _sum(found: Sequence[Worked]) -> Iterator[str]:
    one = found[0].sum
    yield f"{one.title} ({one.name})"
    yield from _wrapped("  formula   ", one.formula)
    yield from _wrapped("  source    ", one.source)
    yield ""
    for worked in found:
        yield from _worked(worked)
    yield from _wrapped("  caution   ", one.caution)
    if one.confirm:
        yield from _wrapped("  confirm   ", one.confirm)
    yield ""


def _worked(worked: Worked) -> Iterator[str]:
    yield f"  {worked.heading}"
    wide = max((len(fed.key) for fed in worked.given), default=0)
    for fed in worked.given:
        yield from _wrapped(f"    {fed.key:<{wide}}  ", given_words(worked.sum, fed))
    if worked.refused:
        yield from _wrapped("    cannot be worked: ", worked.refused)
    wide = max((len(figure.name) for figure in worked.figures), default=0)
    for figure in worked.figures:
        yield from _wrapped(f"    = {figure.name:<{wide}}  ", figure_words(figure))
    for note in worked.notes:
        yield from _wrapped("    note: ", note)
    yield ""


def given_words(one: Sum, fed: Fed) -> str:
    """Return a value that was fed, in both unit systems, how it was come by, and its entries."""
    wanted = one.input(fed.key)
    assert wanted is not None, fed.key
    said = value_words(wanted, fed.value)
    if fed.usual:
        return f"{said}   usual{f': {fed.how}' if fed.how else ''}"
    from_where = "; ".join(filter(None, (fed.how, ", ".join(fed.entries))))
    return f"{said}   {from_where}"


def _not_worked(found: Sequence[Worked]) -> Iterator[str]:
    wanted, never = waiting(found), waiting(found, arises=False)
    if wanted:
        yield "NOT WORKED: record these, and the figures follow"
    for one in wanted:
        yield from _wrapped("  ", one.missing.words)
        yield from _wrapped("      record  ", one.missing.record)
        yield from _wrapped("      for     ", one.figures)
    if never:
        yield "DOES NOT ARISE, as was stated"
    for one in never:
        yield from _wrapped("  ", f"{one.missing.words} ({one.figures})")


def _wrapped(start: str, text: str) -> Iterator[str]:
    lines = wrap(text, WIDTH - len(start), break_long_words=False, break_on_hyphens=False)
    for place, line in enumerate(lines or [""]):
        yield (start if place == 0 else " " * len(start)) + line


def form(worked: Worked) -> Mapping[str, Any]:
    """Return a figure with stable keys and SI units."""
    one = worked.sum
    return {
        "name": worked.name,
        "about": worked.about,
        "of": worked.what or None,
        "formula": one.formula,
        "inputs": [_fed_form(one, fed) for fed in worked.given],
        "results": [figure_form(figure) for figure in worked.figures],
        "refused": worked.refused or None,
        "missing": [
            {"words": each.words, "record": each.record, "arises": each.arises}
            for each in worked.missing
        ],
        "notes": list(worked.notes),
        "source": one.source,
        "caution": one.caution,
        "confirm": one.confirm or None,
    }


def _fed_form(one: Sum, fed: Fed) -> Mapping[str, Any]:
    wanted = one.input(fed.key)
    assert wanted is not None, fed.key
    columns = {c.key: c.of.si_unit if c.of else None for c in wanted.columns}
    return {
        "key": fed.key,
        "value": fed.value,
        "unit": columns or (wanted.of.si_unit if wanted.of else None),
        "usual": fed.usual,
        "how": fed.how or None,
        "entries": list(fed.entries),
    }
