"""Readings beside those of day one, in lines for a person and in plain JSON."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal

from record.accounts.drift import Reading, Series
from record.accounts.limits import Trend, limit_of, past_limit, trend
from record.units import Dimension, in_both

MARK, WIDE = "*", 40  # a reading in the small drawing, and how wide that is


def words(found_: Sequence[Series]) -> Iterator[str]:
    """Yield every series with a later reading; what was read once is counted at the end."""
    once = 0
    for one in found_:
        if not one.later:
            once += 1
            continue
        yield f"{one.about}: {one.name}; limit {one.limit}"
        day = one.first.happening.moment
        yield f"  day one  {day}: {one.first.words} [{one.first.entry}]"
        for later in one.later:
            moment = later.happening.moment
            yield f"  later    {moment}: {later.words}, {one.words(later)} [{later.entry}]"
        yield from _heading(one)
    if once:
        said = "1 reading was" if once == 1 else f"{once} readings were"
        yield f"{said} taken once only: nothing stands beside day one yet."
    elif not found_:
        yield "No reading is recorded."


def _heading(one: Series) -> Iterator[str]:
    """Yield whether the last reading is past its limit, and where the readings are heading."""
    past, line = past_limit(one), trend(one)
    if past is not None:
        yield f"  PAST ITS LIMIT: {past.words} on {past.happening.on}, limit {one.limit}"
    elif one.limit != "not recorded" and limit_of(one) is None:
        yield f'  whether it is past "{one.limit}" cannot be told'
    if line is not None and one.first.of is not None:
        yield from _drawn(one)
        yield f"  heading  {_line_words(one, line)}"


def _drawn(one: Series) -> Iterator[str]:
    """Yield each reading as a mark between the least and the most of them."""
    of = one.first.of
    read = [each for each in (one.first, *one.later) if each.quantity and each.of is of]
    values = [each.quantity.si for each in read if each.quantity]
    least, most = min(values), max(values)
    for each, value in zip(read, values, strict=True):
        place = int((value - least) / (most - least) * (WIDE - 1)) if most > least else 0
        line = (" " * place + MARK).ljust(WIDE)
        yield f"  {each.happening.on}  |{line}|  {each.words}"


def _line_words(one: Series, line: Trend) -> str:
    of = one.first.of
    if of is None or not line.certain:
        return f"nowhere that these {line.readings} readings could tell"
    kind = Dimension.DIFFERENCE if of is Dimension.TEMPERATURE else of
    slope, doubt = (in_both(quantity_of(value), kind) for value in (abs(line.a_year), line.doubt))
    said = f"{'up' if line.a_year > 0 else 'down'} by {slope} a year, give or take {doubt}"
    if limit_of(one) is None or past_limit(one):
        return said
    if line.earliest is None:
        return f"{said}; away from its limit"
    return f"{said}; at its limit {_between(line.earliest, line.latest)}, if it goes on so"


def _between(earliest: date, latest: date | None) -> str:
    if latest is None:
        return f"not before {earliest:%Y-%m}, perhaps never"
    return f"between {earliest:%Y-%m} and {latest:%Y-%m}"


def quantity_of(value: float) -> Decimal:
    """Return a worked number with three figures; more would say more than was measured."""
    return Decimal(f"{value:.3g}")


def form(one: Series) -> dict[str, object]:
    """Return the JSON form of a series; changes in SI."""
    return {
        "about": one.about,
        "what": one.name,
        "limit": one.limit,
        "day_one": _form(one, one.first),
        "later": [_form(one, each) for each in one.later],
        "past_limit": past_limit(one) is not None,
        "trend": _trend_form(one),
    }


def _form(one: Series, reading: Reading) -> dict[str, object]:
    change = None if reading is one.first else one.change(reading)
    return {
        "moment": reading.happening.moment,
        "reading": reading.words,
        "value": None if reading.quantity is None else str(reading.quantity.si),
        "unit": None if reading.of is None else reading.of.si_unit,
        "change": None if change is None else str(change),
        "certain": None if change is None else one.certain(reading),
        "entry": reading.entry,
    }


def _trend_form(one: Series) -> dict[str, object] | None:
    line = trend(one)
    if line is None:
        return None
    return {
        "readings": line.readings,
        "a_year": line.a_year,
        "doubt_95": line.doubt,
        "certain": line.certain,
        "limit_earliest": line.earliest and line.earliest.isoformat(),
        "limit_latest": line.latest and line.latest.isoformat(),
    }
