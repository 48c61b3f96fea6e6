"""The band under a profile: one column a station, rows as long sections usually have them."""

from collections.abc import Callable, Iterator, Sequence

from manual.drawings import svg
from manual.drawings.both import in_feet, in_metres
from manual.drawings.ink import TEXT_MM, Ink, gather, written
from manual.drawings.lettering import width_em
from manual.drawings.place import LINE_MM, spread
from manual.drawings.section import Station, cover_m
from manual.drawings.section_profile import LEFT_MM, RIGHT_MM
from manual.languages import say


def short() -> str:
    return say("section.not_rec")


def short_note() -> str:
    return say("section.not_rec_is_not")


_ROW_MM = LINE_MM + 0.6
_LIFT_MM = 6.0  # from the profile down to the columns, for the slanting ties


def table(
    stations: Sequence[Station], *, x: Callable[[float], float], top_mm: float
) -> tuple[Ink, float]:
    """The band, and the place beneath it. With more stations than fit, further bands below.

    Feet take wider columns: where they would break the band, they stand in the words alone.
    """
    feet = _most(stations, feet=True) >= len(stations)
    width, most = _column_mm(stations, feet=feet), _most(stations, feet=feet)
    tiers = [stations[k : k + most] for k in range(0, len(stations), most)]
    inks = []
    for tier in tiers:
        at = (x(s.chainage_m) - width / 2 if len(tiers) == 1 else LEFT_MM for s in tier)
        lefts = spread(list(at), [width] * len(tier), least=LEFT_MM, most=RIGHT_MM)
        if len(tiers) == 1:
            inks.append(_ties(tier, lefts, width, x, top_mm))
        ink, top_mm = _tier(tier, lefts, width, top_mm + _LIFT_MM, feet=feet)
        inks.append(ink)
    return gather(inks), top_mm


def _rows(station: Station, *, feet: bool) -> tuple[tuple[str, str], ...]:
    within = station.tolerance_m
    numbers = (
        (say("section.chainage_m"), station.chainage_m, None, 2),
        (say("section.ground_2"), station.ground_m, within, 2),
        (say("section.crown"), station.crown_m, within, 3),
        (say("section.invert"), station.invert_m, within, 3),
        (say("section.cover_m"), cover_m(station), within, 3),
        (say("section.level_m"), within, None, 3),
    )
    return (
        (say("section.station"), station.key),
        *(row for each in numbers for row in _number_rows(*each, feet=feet)),
        (say("section.measured_2"), say("section.yes") if station.measured else say("section.no")),
    )


def _number_rows(
    head: str, value: float | None, within_m: float | None, places: int, *, feet: bool
) -> Iterator[tuple[str, str]]:
    """Yield a number in metres, and under it the same in feet where there is room."""
    if value is None:
        yield head, short()
    else:
        yield head, in_metres(value, within_m, places=places)
    if feet:
        said = "" if value is None else in_feet(value, within_m, places=places)
        yield say("section.in_feet"), said


def _column_mm(stations: Sequence[Station], *, feet: bool) -> float:
    cells = [
        (words, row)
        for station in stations
        for row, (_, words) in enumerate(_rows(station, feet=feet))
    ]
    widest = max((width_em(words, bold=row == 0) for words, row in cells), default=1.0)
    return min(max(widest * TEXT_MM + 2.0, 12.0), RIGHT_MM - LEFT_MM)


def _most(stations: Sequence[Station], *, feet: bool) -> int:
    """How many columns a band has."""
    return int((RIGHT_MM - LEFT_MM) / _column_mm(stations, feet=feet))


def _ties(
    tier: Sequence[Station],
    lefts: Sequence[float],
    width: float,
    x: Callable[[float], float],
    top_mm: float,
) -> Ink:
    marks = tuple(
        svg.line(
            [
                (x(s.chainage_m), top_mm),
                (x(s.chainage_m), top_mm + 1.2),
                (left + width / 2, top_mm + _LIFT_MM),
            ],
            svg.FINE,
        )
        for s, left in zip(tier, lefts, strict=True)
    )
    return Ink(marks, ())


def _tier(
    tier: Sequence[Station], lefts: Sequence[float], width: float, top_mm: float, *, feet: bool
) -> tuple[Ink, float]:
    heads = [head for head, _ in _rows(tier[0], feet=feet)]
    bottom = top_mm + len(heads) * _ROW_MM
    marks = [
        svg.line([(2.0, y), (RIGHT_MM, y)], svg.FINE)
        for y in (top_mm + row * _ROW_MM for row in range(len(heads) + 1))
    ]
    labels = [
        written(head, 2.8, top_mm + row * _ROW_MM + 0.3, bold=row == 0)
        for row, head in enumerate(heads)
    ]
    marks += [svg.line([(at, top_mm), (at, bottom)], svg.FINE) for at in (2.0, RIGHT_MM)]
    for station, left in zip(tier, lefts, strict=True):
        marks += [svg.line([(at, top_mm), (at, bottom)], svg.FINE) for at in (left, left + width)]
        labels += [
            written(
                words,
                left + width / 2,
                top_mm + row * _ROW_MM + 0.3,
                anchor="middle",
                bold=row == 0,
            )
            for row, (_, words) in enumerate(_rows(station, feet=feet))
        ]
    return Ink(tuple(marks), tuple(labels)), bottom
