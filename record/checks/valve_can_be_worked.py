"""How a valve normally stands and how it is reached are written."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, Finding, Rule
from record.checks.hidden import Hidden
from record.facts.values import Absent, Why, in_words

NAMES = ("normal_position", "reached_by")


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find valves on the hidden runs whose normal position or way to them is not written."""
    for valve in hidden.valves:
        values = {name: valve.value(name) for name in NAMES}
        lacks = [
            name
            for name, value in values.items()
            if isinstance(value, Absent) and value.why in (Why.NOT_RECORDED, Why.NOT_SETTLED)
        ]
        if lacks:
            said = ", ".join(f"{n.replace('_', ' ')} {in_words(values[n])}" for n in lacks)
            yield RULE.finding(
                valve.tag,
                said,
                clears=(
                    f"## valve {valve.tag}",
                    *(f"- {name.replace('_', ' ')}: what it is" for name in lacks),
                ),
                entries=valve.entries(),
                sure=CANNOT_BE_TOLD,
                stops=False,
            )


RULE = Rule(
    word="valve can be worked",
    why=(
        "In trouble somebody who has never seen it must find the valve and know whether it should "
        "be open. A valve that was buried without a box is found by no one."
    ),
    find=find,
)
