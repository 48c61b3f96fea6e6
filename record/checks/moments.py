"""What came before what, where days are written and times of day only sometimes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from record.fold import Happening

DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Moment:
    """Some time from ``earliest`` to ``latest``, local; the two are one where it is known."""

    earliest: datetime
    latest: datetime

    @property
    def known(self) -> bool:
        return self.earliest == self.latest

    def by(self, other: Moment) -> bool | None:
        """Return whether this was at or before ``other``; None is "order not known"."""
        if self.latest <= other.earliest:
            return True
        return False if self.earliest > other.latest else None

    def __str__(self) -> str:
        return f"{self.earliest:%Y-%m-%d %H:%M}" if self.known else f"{self.earliest:%Y-%m-%d}"


def moment(on: str, at: str | None) -> Moment:
    """Return when ``on`` (ISO day) and ``at`` (HH:MM, or None for any time of that day) was."""
    start = datetime.fromisoformat(on)
    if at is None:
        return Moment(start, start + DAY - timedelta(minutes=1))
    clock = datetime.fromisoformat(f"{on}T{at}")
    return Moment(clock, clock)


def when(happening: Happening) -> Moment:
    return moment(happening.on, happening.at)


def started(coat: Happening) -> Moment:
    """Return when a coat was begun."""
    return moment(coat.on, coat.text("started") or coat.at)


def ended(coat: Happening) -> Moment:
    """Return when a coat was finished; past midnight is the next day. Unwritten: not known."""
    begun, clock = started(coat), coat.text("ended")
    if clock is None:
        return Moment(begun.earliest, moment(coat.on, None).latest)
    end = moment(coat.on, clock)
    if begun.known and end.earliest < begun.earliest:
        return Moment(end.earliest + DAY, end.latest + DAY)
    return end


def person(happening: Happening) -> str:
    """Return who stands for it: who was responsible, else who did it, else who wrote it."""
    content = happening.entry.content
    told = (content.by or content.did) if content else None
    return told or happening.entry.link.writer


def duration_words(span: timedelta) -> str:
    """
    Return a span of time as one would say it: 20 min, 2 h 10 min, 3 d 4 h.

    >>> duration_words(timedelta(minutes=130)), duration_words(timedelta(hours=48))
    ('2 h 10 min', '48 h')
    """
    minutes = round(span.total_seconds() / 60)
    hours, rest = divmod(minutes, 60)
    if hours == 0:
        return f"{rest} min"
    if hours >= 72:
        days, left = divmod(hours, 24)
        return f"{days} d {left} h" if left else f"{days} d"
    return f"{hours} h {rest} min" if rest else f"{hours} h"
