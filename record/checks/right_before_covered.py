"""Nothing was missing or wrong on the day a covering went on. What was, stays recorded."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from record.checks.finding import Finding, Rule
from record.checks.hidden import Hidden
from record.checks.moments import moment, person, when
from record.fold import Happening, natural


def days_covered(hidden: Hidden) -> dict[str, dict[str, Happening]]:
    """Return for each day on which something was first covered: the tags, and the covering."""
    days: dict[str, dict[str, Happening]] = {}
    for tag in hidden.named:
        covered = hidden.covered(tag)
        if covered is not None:
            days.setdefault(covered.on, {})[tag] = covered
    return dict(sorted(days.items()))


def told(
    hidden: Hidden, then: Sequence[Finding], covered: dict[str, Happening]
) -> Iterator[Finding]:
    """
    Yield one finding for each thing that was covered while something stood against it.

    ``then`` is what stood against the covering as of the end of that day, waivers of any day
    applied. Where all of it was waived by name, the finding stays and stops nothing. What hangs
    on a named thing without being named itself, a plug or a valve, is told as itself.
    """
    hanging = {one.about for one in then} - {*hidden.named, hidden.covering.tag}
    first = min(covered.values(), key=lambda over: when(over).earliest)
    for tag, over in (*covered.items(), *((tag, first) for tag in sorted(hanging, key=natural))):
        whole = (hidden.covering.tag,) if tag in covered else ()
        against = [one for one in then if one.about in (tag, *whole)]
        against = [one for one in against if one.stops or one.waived]
        if against:
            yield _finding(tag, over, against)


def _finding(tag: str, over: Happening, against: Sequence[Finding]) -> Finding:
    waived = [one for one in against if one.waived]
    late = [one for one in waived if _after(one, over)]
    words = sorted({one.rule for one in against})
    said = f"covered on {over.moment} by {person(over)} while this did not hold: {'; '.join(words)}"
    if waived:
        said += f" ({len(waived)} of {len(against)} waived by name"
        said += f", {len(late)} after cover)" if late else ")"
    return RULE.finding(
        tag,
        f"{said}; stays recorded for ever",
        clears=(
            "nothing makes it seen; a window dug by hand and photographed lessens it. What cannot",
            f"be opened is waived by name, each rule above under ## hold waived {over.about}",
        ),
        entries=(*over.entries(), *(entry for one in against for entry in one.entries)),
        stops=len(waived) < len(against),
    )


def _after(finding: Finding, over: Happening) -> bool:
    """Return whether a finding was waived only after the thing was covered."""
    waiver = finding.waived
    return waiver is not None and not moment(waiver.on, waiver.at).by(when(over))


RULE = Rule(
    word="right before it was covered",
    why=(
        "What went under unseen can be opened, looked at and waived, but it cannot be made to have "
        "been seen. Whoever lives over it, buys it or repairs it has a right to know."
    ),
    find=lambda hidden: iter(()),
)
