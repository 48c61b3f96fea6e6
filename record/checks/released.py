"""A hold was released by the lead and a second person before the covering went on."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.moments import person, when
from record.facts.faults import plain
from record.facts.values import in_words
from record.fold import Happening


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find each time a covering went on that no sound release is known to have come before."""
    told = releases(hidden)
    for covered in hidden.built.happened("covered"):
        if covered.about == hidden.covering.tag:
            yield from _against(hidden, covered, told)


def releases(hidden: Hidden) -> tuple[Happening, ...]:
    """Return every release of this covering, in order, sound or not."""
    tag = hidden.covering.tag
    return tuple(one for one in hidden.built.happened("hold released") if one.about == tag)


def flaw(release: Happening) -> str:
    """Return why a release lets nothing go on, or nothing where it is sound."""
    second = release.text("second")
    if second is None:
        return f"its second person is {in_words(release.value('second'))}"
    if plain(second) in {plain(person(release)), release.entry.link.writer}:
        return f"{second} cannot be their own second"
    if release.text("hold") is None:
        return f"its hold is {in_words(release.value('hold'))}"
    return ""


def release_of(
    covered: Happening, told: tuple[Happening, ...]
) -> tuple[Happening | None, bool | None]:
    """
    Return the release that a covering went on by, and whether it surely came before.

    None and False: there is none. A release of the same day without hours may be it: None.
    """
    sound = [one for one in told if not flaw(one)]
    before = [one for one in sound if when(one).by(when(covered))]
    if before:
        return before[-1], True
    perhaps = [one for one in sound if when(one).by(when(covered)) is None]
    return (perhaps[-1], None) if perhaps else (None, False)


def _against(hidden: Hidden, covered: Happening, told: tuple[Happening, ...]) -> Iterator[Finding]:
    release, before = release_of(covered, told)
    if before:
        return
    said = f"covered on {covered.moment} by {person(covered)} with no release recorded before it"
    if release is not None:
        said += f"; {release.entry.number} is of the same day, before or after is not known"
    for one in told:
        if why := flaw(one):
            said += f"; release {one.entry.number} lets nothing go on: {why}"
        elif one is not release:
            said += f"; release {one.entry.number} of {one.moment} came after it"
    yield RULE.finding(
        hidden.covering.tag,
        f"{said}; stays recorded for ever",
        clears=(
            "if it was released and not written: ## hold released "
            f"{hidden.covering.tag}, with the day and hour,",
            "by and second. If not: nothing; two people answer for it under ## hold waived "
            f"{hidden.covering.tag}",
        ),
        entries=(*covered.entries(), *(entry for one in told for entry in one.entries())),
        sure=CERTAIN if release is None else CANNOT_BE_TOLD,
        stops=False,
    )


RULE = Rule(
    word="released before it was covered",
    why=(
        "Two people who look see what one who is tired and in a hurry does not. Where nobody let "
        "the work go on, nobody answers for what went under; whoever lives over it should know."
    ),
    find=find,
)
