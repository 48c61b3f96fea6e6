"""A seam's weld was inspected and passed before its first layer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from record.checks.coats import first_start, layers
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.moments import Moment, when
from record.facts.looks import INSPECTIONS
from record.fold import Happening, Thing
from record.fold.looks import found, names, of_weld

CLEARS = (
    "## inspected {tag}",
    "- at: the time",
    "- what: weld all round",
    "- result: passed",
    "- criterion: what the engineer asks of it",
)


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find seams whose weld nobody passed, failed without a retest, or passed only afterwards."""
    for seam in hidden.seams:
        looks = [look for look in hidden.built.about(seam.tag, *INSPECTIONS) if of_weld(look)]
        passed = [look for look in looks if look.text("result") == "passed"]
        failed = [one for one in looks if one.text("result") == "failed"]
        open_ = [one for one in failed if not any(names(look, one) for look in passed)]
        if open_:
            yield _failed(seam, open_)
        elif not passed:
            yield _never(seam, looks)
        else:
            coats = [coat for layer in layers(hidden, seam) for coat in layer.coats]
            yield from _too_late(seam, _settling(passed, failed), first_start(coats))


def _settling(passed: Sequence[Happening], failed: Sequence[Happening]) -> Sequence[Happening]:
    """Return the looks that all must come before the first layer: each retest, or any one."""
    retests = [look for look in passed if any(names(look, one) for one in failed)]
    return retests or [min(passed, key=lambda look: when(look).latest)]


def _too_late(seam: Thing, looks: Sequence[Happening], first: Moment | None) -> Iterator[Finding]:
    if first is None:
        return
    late = [look for look in looks if when(look).by(first) is not True]
    for look in late:
        certain = when(look).by(first) is False
        order = "after" if certain else "order not known, the same day as"
        yield RULE.finding(
            seam.tag,
            f"its weld was passed {look.moment}, {order} the first layer of {first}",
            clears=(
                "uncover the weld and inspect it, or let it be waived by name; if the time is",
                f"wrong, mend {look.entry.number}",
            ),
            entries=look.entries(),
            sure=CERTAIN if certain else CANNOT_BE_TOLD,
        )


def _failed(seam: Thing, failed: Sequence[Happening]) -> Finding:
    said = "; ".join(f"{found(one)} ({one.entry.number})" for one in failed)
    retest = f"- retest of: {failed[0].entry.number}"
    return RULE.finding(
        seam.tag,
        f"its weld failed and no retest of that is recorded: {said}",
        clears=(*(line.format(tag=seam.tag) for line in CLEARS), retest),
        entries=(entry for one in failed for entry in one.entries()),
    )


def _never(seam: Thing, looks: Sequence[Happening]) -> Finding:
    return RULE.finding(
        seam.tag,
        "no inspection of its weld is recorded as passed",
        clears=(line.format(tag=seam.tag) for line in CLEARS),
        entries=(*seam.entries(), *(entry for look in looks for entry in look.entries())),
    )


RULE = Rule(
    word="weld passed before the first layer",
    why=(
        "A pinhole or a crack can be seen on bare steel only. Under tar and foam it lets water in "
        "for years before it shows, and then it cannot be found."
    ),
    find=find,
)
