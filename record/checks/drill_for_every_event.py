"""Each emergency that the manual has a page for has a drill that was recorded."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CERTAIN, Finding, HandoverRule
from record.checks.procedure_for_equipment import EVERYDAY
from record.facts.inside import EVENTS
from record.readers import View


def find(view: View) -> Iterator[Finding]:
    """Find the emergencies that no procedure with a step is for, together; it does not stop."""
    drilled = {drill.text("event") for drill in view.built.of_kind("procedure") if drill.parts}
    lacks = [event for event in EVENTS if event != EVERYDAY and event not in drilled]
    if lacks:
        yield RULE.finding(
            view.built.site,
            f"no drill is recorded for: {', '.join(lacks)}; the manual prints drafts",
            clears=(
                "## procedure and its tag",
                f"- event: {lacks[0]}, and so for each",
                "and its steps, one action a row, with what each touches",
            ),
            sure=CERTAIN,
            stops=False,
        )


RULE = HandoverRule(
    word="a drill for every emergency",
    why=(
        "A page of the trade's usual words fits no shelter wholly. Only a drill that was walked "
        "here says which handle it is and where it sits. (Common practice, no source.)"
    ),
    find=find,
)
