"""Visits in lines for a person and in plain JSON."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from record.readers import View
from record.upkeep.visits import Visit, Window


def words(visits: Sequence[Visit], *, view: View, today: date, until: date) -> Iterator[str]:
    """Yield each visit with its tasks, and on which days it may fall."""
    site = view.built.site
    yield f"Visits from {today} to {until}, as the {view.reader}'s copy of {site} shows it"
    if not visits:
        yield "Nothing that is recorded falls due by then."
        return
    tasks = sum(len(visit.windows) for visit in visits)
    yield f"{_count(tasks, 'task')} on {_count(len(visits), 'day')}: fewer would miss one"
    for visit in visits:
        yield ""
        yield f"{visit.on:%a} {visit.on}   any day from {visit.opens} to {visit.closes}"
        for window in sorted(visit.windows, key=_order):
            yield f"  {_line(window, today)}"
        if visit.wintry:
            yield "  work outside in deep winter: it cannot be put before it"


def _order(window: Window) -> tuple[str, str]:
    return window.one.who[0], window.one.about


def _line(window: Window, today: date) -> str:
    one = window.one
    late = " OVERDUE" if one.due < today and window.due == today else ""
    return f"{one.about}: {one.title} [{one.task.word}], {', '.join(one.who)}{late}"


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def form(visit: Visit) -> dict[str, object]:
    """Return the JSON form of a visit: days as ISO dates."""
    return {
        "on": visit.on.isoformat(),
        "opens": visit.opens.isoformat(),
        "closes": visit.closes.isoformat(),
        "deep_winter": visit.wintry,
        "tasks": [
            {
                "task": window.one.task.word,
                "about": window.one.about,
                "opens": window.opens.isoformat(),
                "due": window.due.isoformat(),
                "who": list(window.one.who),
            }
            for window in sorted(visit.windows, key=_order)
        ],
    }
