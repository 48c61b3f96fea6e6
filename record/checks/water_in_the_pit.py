"""The water in the open pit stands below the level at which a hull begins to float."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.figures.flood import AT_MARK, EARTH, NO_MARK, NO_READING, FloatMark, float_marks


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find hulls this earth goes round that may be afloat, and those of which nobody can tell."""
    if hidden.covering.text("what") not in EARTH:
        return
    hulls = {thing.tag for thing in hidden.things if thing.kind.word == "hull"}
    if not hulls:
        return
    for mark in float_marks(hidden.view):
        if mark.hull.tag in hulls and mark.state in (AT_MARK, NO_MARK, NO_READING):
            yield _finding(mark)


def _finding(mark: FloatMark) -> Finding:
    tag = mark.hull.tag
    over = mark.state == AT_MARK
    clears: tuple[str, ...] = (f"## hull {tag}", "- mass: the least it can weigh as it stands")
    if over:
        clears = (
            "pump the pit, dip again, and level the hull at its corners before any fill:",
            f"## reading taken {mark.pipe}",
            "- what: water level",
        )
    elif mark.state == NO_READING:
        clears = ("## reading taken, of a dip pipe", "- what: water level", "- reading: its level")
    return RULE.finding(
        tag,
        f"{mark.water_words}; {mark.mark_words}" if mark.mark_m is not None else mark.mark_words,
        clears=clears,
        entries=mark.entries,
        sure=CERTAIN if over else CANNOT_BE_TOLD,
        stops=over,
    )


RULE = Rule(
    word="water below the float mark",
    why=(
        "An empty hull in an open pit is a boat. Once it has lifted, even by a hand's breadth, "
        "mud runs under it, pipes and seams are torn, and fill put round it hides that."
    ),
    figures=("float-level",),
    find=find,
)
