"""Each piece of equipment that is worked in an emergency stands in a step of a procedure."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CERTAIN, Finding, HandoverRule
from record.fold import Thing
from record.readers import View

#: What somebody must work, or heed, when something goes wrong. Common practice, no source.
EMERGENCY = (
    "air unit",
    "hand crank",
    "fan",
    "pump",
    "alarm",
    "generator",
    "door",
    "radio",
    "extinguisher",
)
EVERYDAY = "normal working"


def find(view: View) -> Iterator[Finding]:
    """
    Find emergency equipment that no procedure for an emergency touches.

    A step that touches what a piece is part of, or a part of it, is one. What is only told for
    normal working is not.
    """
    touched = {
        tag
        for procedure in view.built.of_kind("procedure")
        if procedure.text("event") != EVERYDAY
        for step in procedure.parts
        for tag in step.tags("touches")
    }
    for piece in view.built.of_kind("equipment"):
        if piece.text("type") in (*EMERGENCY, None) and not touched & _family(view, piece):
            yield RULE.finding(
                piece.tag,
                f"no procedure has a step that touches it ({_called(piece)})",
                clears=(
                    "## procedure and its tag",
                    "- event: what has happened, such as power lost or air bad",
                    f"and its steps, with {piece.tag} under touches",
                ),
                entries=piece.entries(),
                sure=CERTAIN if piece.text("type") else "cannot be told",
            )


def _family(view: View, piece: Thing) -> set[str]:
    parts = {o.tag for o in view.built.of_kind("equipment") if piece.tag in o.tags("part_of")}
    return {piece.tag, *piece.tags("part_of"), *parts}


def _called(piece: Thing) -> str:
    name = piece.text("name")
    return f"{piece.words('type')}, {name}" if name else piece.words("type")


RULE = HandoverRule(
    word="procedure for emergency equipment",
    why=(
        "A pump that no page tells of stands still while the water rises. Whoever never read the "
        "manual works what a step names, by what it looks like and where it is. (Common practice, "
        "no source.)"
    ),
    find=find,
)
