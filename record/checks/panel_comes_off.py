"""How each panel comes off is written."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, Finding, HandoverRule
from record.facts.values import Absent, Why
from record.fold import Thing
from record.readers import View

SHOWN = 6


def find(view: View) -> Iterator[Finding]:
    """Find panels of which nobody wrote how they come off, by room; it does not stop."""
    alike: dict[str, list[Thing]] = {}
    for panel in view.built.of_kind("panel"):
        value = panel.value("comes_off")
        if isinstance(value, Absent) and value.why in (Why.NOT_RECORDED, Why.NOT_SETTLED):
            where = panel.text("room") or panel.text("hull") or panel.tag
            alike.setdefault(where, []).append(panel)
    for where, panels in alike.items():
        tags = [panel.tag for panel in panels]
        more = f" and {len(tags) - SHOWN} more" if len(tags) > SHOWN else ""
        yield RULE.finding(
            where,
            f"{', '.join(tags[:SHOWN])}{more}: how it comes off is not recorded",
            clears=(f"## panel {tags[0]}", "- comes off: how, and in what order; so for each"),
            entries=(entry for panel in panels for entry in panel.entries()),
            sure=CANNOT_BE_TOLD,
            stops=False,
        )


RULE = HandoverRule(
    word="panel can be taken off",
    why=(
        "A panel whose way off nobody wrote is broken off, and what is behind it with it. "
        "(Common practice, no source.)"
    ),
    find=find,
)
