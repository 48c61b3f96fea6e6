"""A run from the side, in a table and in a picture of letters for the terminal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from record.answers.profile_values import Profile, ProfileLength, ProfileStation
from record.answers.saying import depth, length, section, wrapped

COLUMNS, ROWS = 72, 16
LEFT = 9  # columns of the scale of levels


def profile_words(answer: Profile) -> list[str]:
    """Return the answer in lines of at most 100 columns."""
    return [
        *wrapped(f"PROFILE of {answer.tag}, {answer.words}; falls to: {answer.falls_to}", 0, 2),
        *wrapped(f"Reader: {answer.reader}. {answer.further_entries}", 0, 2),
        "",
        *_table(answer),
        *picture(answer),
        *section("FALLS", _falls(answer)),
        *section("LOW POINTS AND WATER", _water(answer)),
        *section("COVER AND FROST", _frost(answer)),
        *section("BETWEEN STATIONS, not measured", answer.between),
        *section("NOT RECORDED", answer.not_recorded),
        *section("NOT SETTLED", answer.disagreements),
    ]


def _table(answer: Profile) -> Iterator[str]:
    width = max((len(f"{one.key} {one.name}") for one in answer.stations), default=0)
    width = min(max(width, len("station")), 30)
    heads = ("chainage", "ground", "crown", "invert", "cover", "± level")
    yield f"  {'station':{width}}  " + "  ".join(f"{head:>9}" for head in heads) + "   metres"
    for one in answer.stations:
        name = one.key if one.name == one.key else f"{one.key} {one.name}"
        values = (one.chainage_m, one.ground_m, one.crown_m, one.invert_m, one.cover_m)
        levels = (one.crown_m, one.centre_m, one.invert_m)
        known = None if levels == (None, None, None) else one.tolerance_m
        of = ("x", "ground", "level", "level", "level", "level")
        cells = [
            _number(value, name in one.not_settled)
            for value, name in zip((*values, known), of, strict=True)
        ]
        assumed = " assumed" if one.assumed else ""
        entries = f" [{', '.join(one.entries)}]" if one.entries else ""
        yield f"  {name[:width]:{width}}  {'  '.join(cells)} {assumed}{entries}"


def _number(value: float | None, twice: bool) -> str:
    if value is not None:
        return f"{value:9.3f}"
    return "unsettled" if twice else "not rec'd"


def _falls(answer: Profile) -> Iterator[str]:
    for one in answer.lengths:
        tolerance = "" if one.tolerance_m is None else f" ± {depth(one.tolerance_m)}"
        word = {"rises": "RISES", "cannot be told": "CANNOT BE TOLD"}.get(one.verdict, one.verdict)
        yield (
            f"{one.words}: {word}, {one.slope * 100:.3f} %, {one.drop_m * 1000:.0f} mm{tolerance} "
            f"in {length(one.length_m)}{_past(answer, one)}"
        )


def _past(answer: Profile, one: ProfileLength) -> str:
    """Return which stations without an invert a length goes past: there it may go up and down."""
    keys = [each.key for each in answer.stations]
    low, high = sorted((keys.index(one.from_key), keys.index(one.to_key)))
    bare = _names(_unshot(answer.stations[low + 1 : high]))
    return f"; PAST {bare}, of which no invert is told: it may rise or sag there" if bare else ""


def _unshot(stations: Iterable[ProfileStation]) -> Iterator[ProfileStation]:
    return (one for one in stations if one.invert_m is None)


def _names(stations: Iterable[ProfileStation]) -> str:
    return ", ".join(
        one.key if one.name == one.key else f"{one.key} {one.name}" for one in stations
    )


def _water(answer: Profile) -> Iterator[str]:
    for low in answer.low_points:
        yield (
            f"Low point at {low.chainage_m:.2f} m, station {low.station}, invert "
            f"{low.invert_m:.3f} m: {low.drained}"
        )
    if answer.low_points and (bare := _names(_unshot(answer.stations))):
        yield f"Other low points cannot be ruled out: no invert is told of {bare}."
    for pond in answer.ponds:
        yield (
            f"WATER STANDS from {pond.from_m:.2f} to {pond.to_m:.2f} m, {depth(pond.depth_m)} deep "
            f"at {pond.deepest_at_m:.2f} m, as high as {pond.level_m:.3f} m"
        )


def _frost(answer: Profile) -> Iterator[str]:
    if answer.least_cover is not None:
        station, cover = answer.least_cover
        least = f"Least cover at a station: {length(cover)}"
        if cover < 0:
            least = f"NO COVER: its crown stands {length(-cover)} ABOVE the ground"
        bare = _names(one for one in answer.stations if one.cover_m is None)
        rest = f" Of {bare} the cover cannot be told." if bare else ""
        yield f"{least}, at {station}, by the ground of its day.{rest}"
    for one in answer.stations:
        for since in one.measured_since:
            yield f"Cover at {one.key} measured since: {since}."
    if answer.frost_depth_m is None or answer.in_frost is None:
        yield "Which lengths lie in frost cannot be told."
        return
    said = f"frost depth {length(answer.frost_depth_m)}, from: {answer.frost_depth_from}"
    if not answer.in_frost:
        yield f"No length between stations has less cover than the {said}. It may still freeze."
    for zone in answer.in_frost:
        yield (
            f"IN FROST from {zone.from_m:.2f} to {zone.to_m:.2f} m, {length(zone.length_m)}: less "
            f"cover than the {said}"
        )


def picture(answer: Profile) -> list[str]:
    """
    Return the run from the side in letters, heights stretched; nothing with fewer than two places.

    Stations are O, the pipe between them is =, the ground is ^, the frost line is f.
    """
    placed = [one for one in answer.stations if one.chainage_m is not None]
    heights = [value for one in placed for value in _heights(one, answer.frost_depth_m)]
    far = max((one.chainage_m or 0.0 for one in placed), default=0.0)
    if len(placed) < 2 or not heights or far <= 0:
        return []
    low, high = min(heights), max(heights)
    step = max((high - low) / (ROWS - 1), 0.01)
    grid = [[" "] * COLUMNS for _ in range(ROWS)]
    lines: tuple[tuple[str, list[tuple[float, float | None]]], ...] = (
        ("f", [(one.chainage_m or 0.0, _frost_line(one, answer.frost_depth_m)) for one in placed]),
        ("^", [(one.chainage_m or 0.0, one.ground_m) for one in placed]),
        ("=", [(one.chainage_m or 0.0, _pipe(one)) for one in placed]),
    )
    for sign, points in lines:
        _draw(grid, sign, points, far, low, step)
    for one in placed:
        at = _pipe(one)
        if at is not None:
            _put(grid, "O", one.chainage_m or 0.0, at, far, low, step)
    rows = [
        f"{low + step * row:{LEFT}.2f} |{''.join(grid[row]).rstrip()}"
        for row in reversed(range(ROWS))
    ]
    return [
        "",
        "SEEN FROM THE SIDE, levels in metres, heights not to the scale of lengths",
        *rows,
        f"{'':{LEFT}} +{'-' * COLUMNS}",
        f"{'':{LEFT}}  {_keys(placed, far)}",
        f"{'':{LEFT}}  ^ ground   f frost line   = pipe, interpolated   O station; "
        f"0 to {far:.2f} m",
    ]


def _heights(one: ProfileStation, frost_m: float | None) -> Iterator[float]:
    for value in (one.ground_m, _pipe(one), _frost_line(one, frost_m)):
        if value is not None:
            yield value


def _pipe(one: ProfileStation) -> float | None:
    return next((v for v in (one.invert_m, one.centre_m, one.crown_m) if v is not None), None)


def _frost_line(one: ProfileStation, frost_m: float | None) -> float | None:
    return None if one.ground_m is None or frost_m is None else one.ground_m - frost_m


def _draw(
    grid: list[list[str]],
    sign: str,
    points: Sequence[tuple[float, float | None]],
    far: float,
    low: float,
    step: float,
) -> None:
    """Draw a line of signs through points; one that is not recorded breaks it."""
    for (x0, z0), (x1, z1) in pairwise(points):
        if z0 is None or z1 is None:
            continue
        for column in range(_column(x0, far), _column(x1, far) + 1):
            x = column * far / (COLUMNS - 1)
            share = 0.0 if x1 <= x0 else min(max((x - x0) / (x1 - x0), 0.0), 1.0)
            _put(grid, sign, x, z0 + share * (z1 - z0), far, low, step)


def _column(x: float, far: float) -> int:
    return round(x / far * (COLUMNS - 1))


def _put(
    grid: list[list[str]], sign: str, x: float, z: float, far: float, low: float, step: float
) -> None:
    row = min(max(round((z - low) / step), 0), ROWS - 1)
    grid[row][_column(x, far)] = sign


def _keys(placed: Sequence[ProfileStation], far: float) -> str:
    said = [" "] * (COLUMNS + 8)
    for one in placed:
        at = _column(one.chainage_m or 0.0, far)
        for offset, letter in enumerate(one.key[:6]):
            said[at + offset] = letter
    return "".join(said).rstrip()
