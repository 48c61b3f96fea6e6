"""Day sheets of level books and tape ties: for tests of what readings make of a place."""

from tests.record.building import day, view_of

SITE = """\
## site fern-bank

- name: Fern Bank
- datum: BM1
- grid: x east, y north, from the peg
"""
COLUMNS = ("point", "backsight [m]", "intermediate [m]", "foresight [m]", "distance [m]")
DATUM = "2031-05-01"
DAY = "2031-05-14"


def mark(tag, level, how="site datum"):
    return f"## benchmark {tag}\n\n- what: bolt\n- level: {level}\n- how: {how}\n"


def landmark(tag, x, y, tol=""):
    return f"## landmark {tag}\n\n- what: corner\n- x: {x} m{tol}\n- y: {y} m{tol}\n"


def cell(reading):
    return "none" if reading is None else str(reading)


def book(*rows, fields="", extra=()):
    """Return a block of level readings: point, backsight, intermediate, foresight, distance."""
    columns = (*COLUMNS, *extra)
    head = f"| {' | '.join(columns)} |\n|{'---|' * len(columns)}"
    lines = [" ".join(("|", " | ".join(map(cell, row)), "|")) for row in rows]
    return f"## levelled fern-bank\n\n{fields}\n\n{head}\n" + "\n".join(lines) + "\n"


def pipe(*stations, tag="AIR-IN", fields="", columns="x [m] | y [m] | how"):
    """Return a run of 160 mm outside and 152 mm inside, its stations as rows of a table."""
    rule = "---|" * (columns.count("|") + 2)
    rows = "\n".join(f"| {row} |" for row in stations)
    return (
        f"## run {tag}\n\n- outside diameter: 160 mm\n- inside diameter: 152 mm\n{fields}\n"
        f"| station | {columns} |\n|{rule}\n{rows}\n"
    )


def ties(tag, *rows, columns="landmark | point | distance [m]"):
    rule = "---|" * (columns.count("|") + 1)
    lines = "\n".join("| " + " | ".join(map(str, row)) + " |" for row in rows)
    return f"## position tied {tag}\n\n| {columns} |\n|{rule}\n{lines}\n"


def site(*blocks):
    return day(DATUM, "ld", SITE, *blocks, part="plan")


def seen(*sheets, **asked):
    return view_of(*sheets, **asked).built
