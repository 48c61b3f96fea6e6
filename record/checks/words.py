"""What a readiness reads like: on the terminal, and as JSON for programs."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import Any

from record.checks.finding import CANNOT_BE_TOLD, Finding
from record.checks.moments import person
from record.checks.ready import Readiness
from record.entry.counted import withheld_said
from record.fold import Happening

WIDTH = 96
INDENT = "    "


def ready_words(readiness: Readiness) -> list[str]:
    """
    Return the readiness as lines: what stops it first, each with why and what clears it.

    Where nothing stops it, the last line says so and who releases it; it never says that the
    covering may go on.
    """
    lines = _wrapped(_head(readiness)) if readiness.findings else []
    met: set[str] = set()
    for finding in readiness.findings:
        lines += ["", *finding_words(finding, first=finding.rule not in met)]
        met.add(finding.rule)
    if readiness.withheld:
        lines += ["", *_withheld(readiness)]
    if not readiness.stops:
        lines += ["", nothing_in_the_way(readiness)] if lines else [nothing_in_the_way(readiness)]
    return lines


def nothing_in_the_way(readiness: Readiness) -> str:
    """Return the one line for a covering that nothing recorded stops."""
    tag = readiness.covering.tag
    if readiness.already_covered:
        return f"Nothing recorded is open against {tag}, which is on already."
    unless = " that this copy may show" if readiness.withheld else ""
    return (
        f"Nothing recorded{unless} stands in the way of {tag}; the lead and a second person "
        "release it."
    )


def _head(readiness: Readiness) -> str:
    stops = sum(1 for one in readiness.findings if one.stops)
    waived = sum(1 for one in readiness.findings if one.waived)
    rest = len(readiness.findings) - stops - waived
    counts = [
        f"{count} {words}"
        for count, words in (
            (stops, "to put right first"),
            (waived, "waived"),
            (rest, "to look at"),
        )
        if count
    ]
    covering = readiness.covering
    what = covering.words("what")
    planned = covering.text("planned")
    on = [one.moment for one in readiness.already_covered]
    told = f", covered {', '.join(on)}" if on else f", planned {planned}" if planned else ""
    return f"{covering.tag} ({what}{told}): {', '.join(counts)}."


def finding_words(finding: Finding, *, first: bool = True) -> Iterator[str]:
    """Yield one finding as lines; ``first`` of its rule says why."""
    mark = "STOPS " if finding.stops else "WAIVED" if finding.waived else "LOOK  "
    doubt = " [cannot be told]" if finding.sure == CANNOT_BE_TOLD else ""
    yield from _wrapped(f"{mark}  {finding.about}: {finding.says}{doubt}")
    yield from (INDENT + line for line in finding.shows)
    yield from _wrapped(f"{INDENT}rule: {finding.rule}")
    if first:
        yield from _wrapped(f"{INDENT}why: {finding.why}")
    if finding.waived:
        yield from _wrapped(INDENT + waiver_words(finding.waived))
    elif finding.clears:
        yield f"{INDENT}clears it:"
        yield from (f"{INDENT}{INDENT}{line}" for line in finding.clears)
    if finding.entries:
        yield from _wrapped(f"{INDENT}rests on: {', '.join(finding.numbers)}")
    if first and finding.figures:
        asked = " and ".join(f"asburied figures {name}" for name in finding.figures)
        yield from _wrapped(f"{INDENT}worked with all its inputs: {asked}")


def waiver_words(waiver: Happening) -> str:
    """Return who waived it, when, why, and who stands by it."""
    return (
        f"waived {waiver.moment} by {person(waiver)} ({waiver.entry.number}): "
        f"{waiver.words('reason')}; second {waiver.words('second')}"
    )


def _wrapped(line: str) -> list[str]:
    lead = INDENT if not line.startswith(INDENT) else INDENT * 2
    return textwrap.wrap(
        line,
        WIDTH,
        subsequent_indent=lead,
        break_long_words=False,
        break_on_hyphens=False,
        drop_whitespace=True,
    )


def _withheld(readiness: Readiness) -> list[str]:
    return _wrapped(
        f"{withheld_said(readiness.withheld)} from this reader. What seems missing here may "
        "be recorded in one of them, and so may more that is wrong; ask with the owner's copy."
    )


def json_form(readiness: Readiness) -> dict[str, Any]:
    """Return the readiness as plain values with stable keys."""
    return {
        "covering": readiness.covering.tag,
        "what": readiness.covering.text("what"),
        "planned": readiness.covering.text("planned"),
        "hides": list(readiness.hides),
        "stops": readiness.stops,
        "withheld": readiness.withheld,
        "findings": [finding_form(finding) for finding in readiness.findings],
        "covered": [
            {"on": one.on, "at": one.at, "by": person(one), "entry": one.entry.number}
            for one in readiness.already_covered
        ],
    }


def finding_form(finding: Finding) -> dict[str, Any]:
    """Return one finding as plain values with stable keys."""
    waiver = finding.waived
    return {
        "rule": finding.rule,
        "about": finding.about,
        "says": finding.says,
        "sure": finding.sure,
        "why": finding.why,
        "clears": list(finding.clears),
        "shows": list(finding.shows),
        "stops": finding.stops,
        "entries": list(finding.numbers),
        "figures": list(finding.figures),
        "waived": waiver
        and {
            "on": waiver.on,
            "at": waiver.at,
            "by": person(waiver),
            "reason": waiver.words("reason"),
            "second": waiver.words("second"),
            "entry": waiver.entry.number,
        },
    }
