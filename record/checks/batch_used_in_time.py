"""What was mixed was used within its workable time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import timedelta

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.moments import Moment, duration_words, ended, moment, started
from record.facts.values import Absent, Why
from record.fold import Happening, Thing


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find batches used too late on what will be hidden, or of which that cannot be told."""
    tags = {thing.tag for thing in hidden.things}
    coats = [c for c in hidden.built.happened("coat applied") if tags & c.concerns()]
    for coat in coats:
        yield from _no_batch(hidden, coat)
    for batch in hidden.built.of_kind("batch"):
        on = [coat for coat in coats if batch.tag in coat.tags("batch")]
        about = sorted(tags & {*batch.tags("used_on"), *(coat.about for coat in on)})
        for tag in about[:1]:
            yield from _batch(tag, batch, on)


def _no_batch(hidden: Hidden, coat: Happening) -> Iterator[Finding]:
    """A coat that was asked for its batch and has none written; many are of one can."""
    value = coat.value("batch")
    stated = bool(coat.held("batch"))
    absent = isinstance(value, Absent) and value.why not in (Why.NONE, Why.NOT_APPLICABLE)
    tag = coat.text("batch")
    if stated and (absent or (tag is not None and tag not in hidden.built.things)):
        yield RULE.finding(
            coat.about,
            f"the batch of {coat.words('layer')} coat {coat.words('coat')} is "
            f"{coat.words('batch')}, and nothing is recorded of when it was mixed",
            clears=(f"- mends: {coat.entry.number}", "- batch: its tag, or none if of one can"),
            entries=coat.entries(),
            sure=CANNOT_BE_TOLD,
        )


def _batch(tag: str, batch: Thing, coats: Iterable[Happening]) -> Iterator[Finding]:
    coats = list(coats)
    mixed_at, workable = batch.text("mixed"), batch.si("workable_time")
    day = _day(batch)
    uses = [("last used", _last_used(batch, day))]
    uses += [(f"{coat.words('layer')} finished", _finished(coat)) for coat in coats]
    known = [(what, when) for what, when in uses if when is not None]
    if mixed_at is None or workable is None or day is None:
        yield _finding(tag, batch, coats, _unknown(batch), certain=False)
        return
    until = moment(day, mixed_at).latest + timedelta(seconds=float(workable))
    late = [(what, when.latest) for what, when in known if when.latest > until]
    if late:
        what, last = max(late, key=lambda use: use[1])
        over = duration_words(last - until)
        said = (
            f"batch {batch.tag} was mixed {mixed_at} and could be worked "
            f"{batch.words('workable_time')}, to {until:%H:%M}; {what} {last:%H:%M}, "
            f"{over} past it"
        )
        yield _finding(tag, batch, coats, said, certain=True)
    elif batch.text("last_used") is None:
        yield _finding(tag, batch, coats, _unknown(batch), certain=False)


def _day(batch: Thing) -> str | None:
    held = batch.held("mixed")
    return held[0].on if held else None


def _last_used(batch: Thing, day: str | None) -> Moment | None:
    clock, mixed = batch.text("last_used"), batch.text("mixed")
    if clock is None or day is None:
        return None
    last = moment(day, clock)
    if mixed is not None and clock < mixed:  # past midnight
        return Moment(last.earliest + timedelta(days=1), last.latest + timedelta(days=1))
    return last


def _finished(coat: Happening) -> Moment | None:
    """Return when a coat was finished; where only its start was written, that is the least."""
    end = ended(coat)
    if end.known:
        return end
    return started(coat) if started(coat).known else None


def _unknown(batch: Thing) -> str:
    names = ("mixed", "workable_time", "last_used")
    lacks = [
        f"{name.replace('_', ' ')} {batch.words(name)}"
        for name in names
        if isinstance(batch.value(name), Absent)
    ]
    return f"whether batch {batch.tag} was used in time cannot be told: {', '.join(lacks)}"


def _finding(
    tag: str, batch: Thing, coats: list[Happening], said: str, *, certain: bool
) -> Finding:
    clears = (
        ("take off what it went on, record the look at it and the new coat; then this is waived",)
        if certain
        else (f"## batch {batch.tag}", "with mixed, workable time and last used")
    )
    return RULE.finding(
        tag,
        said,
        clears=clears,
        entries=(*batch.entries(), *(entry for coat in coats for entry in coat.entries())),
        sure=CERTAIN if certain else CANNOT_BE_TOLD,
    )


RULE = Rule(
    word="batch used in time",
    why=(
        "Past its workable time a mixed product has begun to set in the pail: it goes on, looks "
        "well, and never bonds. The maker's time for the temperature of the day counts, and "
        "nothing lengthens it."
    ),
    figures=("workable-time",),
    find=find,
)
