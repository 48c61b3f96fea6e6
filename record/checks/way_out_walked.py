"""Every way out has a drill that leads through it, and somebody has walked it."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, HandoverRule
from record.facts.values import Absent, Why
from record.fold import Thing
from record.readers import View

EVENT = "get out"


def find(view: View) -> Iterator[Finding]:
    """Find ways out that no procedure leads to, and those nobody is said to have walked."""
    drills = [p for p in view.built.of_kind("procedure") if p.text("event") == EVENT]
    for way in view.built.of_kind("way out"):
        leads = [
            drill for drill in drills if any(way.tag in s.tags("touches") for s in drill.parts)
        ]
        if not leads:
            yield _none(way)
        elif all(isinstance(drill.value("walked_by"), Absent) for drill in leads):
            yield _unwalked(way, leads[0])


def _none(way: Thing) -> Finding:
    return RULE.finding(
        way.tag,
        f'no procedure for "{EVENT}" touches it',
        clears=(
            "## procedure and its tag",
            f"- event: {EVENT}",
            "- walked by: who walked it, without opening what is filled",
            f"and its steps, with {way.tag} under touches",
        ),
        entries=way.entries(),
    )


def _unwalked(way: Thing, drill: Thing) -> Finding:
    value = drill.value("walked_by")
    none = isinstance(value, Absent) and value.why is not Why.NOT_RECORDED
    return RULE.finding(
        way.tag,
        f"its procedure {drill.tag} was walked by: {drill.words('walked_by')}",
        clears=(f"## procedure {drill.tag}", "- walked by: who", "- took: how long"),
        entries=(*way.entries(), *drill.entries()),
        sure=CERTAIN if none else CANNOT_BE_TOLD,
    )


RULE = HandoverRule(
    word="way out walked through",
    why=(
        "A way out that nobody ever walked has a step that does not work, and it is found in the "
        "dark. It is walked without opening what is filled: never open a filled shaft to practise. "
        "(Common practice, no source.)"
    ),
    find=find,
)
