"""The coverings that are not on yet, nearest first: what is about to be hidden."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from record.checks.hidden import bare
from record.checks.ready import Readiness, ready
from record.fold import Thing, natural
from record.readers import View

OVERDUE, DUE, LATER, NO_DAY = "overdue", "due", "later", "no day"


@dataclass(frozen=True, slots=True)
class Coming:
    """
    One covering that is not on yet, or not over all it hides.

    ``when`` is "overdue" (its planned day is over), "due" (today or tomorrow), "later", or
    "no day" where none is planned; these last may be tomorrow too.
    """

    readiness: Readiness
    planned: str | None
    when: str

    @property
    def near(self) -> bool:
        """Whether it may go on by tomorrow."""
        return self.when != LATER


def coming(view: View, day: str) -> tuple[Coming, ...]:
    """Return what is not on yet as of the evening of ``day`` (ISO), overdue ones first."""
    found = [
        Coming(ready(view, one.tag), one.text("planned"), _when(one.text("planned"), day))
        for one in not_on(view)
    ]
    ranks = (OVERDUE, DUE, NO_DAY, LATER)
    return tuple(
        sorted(
            found,
            key=lambda one: (
                ranks.index(one.when),
                one.planned or "",
                not one.readiness.stops,
                natural(one.readiness.covering.tag),
            ),
        )
    )


def not_on(view: View) -> tuple[Thing, ...]:
    """Return the coverings that are not recorded as on over all they hide."""
    found = []
    for covering in view.built.of_kind("covering"):
        hidden = bare(view, covering)
        on = any(one.about == covering.tag for one in view.built.happened("covered"))
        if not on or any(hidden.covered(tag) is None for tag in hidden.named):
            found.append(covering)
    return tuple(found)


def _when(planned: str | None, day: str) -> str:
    if planned is None:
        return NO_DAY
    tomorrow = (date.fromisoformat(day) + timedelta(days=1)).isoformat()
    if planned > tomorrow:
        return LATER
    return OVERDUE if planned < day else DUE
