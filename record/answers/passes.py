"""Every pass that was given: open, run out, back, broken; and what a breach has undone."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from record.accounts.left import open_visits, positions
from record.accounts.proofs import proofs
from record.answers.saying import wrapped
from record.fold import Happening, Thing
from record.readers import View

OPEN, RUN_OUT, BACK, BROKEN = "open", "run out", "back", "broken"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """
    One pass as it stands. It is closed once it is back, with a picture, nothing it undid is left
    undone, and everything that was touched since it was given is in a stated position.
    """

    tag: str
    state: str
    for_whom: str
    until: str
    wanting: tuple[str, ...]  # what must still happen before it is closed
    breaches: tuple[str, ...]
    voids: tuple[str, ...]  # tests that prove nothing since a breach
    entries: tuple[str, ...]

    @property
    def closed(self) -> bool:
        return self.state in (BACK, BROKEN) and not self.wanting


def passes(view: View, *, today: str) -> tuple[Pass, ...]:
    """Return every pass by tag, as it stands on day ``today`` (ISO)."""
    given = (*view.built.of_kind("work pass"), *view.built.of_kind("ground pass"))
    return tuple(_pass(view, each, today) for each in given)


def _pass(view: View, given: Thing, today: str) -> Pass:
    back = [one for one in view.built.happened("pass returned") if one.about == given.tag]
    broken = [one for one in view.built.happened("pass broken") if one.about == given.tag]
    until = given.words("until")
    state = BROKEN if broken else BACK if back else RUN_OUT if until < today else OPEN
    voids = tuple(_voids(view, broken))
    wanting = tuple(_wanting(view, given, back, voids)) if state != OPEN else ()
    said = [given.entries()[0], *(one.entry for one in (*back, *broken))]
    return Pass(
        tag=given.tag,
        state=state,
        for_whom=given.words("for"),
        until=until,
        wanting=wanting,
        breaches=tuple(f"{b.moment}: {b.words('what')} ({b.entry.number})" for b in broken),
        voids=voids,
        entries=tuple(entry.number for entry in said),
    )


def _voids(view: View, broken: list[Happening]) -> Iterator[str]:
    """Yield the tests that a breach undid and nothing has renewed."""
    by = {one.entry.hash for one in broken}
    for proof in proofs(view) if by else ():
        undone = [one for one in proof.undone if one.doing.happening]
        if any(one.doing.happening.entry.hash in by for one in undone if one.doing.happening):
            yield f"{proof.about}: {proof.name} ({proof.test.entry.number})"


def _wanting(
    view: View, given: Thing, back: list[Happening], voids: tuple[str, ...]
) -> Iterator[str]:
    if not back:
        yield "it is not back"
    shown = (one for one in view.built.happened("photographed") if given.tag in one.concerns())
    if back and not any(True for _ in shown):
        yield f"no picture shows {given.tag}"
    since = min(entry.content.on for entry in given.entries() if entry.content)
    for (day, _), tags in open_visits(positions(view)).items():
        if day >= since:
            yield f"nobody wrote how {', '.join(tags)} was left after the work of {day}"
    yield from (f"test again: {each}" for each in voids)


def passes_words(found: tuple[Pass, ...]) -> Iterator[str]:
    """Yield every pass, those not closed first."""
    if not found:
        yield "No pass is recorded."
    for each in sorted(found, key=lambda one: one.closed):
        closed = "closed" if each.closed else "not closed"
        said = f"{each.state}, {closed}" if each.state != OPEN else each.state
        yield from wrapped(
            f"{each.tag}: {said.upper() if each.state in (BROKEN, RUN_OUT) else said}; "
            f"for {each.for_whom}, until {each.until} [{', '.join(each.entries)}]",
            0,
            2,
        )
        for line in _under(each):
            yield from wrapped(line)


def _under(each: Pass) -> Iterator[str]:
    yield from (f"BROKEN {line}" for line in each.breaches)
    yield from (f"VOID since then: {line}" for line in each.voids)
    yield from (f"still: {line}" for line in each.wanting)
