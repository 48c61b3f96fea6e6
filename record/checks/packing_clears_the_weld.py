"""Behind a board that crosses a seam the packing is as thick as the weld stands up."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.sealed_inside_and_out import FROM_INSIDE
from record.facts.values import in_words
from record.fold import Thing
from record.place import face_frame, outline
from record.units import Dimension, in_both

USUAL_M = Decimal("0.00635")  # 1/4 in, common practice, no source
REACH_M = 0.5


def find(hidden: Hidden) -> Iterator[Finding]:
    """
    Find lining boards over a seam whose packing is thinner than its weld, or not known.

    A weld whose height nobody wrote is held as 1/4 in.
    """
    if hidden.covering.text("what") not in (*FROM_INSIDE, None):
        return
    for seam in hidden.seams:
        for panel in hidden.built.of_kind("panel"):
            crosses = _crosses(hidden, panel, seam)
            if crosses is not False:
                yield from _pair(panel, seam, placed=crosses is True)


def _crosses(hidden: Hidden, panel: Thing, seam: Thing) -> bool | None:
    """Return whether a board lies over a seam; None where one of them has no whole place."""
    hull = hidden.view.hulls.get(panel.text("hull") or "")
    frame = face_frame(panel, hull) if hull else None
    shapes = [shape for shape in hidden.view.shapes if shape.thing.tag == seam.tag]
    if frame is None or not shapes:
        return None
    near = [outline(shape, frame, REACH_M, hidden.view.hulls) is not None for shape in shapes]
    return any(near)


def _pair(panel: Thing, seam: Thing, *, placed: bool) -> Iterator[Finding]:
    packing, height = panel.si("packing_thickness"), seam.si("weld_height")
    least = USUAL_M if height is None else height
    stands = in_both(least, Dimension.LENGTH)
    said = f"stands {stands} up"
    if height is None:
        weld = in_words(seam.value("weld_height"))
        said = f"may stand {stands} up, as is usual (weld height {weld})"
    if packing is not None and packing >= least:
        return
    where = "behind it" if placed else "may lie behind it (a place is not recorded) and"
    thick = "not known" if packing is None else in_both(packing, Dimension.LENGTH)
    yield RULE.finding(
        panel.tag,
        f"its packing is {thick} thick, and the weld of {seam.tag} {where} {said}",
        clears=(
            f"pack it out, and write ## panel {panel.tag}, - packing thickness: what it is now",
            f"## seam {seam.tag}",
            "- weld height: as measured",
        ),
        entries=(*panel.entries(), *seam.entries()),
        sure=CERTAIN if placed and None not in (packing, height) else CANNOT_BE_TOLD,
    )


RULE = Rule(
    word="packing clears the weld",
    why=(
        "A board screwed down over a weld that stands higher than its packing rides on it: it "
        "bows, its joints open, and the screws beside the weld draw out. Packing as thick as the "
        "weld, 1/4 in as a rule, keeps it flat. (Common practice, no source.)"
    ),
    find=find,
)
