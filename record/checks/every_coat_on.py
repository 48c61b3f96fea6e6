"""Every coat of every layer that the covering will lie on is recorded."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from record.checks.coats import Layer, Step, build_up, steps, under
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule, Sure
from record.checks.hidden import Hidden
from record.checks.moments import ended, when
from record.facts.values import in_words
from record.fold import Thing


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find seams without a build-up, layers without their number of coats, coats missing."""
    for seam in hidden.seams:
        found = build_up(hidden.built, seam)
        if found is None or not found.parts:
            yield _unknown(seam, found)
            continue
        needed = under(hidden, seam)
        for layer in needed:
            if layer.needed is None:
                yield _uncounted(seam, found, layer)
        every = steps(needed)
        missing = [step for step in every if not step.coats]
        if missing:
            yield _finding(seam, missing, "not recorded", CERTAIN)
        yield from _late(hidden, seam, [step for step in every if step.coats])


def _late(hidden: Hidden, seam: Thing, done: Sequence[Step]) -> Iterator[Finding]:
    """Find coats that were not finished when the covering first went on."""
    covered = hidden.covered(seam.tag)
    if covered is None:
        return
    by = [(step, [ended(coat).by(when(covered)) for coat in step.coats]) for step in done]
    after = [step for step, told in by if False in told]
    doubtful = [step for step, told in by if None in told and False not in told]
    if after:
        yield _finding(seam, after, f"not finished by {covered.moment}, when covered", CERTAIN)
    if doubtful:
        said = f"whether finished by {covered.moment}, when covered, is not known"
        yield _finding(seam, doubtful, said, CANNOT_BE_TOLD)


def _finding(seam: Thing, some: Sequence[Step], said: str, sure: Sure) -> Finding:
    return RULE.finding(
        seam.tag,
        f"{said}: {', '.join(step.words for step in some)}",
        clears=(
            f"## coat applied {seam.tag}",
            "| layer | coat | started | ended | lot | air | surface | dew point |",
            "|---|---|---|---|---|---|---|---|",
            *(f"| {step.layer.name} | {step.number} |" + " … |" * 6 for step in some),
        ),
        entries=(
            *seam.entries(),
            *(entry for step in some for entry in step.layer.thing.entries()),
            *(entry for step in some for coat in step.coats for entry in coat.entries()),
        ),
        sure=sure,
    )


def _unknown(seam: Thing, found: Thing | None) -> Finding:
    said = in_words(seam.value("build-up"))
    what = f"its build-up is {said}" if found is None else f"build-up {said} has no layers"
    return RULE.finding(
        seam.tag,
        f"{what}, so what it must get cannot be told",
        clears=(f"## seam {seam.tag}", "- build-up: the tag of the build-up it must get"),
        entries=seam.entries(),
        sure=CANNOT_BE_TOLD,
    )


def _uncounted(seam: Thing, found: Thing, layer: Layer) -> Finding:
    said = in_words(layer.thing.value("coats"))
    return RULE.finding(
        seam.tag,
        f"how many coats of {layer.name} it must get is {said}",
        clears=(
            f"## build-up {found.tag}",
            "| layer | coats |",
            "|---|---|",
            f"| {layer.thing.text('layer') or layer.thing.key} | the number |",
        ),
        entries=layer.thing.entries(),
        sure=CANNOT_BE_TOLD,
    )


RULE = Rule(
    word="every coat on",
    why=(
        "Each layer stands in for what the one below it cannot do. One that was left out is not "
        "seen from outside, and the steel under it rusts first."
    ),
    find=find,
)
