"""A whole record → what still stands open at hand-over, and the list the crew lead signs."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any, TypeVar

from record.accounts.left import Position, StillOn, for_a_time, positions, still_on
from record.accounts.proofs import NOT_TOLD, VOID, Proof, proofs
from record.checks import (
    HANDOVER_RULES,
    RULES,
    Finding,
    Readiness,
    finding_form,
    no_lapsed_proof,
    nothing_temporary_left_on,
    ready,
    released,
    valves_in_a_stated_position,
)
from record.checks.coming import not_on
from record.checks.waivers import flaw, names
from record.entry.counted import entries_said
from record.evening.tonight import Owed, owed, owed_form
from record.fold import Happening
from record.readers import View

#: The rules that name what is open beside the hand-over rules, as a waiver names them.
LAPSED = no_lapsed_proof.RULE.word
POSITION = valves_in_a_stated_position.RULE.word
TEMPORARY = nothing_temporary_left_on.RULE.word
SetAside = tuple[str, str, Happening]  # tag, rule, waiver
_T = TypeVar("_T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Handover:
    """
    What stands open on a day in the whole record, as one reader may see it.

    ``findings`` are those of the hand-over rules; ``coverings`` every covering with what stands
    against it; ``not_on`` the tags of those not recorded as on. What is ``owed`` goes into the
    list with its name and day and stops nothing by itself.
    """

    day: str
    site: str
    findings: tuple[Finding, ...]
    coverings: tuple[Readiness, ...]
    not_on: tuple[str, ...]
    on_still: tuple[StillOn, ...]
    for_a_time: tuple[Position, ...]
    not_known: tuple[Position, ...]
    lapsed: tuple[Proof, ...]
    set_aside: tuple[SetAside, ...]  # of the last four, and findings: what two people answer for
    owed: tuple[Owed, ...]
    zones: tuple[str, ...]
    withheld: int
    unread: int

    @property
    def against(self) -> tuple[tuple[Readiness, tuple[Finding, ...]], ...]:
        """Return each covering with something that still stops it, and what."""
        told = ((one, tuple(f for f in one.findings if f.stops)) for one in self.coverings)
        return tuple((one, found) for one, found in told if found)

    @property
    def waived(self) -> tuple[tuple[Readiness, Finding], ...]:
        """Return what two people answer for, covering by covering."""
        return tuple((one, f) for one in self.coverings for f in one.findings if f.waived)

    @property
    def unreleased(self) -> tuple[tuple[Readiness, Finding], ...]:
        rule = released.RULE.word
        return tuple(
            (one, f)
            for one in self.coverings
            for f in one.findings
            if f.rule == rule and not f.waived
        )

    @property
    def stops(self) -> bool:
        """Whether the lead does not sign yet."""
        return bool(
            any(one.stops for one in self.findings)
            or self.against
            or self.not_on
            or self.on_still
            or self.for_a_time
            or self.not_known
            or self.lapsed
            or self.unread
        )


def handover(view: View, day: str) -> Handover:
    """Return what stands open at hand-over on ``day`` (ISO)."""
    aside = _Aside(view)
    places = positions(view)
    found = [one for rule in HANDOVER_RULES for one in rule.find(view)]
    lapsed = [one for one in proofs(view) if one.state in (VOID, NOT_TOLD)]
    return Handover(
        day=day,
        site=view.built.site,
        findings=tuple(
            sorted(
                aside.open(found, lambda one: (one.rule, one.about)),
                key=lambda one: not one.stops,
            )
        ),
        coverings=tuple(ready(view, one.tag) for one in view.built.of_kind("covering")),
        not_on=tuple(one.tag for one in not_on(view)),
        on_still=aside.open(still_on(view), lambda one: (TEMPORARY, one.thing.tag)),
        for_a_time=aside.open(for_a_time(places), lambda one: (POSITION, one.thing.tag)),
        not_known=aside.open(
            [one for one in places if one.state == "not known"],
            lambda one: (POSITION, one.thing.tag),
        ),
        lapsed=aside.open(lapsed, lambda one: (LAPSED, one.about)),
        set_aside=tuple(aside.told.values()),
        owed=owed(view, day),
        zones=tuple(zone.tag for zone in view.built.of_kind("reserved zone")),
        withheld=view.withheld,
        unread=len(view.built.unread),
    )


class _Aside:
    """Parts what a sound waiver names, by rule and tag, from what nobody answers for."""

    def __init__(self, view: View) -> None:
        rules = (*(rule.word for rule in RULES), *(rule.word for rule in HANDOVER_RULES))
        waived = view.built.happened("hold waived")
        self._sound = [one for one in waived if not flaw(one, rules)]
        self.told: dict[tuple[str, str], SetAside] = {}

    def open(self, found: Iterable[_T], named: Callable[[_T], tuple[str, str]]) -> tuple[_T, ...]:
        """Return those that no waiver names, and keep the others as told."""
        still = []
        for one in found:
            rule, tag = named(one)
            waiver = next((w for w in self._sound if names(w, rule, tag)), None)
            if waiver is None:
                still.append(one)
            else:
                self.told[tag, rule] = (tag, rule, waiver)
        return tuple(still)


def handover_form(seen: Handover) -> dict[str, Any]:
    """Return the hand-over as plain values with stable keys."""
    return {
        "day": seen.day,
        "site": seen.site,
        "stops": seen.stops,
        "findings": [finding_form(one) for one in seen.findings],
        "coverings_not_on": list(seen.not_on),
        "coverings_stopped": [
            {"covering": one.covering.tag, "findings": [finding_form(f) for f in found]}
            for one, found in seen.against
        ],
        "covered_without_release": [one.covering.tag for one, _ in seen.unreleased],
        "waived": [
            {"covering": one.covering.tag, "finding": finding_form(f)} for one, f in seen.waived
        ],
        "set_aside": [
            {"about": tag, "rule": rule, "waiver": waiver.entry.number}
            for tag, rule, waiver in seen.set_aside
        ],
        "still_on": [one.thing.tag for one in seen.on_still],
        "left_for_a_time": [one.thing.tag for one in seen.for_a_time],
        "position_not_known": [one.thing.tag for one in seen.not_known],
        "lapsed": [{"about": one.about, "test": one.name} for one in seen.lapsed],
        "owed": [owed_form(one) for one in seen.owed],
        "zones": list(seen.zones),
        "withheld": seen.withheld,
        "unread": seen.unread,
    }


def stopping(seen: Handover) -> Iterator[tuple[str, str]]:
    """Yield all that keeps the lead from signing: what it is about, and what is said."""
    if seen.unread:
        yield seen.site, f"{entries_said(seen.unread)} nobody could read; a newer program may"
    for finding in seen.findings:
        if finding.stops:
            yield finding.about, finding.says
    for one, found in seen.against:
        for finding in found:
            yield one.covering.tag, f"{finding.about}: {finding.says}"
    for tag in seen.not_on:
        yield tag, "not recorded as on over all it hides; cover it, or withdraw it"
    for still in seen.on_still:
        yield still.thing.tag, f"still on: {still.words}"
    for place in (*seen.for_a_time, *seen.not_known):
        yield place.thing.tag, place.words
    for proof in seen.lapsed:
        yield proof.about, f"{proof.name}: {proof.words}"
