"""Ground and boards where a covering goes that are reserved for what its reader may not see."""

from __future__ import annotations

from record.checks.hidden import Hidden
from record.checks.zones import BOARDS, COATS, EARTH, panels, zones_round
from record.readers import View

DEEP_M = 1.0  # behind a board; asked in whole metres, as finer would point


def reserved_there(hidden: Hidden) -> str:
    """
    Return what of where a covering goes is reserved, in words; "" where nothing is.

    The owner of a whole record sees all there is, so nothing is reserved for them. What is
    covered already is asked no more.
    """
    view, what = hidden.view, hidden.covering.text("what")
    on = any(one.about == hidden.covering.tag for one in hidden.built.happened("covered"))
    if not view.partial or on:
        return ""
    if what in BOARDS:
        boards = [panel.tag for panel, face in panels(hidden) if view.reserved(face, DEEP_M)]
        return f"behind {', '.join(boards)}" if boards else _unknown(view, any(panels(hidden)))
    if what not in EARTH and what not in COATS:
        return ""
    boxes = [zone.box() for zone in zones_round(hidden, earth=what in EARTH)]
    if any(view.reserved_in(box) for box in boxes):
        return f"in the ground where {hidden.covering.tag} goes"
    return _unknown(view, bool(boxes))


def _unknown(view: View, placed: bool) -> str:
    """Where nobody recorded where it goes, a copy that cannot tell what is reserved says so."""
    return "where it goes, of which no place is recorded" if view.blind and not placed else ""
