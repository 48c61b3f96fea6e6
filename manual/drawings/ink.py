"""What is on the paper: marks, and words each in a box of known size."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from hashlib import sha256
from typing import Literal, Self

from manual.drawings import svg
from manual.drawings.lettering import ASCENT_EM, HEIGHT_EM, width_em, wrap

TEXT_MM = 2.8  # 7.9 pt
TITLE_MM = 3.8  # 10.8 pt
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Box:
    """One line of words and the room it takes, in mm from the top left of the drawing."""

    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float
    text: str
    size_mm: float = TEXT_MM
    anchor: Anchor = "start"
    bold: bool = False
    backed: bool = False  # on white, where lines or a hatch run beneath

    @property
    def right_mm(self) -> float:
        return self.x_mm + self.width_mm

    @property
    def bottom_mm(self) -> float:
        return self.y_mm + self.height_mm

    def overlaps(self, other: Self, *, gap_mm: float = 0.0) -> bool:
        """Whether two boxes share paper, or come nearer than a gap."""
        return (
            self.x_mm < other.right_mm + gap_mm
            and other.x_mm < self.right_mm + gap_mm
            and self.y_mm < other.bottom_mm + gap_mm
            and other.y_mm < self.bottom_mm + gap_mm
        )


@dataclass(frozen=True, slots=True)
class Ink:
    """Marks first, words over them."""

    marks: tuple[str, ...] = ()
    labels: tuple[Box, ...] = ()

    def __add__(self, other: "Ink") -> "Ink":
        return Ink(self.marks + other.marks, self.labels + other.labels)


@dataclass(frozen=True, slots=True)
class Drawing:
    """A finished picture: its SVG, the same in words, every label's box, and its size in mm."""

    svg: str
    alt: str
    labels: tuple[Box, ...]
    width_mm: float
    height_mm: float


def gather(inks: Iterable[Ink]) -> Ink:
    """Several inks as one, in the order given."""
    held = tuple(inks)
    return Ink(
        tuple(mark for ink in held for mark in ink.marks),
        tuple(label for ink in held for label in ink.labels),
    )


def written(
    words: str,
    x_mm: float,
    top_mm: float,
    *,
    size_mm: float = TEXT_MM,
    anchor: Anchor = "start",
    bold: bool = False,
    backed: bool = False,
) -> Box:
    """A line of words whose box hangs from `top_mm`, at, about or up to `x_mm`."""
    width = width_em(words, bold=bold) * size_mm
    left = x_mm - {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    return Box(left, top_mm, width, HEIGHT_EM * size_mm, words, size_mm, anchor, bold, backed)


def paragraph(
    words: Sequence[str],
    x_mm: float,
    top_mm: float,
    *,
    width_mm: float,
    size_mm: float = TEXT_MM,
    bold: bool = False,
) -> tuple[Ink, float]:
    """Wrapped lines under each other, and the place beneath them."""
    lines = [line for each in words for line in wrap(each, most_em=width_mm / size_mm, bold=bold)]
    step = HEIGHT_EM * size_mm
    boxes = tuple(
        written(line, x_mm, top_mm + row * step, size_mm=size_mm, bold=bold)
        for row, line in enumerate(lines)
    )
    return Ink((), boxes), top_mm + len(lines) * step


def moved(box: Box, *, x_mm: float = 0.0, y_mm: float = 0.0) -> Box:
    """The same words elsewhere."""
    return replace(box, x_mm=box.x_mm + x_mm, y_mm=box.y_mm + y_mm)


def finished(
    ink: Ink, *, title: str, alt: str, width_mm: float, height_mm: float, leads: bool = False
) -> Drawing:
    """The whole SVG: title and description for those who listen, marks, then words.

    With ``leads`` some of its marks lead elsewhere, so that it is no single picture to listen to.
    """
    body = "\n".join((*ink.marks, *(_inked(box) for box in ink.labels)))
    name = "d" + sha256(f"{title}\n{alt}\n{body}".encode("utf-8", "replace")).hexdigest()[:12]
    head = "\n".join(
        (
            svg.text_element("title", title, id=f"{name}-title"),
            svg.text_element("desc", alt, id=f"{name}-desc"),
        )
    )
    size = {"width": f"{svg.number(width_mm)}mm", "height": f"{svg.number(height_mm)}mm"}
    whole = svg.element(
        "svg",
        f"\n{head}\n{body}\n",
        xmlns="http://www.w3.org/2000/svg",
        role="group" if leads else "img",
        aria_labelledby=f"{name}-title {name}-desc",
        **size,
        viewBox=f"0 0 {svg.number(width_mm)} {svg.number(height_mm)}",
        font_family=svg.FONT,
    )
    return Drawing(whole + "\n", svg.clean(alt), ink.labels, width_mm, height_mm)


def _inked(box: Box) -> str:
    along = {"start": 0.0, "middle": box.width_mm / 2, "end": box.width_mm}[box.anchor]
    weight: dict[str, str | float] = {"font_weight": "bold"} if box.bold else {}
    words = svg.text_element(
        "text",
        box.text,
        x=box.x_mm + along,
        y=box.y_mm + ASCENT_EM * box.size_mm,
        font_size=box.size_mm,
        text_anchor=box.anchor,
        fill=svg.BLACK,
        **weight,
    )
    return f"{_backing(box)}{words}" if box.backed else words


def _backing(box: Box) -> str:
    return svg.element(
        "rect",
        x=box.x_mm - 0.4,
        y=box.y_mm,
        width=box.width_mm + 0.8,
        height=box.height_mm,
        fill=svg.PAPER,
    )
