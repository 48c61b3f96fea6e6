"""SVG text, written so that the same drawing is always the same bytes.

Numbers carry two decimals at most; every length is a millimetre on paper.
"""

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

# The manual's own faces, then what a reader of the bare file may have. No space after a comma:
# WeasyPrint keeps it in SVG, and would miss the family.
FONT = (
    "'Asburied Text','Asburied Marks','Atkinson Hyperlegible Next',"
    "'Atkinson Hyperlegible','DejaVu Sans',sans-serif"
)
BLACK = "#000000"
GREY = "#595959"  # 7.0:1 on white, so a line lasts through a poor copier
PAPER = "#ffffff"

Point = tuple[float, float]

# What XML 1.0 cannot carry (section 2.2, "Char").
_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


@dataclass(frozen=True, slots=True)
class Pen:
    """A line type: width in mm, dash pattern in mm (empty is unbroken)."""

    width_mm: float
    colour: str = BLACK
    dash: str = ""


HEAVY = Pen(0.6)
EDGE = Pen(0.4)
PLAIN = Pen(0.25)
FINE = Pen(0.15, GREY)
DASHED = Pen(0.35, BLACK, "2.4 1.2")
DOTTED = Pen(0.35, BLACK, "0.4 0.9")
DASH_DOT = Pen(0.3, BLACK, "4 1 0.6 1")
GRID = Pen(0.12, GREY, "0.5 1.5")


def number(value: float) -> str:
    """Two decimals at most, no trailing noughts, never a minus nought.

    >>> number(2.50), number(-0.001), number(1 / 3)
    ('2.5', '0', '0.33')

    A number that is not finite is a ValueError.
    """
    if not math.isfinite(value):
        raise ValueError(f"a drawing cannot place {value}")
    written = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


def clean(words: str) -> str:
    """Words on one line, with anything XML cannot carry shown as U+FFFD.

    >>> clean("a\\n  b\\x07")
    'a b\\ufffd'
    """
    return " ".join(_NOT_XML.sub("\ufffd", words).split())


def element(name: str, content: str = "", /, **attributes: str | float) -> str:
    """One element; underscores in attribute names become hyphens. Content is already SVG."""
    written = "".join(
        f" {key.strip('_').replace('_', '-')}={quoteattr(_value(value))}"
        for key, value in attributes.items()
    )
    return f"<{name}{written}>{content}</{name}>" if content else f"<{name}{written}/>"


def text_element(name: str, words: str, /, **attributes: str | float) -> str:
    """An element that holds words."""
    return element(name, escape(clean(words)), **attributes)


def track(points: Sequence[Point], *, closed: bool = False) -> str:
    """Path data through points, in mm.

    >>> track([(0, 0), (2.5, 1)], closed=True)
    'M0 0L2.5 1Z'
    """
    places = "L".join(f"{number(x)} {number(y)}" for x, y in points)
    return f"M{places}{'Z' if closed else ''}" if points else ""


def stroke(data: str, pen: Pen, *, fill: str = "none") -> str:
    """A path drawn with a pen."""
    dash: dict[str, str | float] = {"stroke_dasharray": pen.dash} if pen.dash else {}
    return element("path", d=data, fill=fill, stroke=pen.colour, stroke_width=pen.width_mm, **dash)


def line(points: Sequence[Point], pen: Pen) -> str:
    """An open line through points."""
    return stroke(track(points), pen)


def outline(points: Sequence[Point], pen: Pen, *, fill: str = "none") -> str:
    """A closed line through points."""
    return stroke(track(points, closed=True), pen, fill=fill)


def dot(x_mm: float, y_mm: float, radius_mm: float = 0.6, *, fill: str = BLACK) -> str:
    """A round mark; filled with the paper's colour it is an open ring."""
    return element(
        "circle", cx=x_mm, cy=y_mm, r=radius_mm, fill=fill, stroke=BLACK, stroke_width=0.3
    )


def _value(value: str | float) -> str:
    return clean(value) if isinstance(value, str) else number(value)
