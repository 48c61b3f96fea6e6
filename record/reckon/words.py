"""A sum that was worked, in words and as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from textwrap import wrap
from typing import Any

from record.reckon.given import Said
from record.reckon.sum import Figure, Input, Sum
from record.units import Dimension, in_both
from record.words import term

WIDTH = 100


def words(one: Sum, said: Said, figures: tuple[Figure, ...]) -> Iterator[str]:
    """Yield a worked sum: inputs and source come first where the result could hurt if wrong."""
    yield one.title
    yield ""
    careful = bool(one.confirm)
    if careful:
        yield from _inputs(one, said)
        yield from _origin(one)
        yield from _results(figures)
    else:
        yield from _results(figures)
        yield from _inputs(one, said)
        yield from _origin(one)
    yield from _aside("caution", one.caution)
    if careful:
        yield from _aside("confirm", one.confirm)


def _aside(word: str, text: str) -> Iterator[str]:
    """Yield a long sentence beside its word, within the width of a page."""
    yield from _wrapped(f"{word:<10}", text)


def _wrapped(start: str, text: str) -> Iterator[str]:
    lines = wrap(text, WIDTH - len(start), break_long_words=False, break_on_hyphens=False)
    for place, line in enumerate(lines or [""]):
        yield (start if place == 0 else " " * len(start)) + line


def _inputs(one: Sum, said: Said) -> Iterator[str]:
    yield "GIVEN"
    wide = max((len(each.key) for each in one.inputs), default=0)
    for each in one.inputs:
        for value, note in _values(each, said):
            yield from _wrapped(f"  {each.key:<{wide}}  ", f"{value}{note}")
    yield ""


def _values(each: Input, said: Said) -> Iterator[tuple[str, str]]:
    if each.key not in said.given:
        yield "not given", ""
        return
    value = said.given[each.key]
    if each.key in said.usual:
        kept = value if isinstance(value, tuple) else (value,)
        why = f", {each.usual_from}" if each.usual_from else ""
        for one in kept:
            yield value_words(each, one), f"   not given: the usual{why}"
        return
    written = said.written.get(each.key, ())
    kept = value if isinstance(value, tuple) else (value,)
    if not kept:
        yield "none given", ""
    for one, text in zip(kept, written, strict=True):
        shown = value_words(each, one)
        yield shown, "" if text in (shown, shown.partition(" (")[0]) else f"   written {text}"


def value_words(each: Input, value: Any) -> str:
    """Return one given value as it was understood, in both unit systems."""
    if each.columns:
        cells = ((column, value[column.key]) for column in each.columns if column.key in value)
        return "; ".join(
            f"{term(column.key)} {value_words(column, cell)}" for column, cell in cells
        )
    if each.of is not None:
        return in_both(Decimal(repr(value)), each.of)
    return f"{value:g}" if isinstance(value, float) else term(str(value))


def _origin(one: Sum) -> Iterator[str]:
    yield from _aside("formula", one.formula)
    yield from _aside("source", one.source)
    yield ""


def _results(figures: tuple[Figure, ...]) -> Iterator[str]:
    yield "RESULT"
    wide = max((len(figure.name) for figure in figures), default=0)
    for figure in figures:
        yield from _wrapped(f"  {figure.name:<{wide}}  ", figure_words(figure))
    yield ""


def figure_words(figure: Figure) -> str:
    """Return a figure with its unit, in both systems where it has a dimension."""
    if isinstance(figure.value, str):
        return term(figure.value)
    if figure.of is not None:
        return in_both(Decimal(repr(figure.value)), figure.of)
    shown = sensibly(figure.value, figure.digits)
    return f"{shown} {figure.unit}" if figure.unit else shown


def sensibly(value: float, digits: int) -> str:
    """
    Return a number to so many digits, written out.

    >>> sensibly(1918.2, 3), sensibly(0.02471, 3), sensibly(12.0, 3)
    ('1918', '0.0247', '12.0')
    """
    if value == 0:
        return "0"
    whole = len(str(int(abs(value)))) if abs(value) >= 1 else 0
    if whole:
        return f"{value:.{max(0, digits - whole)}f}"
    places = digits
    while abs(value) < 10 ** (digits - 1 - places) and places < 12:
        places += 1
    return f"{value:.{places}f}"


def json_form(one: Sum, said: Said, figures: tuple[Figure, ...]) -> Mapping[str, Any]:
    """Return a worked sum with stable keys and SI units."""
    return {
        "name": one.name,
        "formula": one.formula,
        "inputs": [
            {
                "key": each.key,
                "value": said.given.get(each.key),
                "unit": _unit(each),
                "usual": each.key in said.usual,
                "written": list(said.written.get(each.key, ())),
            }
            for each in one.inputs
        ],
        "results": [figure_form(figure) for figure in figures],
        "source": one.source,
        "caution": one.caution,
        "confirm": one.confirm or None,
    }


def figure_form(figure: Figure) -> Mapping[str, Any]:
    return {
        "name": figure.name,
        "value": figure.value,
        "unit": figure.unit or (figure.of.si_unit if figure.of else None),
    }


def _unit(each: Input) -> Any:
    if each.columns:
        return {column.key: _unit(column) for column in each.columns}
    return each.of.si_unit if each.of else None


def catalogue(sums: Mapping[str, Sum]) -> Iterator[str]:
    """Yield the list of sums, and how one is asked."""
    yield "What can be reckoned:"
    wide = max(len(name) for name in sums)
    for name, one in sums.items():
        yield f"  {name:<{wide}}  {one.title}"
    yield ""
    yield "asburied reckon NAME tells what it takes."


def usage(one: Sum) -> Iterator[str]:
    """Yield what one sum takes, with an example."""
    yield one.title
    yield ""
    wide = max((len(each.key) for each in one.inputs), default=0)
    for each in one.inputs:
        yield from _wrapped(f"  {each.key:<{wide}}  ", each.says + _asked(each))
    yield ""
    yield from _aside("formula", one.formula)
    yield from _aside("source", one.source)
    yield from _aside("caution", one.caution)
    if one.confirm:
        yield from _aside("confirm", one.confirm)
    yield ""
    yield f"Example: asburied reckon {one.name} {one.example}"


def _asked(each: Input) -> str:
    parts = []
    if each.columns:
        columns = "; ".join(column.key for column in each.columns)
        parts.append(f'once for each, as {each.key}="{columns}"')
        for column in each.columns:
            parts.append(f"{column.key}: {column.says}{_asked(column)}")
    elif each.of is Dimension.LENGTH:
        parts.append("a length")
    elif each.of is not None:
        parts.append(f"a {each.of.value}")
    elif each.words:
        parts.append("one of " + ", ".join(each.told_words))
    if each.many:
        parts.append("may be given again")
    if each.usual:
        parts.append(f"else {each.usual}" + (f", {each.usual_from}" if each.usual_from else ""))
    if each.optional:
        parts.append("may be left out")
    return f" ({'; '.join(parts)})" if parts else ""
