"""A small shelter for questions about panels: one hull, six panels, and what is put behind them.

Hull A: inside 6.00 × 3.00 × 2.50 m, plate 10 mm, near-left-floor corner at x 100, y 200, level
50, looking east (bearing 90°). So x = 100 + a, and y = 200 − l: the left wall is to the north.
Every panel has 12 mm of board on 90 mm of packing: 102 mm from the room face to the plate.
"""

from tests.record.building import day, view_of

SITE = """
## site fern-bank

- name: Fern Bank
- datum: bolt in the plinth, 50.000 m
- grid: x east, y north, from the peg
- builder: the crew's office
- builder contact: 555-0142
- emergency number: 911
"""


def block(heading, **fields):
    """Return a block of a day sheet; a field's spaces are written _ here, None leaves it out."""
    lines = [f"- {name.replace('_', ' ')}: {said}" for name, said in fields.items() if said]
    return "\n".join([f"## {heading}", "", *lines])


def hull(tag="A", **changed):
    fields = {
        "inside_length": "6.00 m",
        "inside_width": "3.00 m",
        "inside_height": "2.50 m",
        "steel_thickness": "10 mm",
        "x": "100.00 m ± 10 mm",
        "y": "200.00 m ± 10 mm",
        "floor_level": "50.00 m ± 5 mm",
        "bearing": "90° ± 0.001°",
        "how": "total station",
        "build-up": "none",
        **changed,
    }
    return block(f"hull {tag}", **fields)


PLACES = {
    "left": {"from_near": "2.00 m", "bottom": "50.50 m"},
    "right": {"from_near": "2.00 m", "bottom": "50.50 m"},
    "near": {"from_left": "0.50 m", "bottom": "50.50 m"},
    "far": {"from_left": "0.50 m", "bottom": "50.50 m"},
    "floor": {"from_near": "2.00 m", "from_left": "0.50 m"},
    "ceiling": {"from_near": "2.00 m", "from_left": "0.50 m"},
}


def panel(face="left", tag="P-1", **changed):
    """Return a panel 1.20 m wide and 1.00 m high on a face; on the floor wide is along."""
    fields = {
        "hull": "A",
        "face": face,
        **PLACES[face],
        "width": "1.20 m",
        "height": "1.00 m",
        "board": "cement board",
        "thickness": "12 mm",
        "packing": "furring",
        "packing_thickness": "90 mm",
        "fixings": "screws",
        "comes_off": "draw the screws",
        "before_it": "none",
        "looked_at": "not recorded",
        "coats": "none",
        **changed,
    }
    return block(f"panel {tag}", **fields)


def fit_out(tag="FO-1", **changed):
    """Return a box behind the left panel: 0.30 to 0.50 m across it, 0.30 to 0.40 m up."""
    fields = {
        "what": "timber stop",
        "hull": "A",
        "from_near": "2.30 m ± 5 mm",
        "from_left": "0.00 m",
        "bottom": "50.80 m ± 8 mm",
        "along": "0.20 m",
        "across": "0.05 m",
        "height": "0.10 m",
        "how": "tape",
        **changed,
    }
    return block(f"fit-out {tag}", **fields)


def run(tag="W-1", stations=(), **changed):
    """Return a run 160 mm across; stations are (key, x, y, level, position tolerance)."""
    fields = {
        "carries": "drinking water",
        "outside_diameter": "160 mm",
        "insulation": "none",
        **changed,
    }
    rows = [
        f"| {key} | {x} | {y} | {level} | {across} | total station |"
        for key, x, y, level, across in stations
    ]
    table = [
        "",
        "| station | x [m] | y [m] | centre [m] | position tolerance | how |",
        "|---|---|---|---|---|---|",
        *rows,
    ]
    return block(f"run {tag}", **fields) + "\n" + "\n".join(table if rows else [])


def sheet(*blocks, date="2031-05-14", writer="ld", part=""):
    return day(date, writer, *blocks, part=part)


def shelter(*blocks, reader="owner", later=()):
    """Return the view of hull A with these blocks, and later sheets of more."""
    return view_of(sheet(SITE, hull(), *blocks), *later, reader=reader)


def numbers(span):
    """Return a span to 0.1 mm."""
    return (round(span.from_m, 4), round(span.to_m, 4))
