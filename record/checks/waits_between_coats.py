"""Between two coats the least wait was kept, and the most was not passed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import timedelta
from itertools import pairwise

from record.checks.coats import Step, layers, steps, under
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule, Sure
from record.checks.hidden import Hidden
from record.checks.moments import duration_words, ended, moment, started
from record.facts.values import Absent, Why, in_words
from record.fold import Thing

BOUNDS = ("least_wait", "most_wait")


def find(hidden: Hidden) -> Iterator[Finding]:
    """
    Find waits too short or too long, and waits whose bounds or times nobody wrote.

    A layer's waits hold between its own coats and from its last to the next layer. Of work in
    several areas the worst pair counts: the shortest wait for the least, the longest for the
    most. A covering that is the next layer is held to its planned day while it is not on.
    """
    for seam in hidden.seams:
        every = steps(layers(hidden, seam))
        for below, above in pairwise(every):
            if below.coats and above.coats:
                yield from _short(seam, below, above)
                yield from _long(seam, below, above)
        needed = steps(under(hidden, seam))
        yield from _unbounded(seam, [one for one in needed if _following(every, one)])
        if needed:
            yield from _planned(hidden, seam, needed[-1], _following(every, needed[-1]))


def _following(every: Sequence[Step], step: Step) -> tuple[Step, ...]:
    keys = [(one.layer.thing.tag, one.number) for one in every]
    return tuple(every[keys.index((step.layer.thing.tag, step.number)) + 1 :])


def _bound(step: Step, name: str) -> timedelta | None:
    seconds = step.layer.thing.si(name)
    return None if seconds is None else timedelta(seconds=float(seconds))


def _unbounded(seam: Thing, needed: Sequence[Step]) -> Iterator[Finding]:
    """A blank is no figure: the maker's goes there, or "none" where the maker gives none."""
    for name in BOUNDS:
        blank = [one for one in needed if one.number == 1 and _blank(one.layer.thing.value(name))]
        if not blank:
            continue
        words = name.replace("_", " ")
        said = "; ".join(
            f"{one.layer.name} {in_words(one.layer.thing.value(name))}" for one in blank
        )
        rows = (f"| {one.layer.thing.text('layer')} | the maker's, or none |" for one in blank)
        yield RULE.finding(
            seam.tag,
            f"{words} after each layer: {said}",
            clears=(
                f"## build-up {blank[0].layer.thing.tag.partition('/')[0]}",
                f"| layer | {words} |",
                "|---|---|",
                *rows,
            ),
            entries=(entry for one in blank for entry in one.layer.thing.entries()),
            sure=CANNOT_BE_TOLD,
        )


def _blank(value: object) -> bool:
    return isinstance(value, Absent) and value.why not in (Why.NONE, Why.NOT_APPLICABLE)


def _short(seam: Thing, below: Step, above: Step) -> Iterator[Finding]:
    least = _bound(below, "least_wait")
    if least is None:
        return
    latest_end = max((ended(coat) for coat in below.coats), key=lambda m: m.latest)
    first = min((started(coat) for coat in above.coats), key=lambda m: m.earliest)
    if first.earliest - latest_end.latest >= least:
        return
    certain = first.latest - latest_end.earliest < least
    asked = in_words(below.layer.thing.value("least_wait"))
    between = f"{below.words} to {above.words}"
    waited = duration_words(max(first.latest - latest_end.earliest, timedelta()))
    yield _finding(
        seam,
        below,
        above,
        f"waited {waited} from {between}, at least {asked} asked"
        if certain
        else f"whether {asked} passed from {between} cannot be told",
        CERTAIN if certain else CANNOT_BE_TOLD,
    )


def _long(seam: Thing, below: Step, above: Step) -> Iterator[Finding]:
    most = _bound(below, "most_wait")
    if most is None:
        return
    first_end = min((ended(coat) for coat in below.coats), key=lambda m: m.earliest)
    last = max((started(coat) for coat in above.coats), key=lambda m: m.latest)
    if last.latest - first_end.earliest <= most:
        return
    certain = last.earliest - first_end.latest > most
    asked = in_words(below.layer.thing.value("most_wait"))
    between = f"{below.words} to {above.words}"
    waited = duration_words(last.earliest - first_end.latest)
    yield _finding(
        seam,
        below,
        above,
        f"waited {waited} from {between}, at most {asked} asked"
        if certain
        else f"whether {above.words} went on within {asked} of {below.words} cannot be told",
        CERTAIN if certain else CANNOT_BE_TOLD,
    )


def _planned(
    hidden: Hidden, seam: Thing, step: Step, following: Sequence[Step]
) -> Iterator[Finding]:
    """Hold the planned day of the next layer, where that is the covering, to the waits."""
    planned = hidden.covering.text("planned")
    if not planned or not step.coats or not following or following[0].coats:
        return
    day = moment(planned, None)
    least, most = _bound(step, "least_wait"), _bound(step, "most_wait")
    latest_end = max((ended(coat) for coat in step.coats), key=lambda m: m.latest)
    first_end = min((ended(coat) for coat in step.coats), key=lambda m: m.earliest)
    if least is not None and day.latest < latest_end.earliest + least:
        said = f"not before {latest_end.earliest + least:%Y-%m-%d %H:%M}"
    elif most is not None and day.earliest > first_end.latest + most:
        said = f"not after {first_end.latest + most:%Y-%m-%d %H:%M}"
    else:
        return
    yield _finding(
        seam,
        step,
        step,
        f"{hidden.covering.tag} is planned for {planned}, and may go on the {step.words} {said}",
        CERTAIN,
    )


def _finding(seam: Thing, below: Step, above: Step, said: str, sure: Sure) -> Finding:
    coats = (*below.coats, *above.coats)
    return RULE.finding(
        seam.tag,
        said,
        clears=(
            "ask the maker's sheet: usually wait, or roughen and coat again; then record the coat",
            "anew. If a time is wrong, mend " + ", ".join(coat.entry.number for coat in coats[:4]),
        ),
        entries=(
            *below.layer.thing.entries(),
            *(entry for coat in coats for entry in coat.entries()),
        ),
        sure=sure,
    )


RULE = Rule(
    word="waits kept between coats",
    why=(
        "Too soon, the solvent or the heat below is shut in and blisters; too late, the next coat "
        "no longer bonds. Neither shows until the layer comes off."
    ),
    find=find,
)
