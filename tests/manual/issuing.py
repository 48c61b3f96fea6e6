"""Issue editions of the small shelter's manual at a fixed moment."""

from datetime import UTC, datetime

from manual.issue import issue
from record.posting import seeded_salt, stopped_clock

LATER = datetime(2031, 6, 2, 12, 0, tzinfo=UTC)


def issued(log, *, reader="owner", now=LATER, **more):
    return issue(
        log,
        writer=more.pop("writer", "of"),
        reader=reader,
        clock=stopped_clock(now),
        salt=seeded_salt("fern-bank"),
        today=lambda: now.date().isoformat(),
        **more,
    )


def without_press(monkeypatch):
    """Leave the printing out: what is held here is not on paper."""
    monkeypatch.setattr("manual.printing.press.lay_out", lambda html, **_: b"%PDF " + html.encode())
