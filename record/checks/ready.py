"""May it be covered? What is missing, what is wrong, what was waived, and by whom."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from record.checks import right_before_covered, waivers
from record.checks.finding import Finding
from record.checks.hidden import Hidden, what_it_hides
from record.checks.rules import RULES, WORDS
from record.fold import Happening, Thing, natural
from record.readers import View, look_back


class NoSuchCovering(LookupError):
    """There is no covering of that tag; the text says which ones there are, or come near."""

    def __init__(self, tag: str, text: str, near: tuple[str, ...]) -> None:
        super().__init__(text)
        self.tag, self.near = tag, near


@dataclass(frozen=True, slots=True, kw_only=True)
class Readiness:
    """
    What stands in the way of a covering, as far as the record says.

    ``findings`` come with what stops first, then what was waived, then what is to be looked at.
    ``already_covered`` is every time it went on, in order. ``withheld`` counts entries this
    reader may not see: they may hold what is missing here, or more that is wrong.
    """

    covering: Thing
    hides: tuple[str, ...]
    findings: tuple[Finding, ...]
    already_covered: tuple[Happening, ...]
    withheld: int

    @property
    def stops(self) -> bool:
        """Return whether anything stops it. False is not a release: two people give that."""
        return any(finding.stops for finding in self.findings)


def ready(view: View, covering_tag: str) -> Readiness:
    """
    Return what is missing or wrong before the covering goes on. Raises NoSuchCovering.

    Of a covering that is on already, what stood against it on that day stays told.
    """
    covering = view.built.thing(covering_tag)
    if covering is None or covering.kind.word != "covering":
        raise _no_such(view, covering_tag, covering)
    hidden = what_it_hides(view, covering)
    told = waivers.waivers(hidden)
    findings = [*_against(hidden, told)]
    for day, covered in right_before_covered.days_covered(hidden).items():
        then = _on_the_day(hidden, day, told)
        findings += right_before_covered.told(hidden, then, covered)
    findings += waivers.flawed(hidden, WORDS)
    return Readiness(
        covering=covering,
        hides=tuple(sorted({*hidden.named, *(t.tag for t in hidden.everything())}, key=natural)),
        findings=tuple(sorted(waivers.apply(findings, told, WORDS), key=_order)),
        already_covered=tuple(
            one for one in view.built.happened("covered") if one.about == covering_tag
        ),
        withheld=view.withheld,
    )


def _against(hidden: Hidden, told: Sequence[Happening]) -> tuple[Finding, ...]:
    found = [finding for rule in RULES for finding in rule.find(hidden)]
    return waivers.apply(found, told, WORDS)


def _on_the_day(hidden: Hidden, day: str, told: Sequence[Happening]) -> tuple[Finding, ...]:
    """Return what stood against the covering at the end of a day, later waivers applied."""
    view = look_back(hidden.view, day)
    covering = view.built.thing(hidden.covering.tag)
    return () if covering is None else _against(what_it_hides(view, covering), told)


def _order(finding: Finding) -> tuple[object, ...]:
    return (
        not finding.stops,
        finding.waived is None,
        WORDS.index(finding.rule),
        natural(finding.about),
        finding.numbers,
        finding.says,
    )


def _no_such(view: View, tag: str, thing: Thing | None) -> NoSuchCovering:
    coverings = {one.tag: one for one in view.built.of_kind("covering")}
    if thing is not None:
        over = tuple(name for name, one in coverings.items() if tag in one.tags("hides"))
        named = ", ".join(over) or "none is recorded"
        text = f"{tag} is a {thing.kind.word}, not a covering; coverings that hide it: {named}"
        return NoSuchCovering(tag, text, over)
    by_case = {name.casefold(): name for name in coverings}
    found = get_close_matches(tag.casefold(), by_case, 3, 0.5)
    near = tuple(by_case[name] for name in found)
    if near:
        return NoSuchCovering(tag, f"no covering {tag}; did you mean {' or '.join(near)}?", near)
    listed = ", ".join(coverings) or "none is recorded"
    return NoSuchCovering(tag, f"no covering {tag}; coverings: {listed}", ())
