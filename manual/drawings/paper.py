"""The paper that a drawing across a whole page fills, and what stands at the head of it: mm."""

from manual.drawings.ink import TITLE_MM, Ink, paragraph

WIDTH_MM = 170.0  # between the margins of the page
EDGE_MM = 2.0  # kept clear of ink all round
ROOM_MM = WIDTH_MM - 2 * EDGE_MM


def headed(title: str, *said: str, width_mm: float = ROOM_MM) -> tuple[Ink, float]:
    """A title, what is said of the whole drawing under it, and the place beneath them."""
    head, y = paragraph([title], EDGE_MM, EDGE_MM, width_mm=width_mm, size_mm=TITLE_MM, bold=True)
    words, y = paragraph(said, EDGE_MM, y + 0.5 if said else y, width_mm=width_mm)
    return head + words, y
