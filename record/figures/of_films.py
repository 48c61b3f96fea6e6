"""Dry films as they were read with a gauge, spot by spot, against what was asked for."""

from __future__ import annotations

import re
from collections.abc import Iterator

from record.figures.feeding import nothing
from record.figures.worked import Fed, Missing, Worked, work
from record.fold import Happening
from record.readers import View
from record.units import Dimension, UnitFault, read_quantity
from record.words import tell

READINGS = ("one", "two", "three")  # of one spot
UNIT = re.compile(r"(?:mm|µm|μm|um|mils?)\b")
ASKED = re.compile(r"[0-9]+(?:\.[0-9]+)?")


def of_films(view: View) -> Iterator[Worked]:
    """Yield the spot rule over every look at a coating that wrote its readings."""
    for one in view.built.happened("coating inspected"):
        if one.text("film_readings") is not None:
            parts = (*_spots(one), *_asked(one))
            yield work("film", one.about, parts, what=f"{one.words('what')}, {one.moment}")


def _spots(one: Happening) -> Iterator[Fed | Missing]:
    said = one.text("film_readings") or ""
    found = spots(said)
    if not found:
        words = tell("figures.film_readings_no_list", number=one.entry.number, said=said)
        how = tell("figures.mend_with_film_readings", number=one.entry.number)
        yield Missing(words=words, record=how)
    for spot in found:
        row = dict(zip(READINGS, spot, strict=False))
        yield Fed(key="spot", value=row, rests=one.held("film_readings"))


def _asked(one: Happening) -> Iterator[Fed | Missing]:
    """Yield the least film, and the most where there is one, of the words of the criterion."""
    said = one.text("criterion") or ""
    found = films(said)
    if not 1 <= len(found) <= 2:
        words = tell("figures.film_asked_for_at", number=one.entry.number)
        yield nothing(words, tell("figures.mend_with_criterion_such", number=one.entry.number))
        return
    for key, value in zip(("least", "most"), sorted(found), strict=False):
        yield Fed(key=key, value=value, rests=one.held("criterion"), how=f'"{said}"')


def spots(said: str) -> tuple[tuple[float, ...], ...]:
    """
    Return the readings of every spot in metres, spots with ; and readings with , between.

    Empty where it is anything else; the unit may stand once, at the end of a spot.

    >>> spots("8, 9, 8.5 mil; 10 mil")
    ((0.0002032, 0.0002286, 0.0002159), (0.000254,))
    >>> spots("mean 150 µm"), spots("1, 2, 3, 4 mil")
    ((), ())
    """
    found = [films(spot) for spot in said.split(";")]
    counts = [len(spot.split(",")) for spot in said.split(";")]
    plain = all(re.fullmatch(r"[0-9., ]+", UNIT.sub("", spot).strip()) for spot in said.split(";"))
    right = all(len(f) == n <= len(READINGS) for f, n in zip(found, counts, strict=True))
    return tuple(found) if plain and right else ()


def films(said: str) -> tuple[float, ...]:
    """
    Return every thickness of a film in a sentence, in metres, by the unit that stands in it.

    >>> films("120 to 200 µm"), films("by the maker's sheet")
    ((0.00012, 0.0002), ())
    """
    units = set(UNIT.findall(said))
    if len(units) != 1:
        return ()
    try:
        return tuple(
            float(read_quantity(f"{number} {unit}", Dimension.FILM).si)
            for unit in units
            for number in ASKED.findall(UNIT.sub("", said))
        )
    except UnitFault:
        return ()
