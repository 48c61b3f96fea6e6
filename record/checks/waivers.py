"""Waivers: who let the work go on although something was missing, and for what."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from difflib import get_close_matches

from record.checks.finding import CANNOT_BE_TOLD, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.moments import person
from record.facts.faults import plain
from record.facts.values import in_words
from record.fold import Happening


def waivers(hidden: Hidden) -> tuple[Happening, ...]:
    """Return every waiver about this covering or about a thing it hides, in order."""
    tags = {hidden.covering.tag, *hidden.named, *(thing.tag for thing in hidden.everything())}
    return tuple(one for one in hidden.built.happened("hold waived") if one.about in tags)


def flaw(waiver: Happening, rules: Collection[str]) -> str:
    """Return why a waiver waives nothing, or nothing where it is sound."""
    rule, second = waiver.text("rule"), waiver.text("second")
    if rule is None or plain(rule) not in {plain(word) for word in rules}:
        near = get_close_matches(plain(rule or ""), [*rules], 1, 0.5)
        hint = f'; did they mean "{near[0]}"?' if near else ""
        return f'"{waiver.words("rule")}" is no rule here{hint}'
    if waiver.text("reason") is None:
        return f"its reason is {in_words(waiver.value('reason'))}"
    if second is None:
        return f"its second person is {in_words(waiver.value('second'))}"
    if plain(second) in _same(waiver):
        return f"{second} cannot be their own second"
    if not waiver.tags("tags"):
        return f"its tags are {in_words(waiver.value('tags'))}"
    return ""


def _same(waiver: Happening) -> set[str]:
    """Return whoever already stands for the waiver as its first person."""
    return {plain(person(waiver)), waiver.entry.link.writer}


def apply(
    findings: Sequence[Finding], told: Sequence[Happening], rules: Collection[str]
) -> tuple[Finding, ...]:
    """Return the findings, those that a sound waiver names shown as waived and not stopping."""
    sound = [one for one in told if not flaw(one, rules)]
    return tuple(_waived(finding, sound) for finding in findings)


def _waived(finding: Finding, sound: Sequence[Happening]) -> Finding:
    for waiver in sound:
        if names(waiver, finding.rule, finding.about):
            return replace(finding, stops=False, waived=waiver)
    return finding


def names(waiver: Happening, rule: str, tag: str) -> bool:
    """Return whether a waiver names this rule and this tag."""
    return plain(waiver.text("rule") or "") == plain(rule) and tag in waiver.tags("tags")


def flawed(hidden: Hidden, rules: Collection[str]) -> Iterator[Finding]:
    """Yield a finding for every waiver that waives nothing, and why it does not."""
    for waiver in waivers(hidden):
        if why := flaw(waiver, rules):
            yield RULE.finding(
                hidden.covering.tag,
                f"waiver {waiver.entry.number} of {waiver.moment} waives nothing: {why}",
                clears=(
                    f"- mends: {waiver.entry.number}",
                    "- because: what was wrong with it",
                    "- rule, tags, reason and second: those of a waiver that two people stand by",
                ),
                entries=waiver.entries(),
                sure=CANNOT_BE_TOLD,
                stops=False,
            )


RULE = Rule(
    word="a waiver names rule, reason and second",
    why=(
        "A waiver lets two named people answer for what nobody will see again. One without its "
        "rule, its reason or its second person lets nobody answer, and is not counted."
    ),
    find=lambda hidden: iter(()),
)
