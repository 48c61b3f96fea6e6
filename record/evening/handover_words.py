"""How a hand-over reads: what keeps the lead from signing, what is open, and lines to sign on."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from record.checks.words import waiver_words
from record.entry.counted import withheld_said
from record.evening.handover import Handover, stopping
from record.evening.words import WIDTH, owed_words

NAME, DAY = "_" * 32, "_" * 12


def handover_words(seen: Handover) -> list[str]:
    """Return the list as lines to print on paper; it never says that the work is right."""
    lines = [f"Hand-over of {seen.site}, as recorded to {seen.day}."]
    for part in (
        _stops(seen),
        _look(seen),
        _owed(seen),
        _unreleased(seen),
        _answered(seen),
        _limit(seen),
    ):
        told = list(part)
        lines += ["", *told] if told else []
    return [*lines, "", *_signed(seen)]


def _stops(seen: Handover) -> Iterator[str]:
    told = list(stopping(seen))
    if not told:
        yield "Nothing recorded keeps the lead from signing."
        return
    yield f"DO NOT SIGN YET: {len(told)} to settle, or waived by two"
    for about, said in told:
        yield from _line(f"  [ ] {about}: {said}")


def _look(seen: Handover) -> Iterator[str]:
    rest = [one for one in seen.findings if not one.stops]
    rest += [f for one in seen.coverings for f in one.findings if not f.stops and not f.waived]
    unreleased = [f for _, f in seen.unreleased]
    rest = [one for one in rest if one not in unreleased]
    told = dict.fromkeys(f"  [ ] {one.about}: {one.says}" for one in rest)
    if told:
        yield "TO LOOK AT"
    for line in told:
        yield from _line(line)


def _owed(seen: Handover) -> Iterator[str]:
    if seen.owed:
        yield "OPEN, AND IN WHOSE HANDS"
    for one in seen.owed:
        yield from _line(f"  [ ] {owed_words(one)}")


def _unreleased(seen: Handover) -> Iterator[str]:
    told = dict.fromkeys(one.covering.tag for one, _ in seen.unreleased)
    if told:
        yield "COVERED WITH NO RELEASE RECORDED BEFORE IT; this stays recorded for ever"
        yield from _line(f"  {', '.join(told)}")


def _answered(seen: Handover) -> Iterator[str]:
    if seen.waived or seen.set_aside:
        yield "WAIVED, AND WHO ANSWERS"
    for one, finding in seen.waived:
        assert finding.waived is not None
        yield from _line(
            f"  {one.covering.tag}, {finding.about}, {finding.rule}: {waiver_words(finding.waived)}"
        )
    for tag, rule, waiver in seen.set_aside:
        yield from _line(f"  {tag}, {rule}: {waiver_words(waiver)}")


def _limit(seen: Handover) -> Iterator[str]:
    if seen.withheld:
        yield from _line(
            f"{withheld_said(seen.withheld)} from this reader, and may say more. The lead "
            "signs the owner's copy."
        )
    yield from _line(
        "This list holds what was recorded. It does not prove that the work is right, nor that "
        "nothing was left out; codes, makers and licensed people come before it."
    )


def _signed(seen: Handover) -> Iterator[str]:
    zones = f" (zones {', '.join(seen.zones)})" if seen.zones else ""
    for who in (
        "Crew lead",
        "Second person",
        f"General contractor, for zones not to drill and open holds{zones}",
        "Owner, for copies, keys and drills",
    ):
        yield from _line(who)
        yield f"  {NAME}   day {DAY}"


def _line(line: str) -> Iterable[str]:
    return textwrap.wrap(
        line, WIDTH, subsequent_indent="      ", break_long_words=False, break_on_hyphens=False
    )
