"""What a field holds → what a sum is fed, or which input is missing and how it is recorded."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator

from record.facts.sizes import Measure
from record.facts.values import Absent, Value, Why
from record.figures.worked import Fed, Missing
from record.fold import Happening, Held, Stated, Thing
from record.units import Dimension, Quantity, UnitFault, in_both, read_quantity
from record.words import tell, term

#: Where a condition begins that a reading was taken under: "104 m³/h at 60 Pa".
CONDITION = re.compile(r"\s+(?:at|with|by|after|under)\s|[,;(]")
#: One length with its unit within words; feet and inches belong together.
LENGTH = re.compile(
    r"(?<![\w.])[0-9]+(?:\.[0-9]+)?\s?(?:m|mm|cm|ft|in|yd)\b"
    r"|[0-9]+'(?:\s?[0-9]+(?:[- ][0-9]+/[0-9]+)?\")?"
)


def called(stated: Stated) -> str:
    """
    Return what a thing or a happening is called in a sentence: "hull A", "station AIR-IN/2".
    """
    if isinstance(stated, Thing):
        return (
            stated.tag if stated.kind.word == "site" else f"{term(stated.kind.word)} {stated.tag}"
        )
    assert isinstance(stated, Happening)
    return tell("figures.of", word=term(stated.kind.word), about=stated.about, on=stated.on)


def lacks(stated: Stated, name: str) -> Missing:
    """Return that a field holds no value, which of the absences it is, and what to write."""
    value = stated.value(name)
    why = str(value) if isinstance(value, Absent) else tell("figures.cannot_be_read_number")
    arises = not (isinstance(value, Absent) and value.why is Why.NOT_APPLICABLE)
    return Missing(
        words=tell(
            "figures.of_2", stated=term(_key(stated, name)), stated_2=called(stated), why=why
        ),
        record=_where(stated, name),
        arises=arises,
    )


def nothing(words: str, record: str) -> Missing:
    """Return that a thing is not recorded at all."""
    return Missing(words=tell("figures.not_recorded", words=words), record=record)


def _key(stated: Stated, name: str) -> str:
    assert isinstance(stated, Thing | Happening)
    field = stated.kind.field(name)
    return field.key if field else name.replace("_", " ")


def _where(stated: Stated, name: str) -> str:
    """Return the line that would record a field."""
    key = _key(stated, name)
    if isinstance(stated, Happening):
        return tell("figures.mend_with_its", number=stated.entry.number, key=key)
    assert isinstance(stated, Thing)
    whole, slash, row = stated.tag.partition("/")
    if slash:
        return tell("figures.column_in_row_under", key=key, row=row, whole=whole)
    return tell("figures.under", key=key, word=stated.kind.word, whole=whole)


def field(stated: Stated, name: str, key: str, *, how: str = "") -> Fed | Missing:
    """Return a measured or counted field as the input ``key``, in SI; else what is missing."""
    value = _number(stated.value(name))
    if value is None:
        return lacks(stated, name)
    return Fed(key=key, value=value, rests=stated.held(name), how=how)


def perhaps(stated: Stated, name: str, key: str, *, how: str = "") -> Fed | Missing | None:
    """Return a field as an input that may be left out; two statements that differ are missing."""
    value = stated.value(name)
    if isinstance(value, Absent) and value.why is not Why.NOT_SETTLED:
        return None
    return field(stated, name, key, how=how)


def _number(value: Value) -> float | None:
    if isinstance(value, Quantity):
        return float(value.si)
    if isinstance(value, int) and not isinstance(value, bool):
        return float(value)
    return None


def numbers(
    stated: Stated, names: Iterable[str]
) -> tuple[dict[str, float], tuple[Held, ...], tuple[Missing, ...]]:
    """Return several fields in SI by name, all they rest on, and what is missing of them."""
    found: dict[str, float] = {}
    rests: list[Held] = []
    missing: list[Missing] = []
    for name in names:
        value = _number(stated.value(name))
        if value is None:
            missing.append(lacks(stated, name))
        else:
            found[name] = value
            rests += stated.held(name)
    return found, tuple(rests), tuple(missing)


def derived(
    key: str,
    stated: Stated,
    names: Iterable[str],
    work: Callable[[dict[str, float]], float],
    how: str,
) -> tuple[Fed | Missing, ...]:
    """Return one input worked from several fields of a thing; else all that is missing of them."""
    found, rests, missing = numbers(stated, names)
    return missing or (Fed(key=key, value=work(found), rests=rests, how=how),)


def reading(text: str | None, dimension: Dimension) -> float | None:
    """
    Return the value a reading states in words, in SI, any condition after it left aside.

    None where it is not one value of that dimension: it is never guessed.

    >>> round(reading("104 m³/h by motor", Dimension.FLOW) * 3600, 6)
    104.0
    >>> reading("5.0 L in, 4.8 L out", Dimension.LENGTH), reading("dry", Dimension.LENGTH)
    (None, None)
    """
    if text is None:
        return None
    for piece in (text.strip(), CONDITION.split(text.strip(), maxsplit=1)[0]):
        try:
            return float(read_quantity(piece, dimension).si)
        except UnitFault:
            continue
    return None


def in_words(stated: Stated, name: str) -> str:
    """Return a measured field as the crew would read it, in both systems."""
    assert isinstance(stated, Thing | Happening)
    own, quantity = stated.kind.field(name), stated.quantity(name)
    if own and isinstance(own.holds, Measure) and quantity is not None:
        return in_both(quantity, own.holds.dimension)
    return stated.words(name)


def lengths_in(words: str) -> tuple[float, ...]:
    """
    Return every length with its unit in a sentence, in metres.

    >>> lengths_in("from the wall to the third joint, 1.60 m"), lengths_in("2 people, 3 m, 1 ft")
    ((1.6,), (3.0, 0.3048))
    """
    return tuple(_lengths(words))


def _lengths(words: str) -> Iterator[float]:
    for found in LENGTH.finditer(words):
        try:
            yield float(read_quantity(found[0], Dimension.LENGTH).si)
        except UnitFault:
            continue
