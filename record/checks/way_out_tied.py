"""The top of every way out can be found from above with a tape and landmarks."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import Finding, HandoverRule
from record.checks.two_ties_and_a_check import WANTED, landmarks, ties
from record.place import tied_points
from record.readers import View


def find(view: View) -> Iterator[Finding]:
    """Find ways out whose top fewer than three landmarks were taped to."""
    tied = tied_points(view.built)
    for way in view.built.of_kind("way out"):
        lids = [door.tag for door in view.built.of_kind("door") if way.tag in door.tags("in")]
        places = (way.tag, *lids)
        marks = landmarks(tied, places)
        if len(marks) >= WANTED:
            continue
        known = f"tied from {', '.join(marks)} only" if marks else "not tied from any landmark"
        yield RULE.finding(
            way.tag,
            f"its top is {known}; two ties find it again, a third proves them",
            clears=(
                f"## position tied {way.tag}",
                "| landmark | point | distance | side |",
                "|---|---|---|---|",
                "and a row for each of three landmarks, to the middle of its top",
            ),
            entries=(*way.entries(), *ties(tied, places)),
        )


RULE = HandoverRule(
    word="way out found from above",
    why=(
        "Those who dig somebody out must find its top under grass, snow or rubble, and quickly. A "
        "tape from two landmarks that still stand finds it; a third proves them. (Common practice, "
        "no source.)"
    ),
    find=find,
)
