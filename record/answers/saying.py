"""How answers say lengths, depths and recorded values."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Callable, Iterable, Iterator
from decimal import Decimal
from fractions import Fraction

from record.facts import Kind
from record.facts.fields import OneOf
from record.facts.sizes import Measure
from record.facts.values import Level, Value, in_words
from record.units import Dimension, Quantity, in_both
from record.words import tell, term

FURTHER = "Further entries may exist that this reader does not see."
WHOLE = "The owner's view: no entry is left out."
LACKING = (
    "This copy does not hold what some entries say, so that nothing can be ruled out from it. Ask "
    "the owner before you open, drill or dig."
)

WIDE = 100
_INCH_MM = Fraction(254, 10)


def length(metres: float) -> str:
    """
    Return a length in both systems.

    >>> length(1.204)
    '1.204 m (3\\' 11 3/8")'
    """
    return in_both(Decimal(f"{metres:.4f}"), Dimension.LENGTH)


def depth(metres: float) -> str:
    """
    Return a depth in millimetres and inches, to the nearest 1/16 in.

    >>> depth(0.102), depth(0.0254), depth(0.0005)
    ('102 mm (4 in)', '25 mm (1 in)', '1 mm (0 in)')
    """
    mm = Fraction(f"{metres:.4f}") * 1000
    sixteenths = int(mm / _INCH_MM * 16 + Fraction(1, 2))
    inches, part = divmod(sixteenths, 16)
    fraction = f" {Fraction(part, 16)}" if part else ""
    said = f"{inches}{fraction}" if inches or not part else fraction.strip()
    return f"{int(mm + Fraction(1, 2))} mm ({said} in)"


def value(kind: Kind, name: str, held: Value) -> str:
    """
    Return a recorded value: as the crew wrote it, and measured ones in both systems.

    A value that was written in words stays as it was written; which absence it is, is said.
    """
    field = kind.field(name)
    dimension = field.holds.dimension if field and isinstance(field.holds, Measure) else None
    if isinstance(held, str) and field and isinstance(field.holds, OneOf):
        return term(held)
    return value_words(held, dimension, _measured)


def value_words(
    held: Value,
    dimension: Dimension | None,
    say: Callable[[Quantity, Dimension], str] | None = None,
) -> str:
    """
    Return any recorded value in words: the one place where it is told which sort it is.

    ``say`` puts a measured value into words (:func:`measured` where not given).
    """
    say = say or measured
    if isinstance(held, Level):
        return f"{term(held.part.value)} {say(held.height, Dimension.LENGTH)}"
    if isinstance(held, Quantity) and dimension is not None:
        return say(held, dimension)
    return in_words(held)


def measured(quantity: Quantity, dimension: Dimension) -> str:
    """Return a measured value in both systems, with its ~ and its tolerance."""
    said = ("~" if quantity.estimated else "") + in_both(quantity, dimension)
    if quantity.tol is None:
        return said
    if dimension is Dimension.LENGTH:
        return f"{said} ± {depth(float(quantity.tol))}"
    return tell("values.written", said=said, text=quantity.text)


def _measured(quantity: Quantity, dimension: Dimension) -> str:
    said = measured(quantity, dimension)
    told = _tells_no_more(quantity, dimension) or said.endswith(quantity.text)
    return said if told else tell("values.written", said=said, text=quantity.text)


def _tells_no_more(quantity: Quantity, dimension: Dimension) -> bool:
    """Return whether the crew's own text says nothing that the SI value does not."""
    number, sign, _ = quantity.text.lstrip("~").partition("±")
    if sign and dimension is not Dimension.LENGTH:
        return False
    found = re.fullmatch(r"\s*(-?[0-9.]+)\s*m\s*", number)
    return bool(found) and dimension is Dimension.LENGTH


def key(name: str) -> str:
    """Return a field's name as a crew writes it."""
    return name.replace("_", " ")


#: A space inside a measure: after the sign of a tolerance, between a number and its unit or its
#: fraction, between feet and inches.
_BOUND = re.compile(
    r"(?<=±) (?=\d)|(?<=\d) (?=\d+/\d)|(?<=\d') (?=\d)"
    r"|(?<=\d) (?=(?:mm|cm|m|in|ft|km|m²|m³|m³/h|L|L/s|kg|kN|Pa|kPa|%|°C|h|min|rev/min|W|V|A)\b)"
    r"|(?<=\d) (?=[%°])"
)
_HELD = "\ue000"  # stands for such a space while lines are broken, for no line breaks at it


def bound(text: str, space: str = "\u00a0") -> str:
    """Return a text whose measures hang together by a space at which no line breaks."""
    return _BOUND.sub(space, text)


def wrapped(text: str, indent: int = 2, hang: int = 4) -> Iterator[str]:
    """
    Yield ``text`` in lines that fit, the first indented, the rest hanging.

    A number is not parted from its unit, nor feet from inches.
    """
    yield from broken(text, WIDE, " " * indent, " " * hang) or [""]


def broken(
    text: str, wide: int, first: str = "", rest: str = "", *, long_words: bool = True
) -> list[str]:
    """
    Return lines of at most ``wide`` columns, with what stands before the first and the rest.

    Unless ``long_words`` are broken too, one stands out.
    """
    lines = textwrap.wrap(
        bound(text, _HELD),
        wide,
        initial_indent=first,
        subsequent_indent=rest,
        break_long_words=long_words,
        break_on_hyphens=False,
    )
    return [line.replace(_HELD, " ") for line in lines]


def section(heading: str, texts: Iterable[str]) -> Iterator[str]:
    """Yield a heading and its lines, with an empty line before; nothing where there are none."""
    lines = [line for text in texts for line in wrapped(text)]
    if lines:
        yield ""
        yield heading
        yield from lines


def people(did: str | None, saw: str | None, by: str | None, writer: str) -> str:
    """Return who did it, who saw it, who answers for it and who wrote it."""
    said = (("did", did), ("saw", saw), ("by", by), ("wrote", writer))
    return ", ".join(f"{word} {who}" for word, who in said if who)
