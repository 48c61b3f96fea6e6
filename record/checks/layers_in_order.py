"""Layers and coats went on in the order of the build-up."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from record.checks.coats import coat_words, layers, steps
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.moments import ended, started
from record.fold import Happening


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find coats begun before the coat below was finished, or of a layer nobody named."""
    for seam in hidden.seams:
        every = layers(hidden, seam)
        done = [step for step in steps(every) if step.coats]
        for below, above in pairwise(done):
            for lower in below.coats:
                for upper in above.coats:
                    yield from _pair(seam.tag, lower, upper)
        if every:
            known = {coat.entry.hash for layer in every for coat in layer.coats}
            for coat in hidden.built.about(seam.tag, "coat applied"):
                if coat.entry.hash not in known:
                    yield _stray(seam.tag, coat, ", ".join(layer.name for layer in every))


def _pair(tag: str, lower: Happening, upper: Happening) -> Iterator[Finding]:
    begun, done = started(upper), ended(lower)
    if done.by(begun):
        return
    wrong = not started(lower).by(begun) and started(lower).earliest > begun.latest
    certain = wrong or (done.known and done.by(begun) is False)
    doubt = "" if certain else ": the order is not known"
    yield RULE.finding(
        tag,
        f"{coat_words(upper)} was begun before {coat_words(lower)} was finished{doubt}",
        clears=(
            "take off what went on too soon and do it again; if the times are wrong, mend",
            f"{lower.entry.number} or {upper.entry.number}",
        ),
        entries=(*lower.entries(), *upper.entries()),
        sure=CERTAIN if certain else CANNOT_BE_TOLD,
    )


def _stray(tag: str, coat: Happening, names: str) -> Finding:
    return RULE.finding(
        tag,
        f"{coat_words(coat)} is of no layer of its build-up, which has {names}",
        clears=(f"- mends: {coat.entry.number}", "- layer: the layer it was"),
        entries=coat.entries(),
        sure=CANNOT_BE_TOLD,
    )


RULE = Rule(
    word="layers in order",
    why=(
        "A coat holds only on what it was made for. One that went on before its turn keeps the "
        "next from the steel, and the two come off together."
    ),
    find=find,
)
