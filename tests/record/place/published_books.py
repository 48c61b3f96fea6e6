"""Published level books as they would stand in a day sheet, and the levels printed for them."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Book:
    name: str
    mark: str
    level: str
    rows: tuple[tuple[object, ...], ...]
    levels_m: tuple[float, ...]


FT = 0.3048


def _rows(*setups, names=()):
    """Return rows of point, BS, IS, FS, distance from the readings of each set-up in turn."""
    rows, ahead = [], None
    for back, *between, last in setups:
        rows.append([None, back, None, ahead])
        rows += [[None, None, one, None] for one in between]
        ahead = last
    rows.append([None, None, None, ahead])
    called = names or [f"P{number}" for number in range(1, len(rows) + 1)]
    return tuple((name, *row[1:], 20) for name, row in zip(called, rows, strict=True))


#: ques10.com 29304, as its table prints it: BM is its tenth row, 185.635 m; rows 7 and 15 are
#: staffs held upside down, booked negative there.
LONG = _rows(
    (1.355, 1.605, 2.125, 0.685, 1.365),
    (2.015, 1.355, -1.385, 0.685, 2.105),
    (1.685, 1.155, 1.105, 2.015),
    (1.085, 1.345, 1.355, -2.015, 1.305),
    (1.655, 1.685, 1.455),
    names=[f"P{n}" if n != 10 else "BM" for n in range(1, 19)],
)

PUBLISHED = (
    Book(
        # Differential levelling notes after Ghilani & Wolf: 820.00 ft, BS 8.42, FS 1.20, 827.22.
        "one set-up in feet", "P1", "820.00 ft",
        (("P1", "8.42 ft", None, None, 20), ("P2", None, None, "1.20 ft", 20)),
        (820.00 * FT, 827.22 * FT),
    ),
    Book(
        # zerdly.com, rise and fall worksheet, worked example.
        "a worksheet", "P1", "100.000 m",
        _rows((2.000, 1.500, 0.500), (1.800, 1.000)),
        (100.000, 100.500, 101.500, 102.300),
    ),
    Book(
        "benchmark in mid-run, two soffits", "BM", "185.635 m", LONG,
        (
            185.205, 184.955, 184.435, 185.875, 185.195, 185.855, 188.595, 186.525, 185.105,
            185.635, 185.685, 184.775, 184.515, 184.505, 187.875, 184.555, 184.525, 184.755,
        ),
    ),
    Book(
        # askfilo 3335343839393730, an old textbook's readings; by hand 58.250 + 1.757 - 7.494 =
        # 52.513 at the end.
        "moved twice", "P1", "58.250 m",
        _rows(
            (0.578, 0.933, 1.768, 2.450, 2.005), (0.567, 1.888, 1.181, 3.679),
            (0.612, 0.705, 1.810),
        ),
        (58.250, 57.895, 57.060, 56.378, 56.823, 55.502, 56.209, 53.711, 53.618, 52.513),
    ),
    Book(
        # askfilo 3337383433303333; by hand 150.250 + 5.964 - 6.916 = 149.298, seven points.
        "moved three times", "P1", "150.250 m",
        _rows((2.228, 1.606, 0.988), (2.090, 2.864, 1.262), (0.602, 1.982), (1.044, 2.684)),
        (150.250, 150.872, 151.490, 150.716, 152.318, 150.938, 149.298),
    ),
    Book(
        "the same from another level", "P1", "432.384 m",
        _rows((2.228, 1.606, 0.988), (2.090, 2.864, 1.262), (0.602, 1.982), (1.044, 2.684)),
        (432.384, 433.006, 433.624, 432.850, 434.452, 433.072, 431.432),
    ),
)  # fmt: skip
