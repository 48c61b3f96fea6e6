"""A photo's camera claims the day its sheet says, and not a time after the covering."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from record.checks.finding import CANNOT_BE_TOLD, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.moments import when
from record.fold import Happening


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find photos of what is hidden whose camera claims another day, or a time after cover."""
    met: set[str] = set()
    for thing in hidden.everything():
        for photo in hidden.built.about(thing.tag, "photographed"):
            claimed = camera_moment(photo.text("camera_time") or "")
            if claimed is None or photo.entry.hash in met:
                continue
            met.add(photo.entry.hash)
            if said := _against(hidden, thing.tag, photo, claimed):
                yield _finding(thing.tag, photo, said)


def camera_moment(claim: str) -> datetime | None:
    """
    Return the local time a camera claims; None where it claims none that can be read.

    >>> camera_moment("2031:05:14 14:09:58 -06:00"), camera_moment("0000:00:00 00:00:00")
    (datetime.datetime(2031, 5, 14, 14, 9, 58), None)
    """
    try:
        return datetime.strptime(claim[:19], "%Y:%m:%d %H:%M:%S")
    except ValueError:
        return None


def _against(hidden: Hidden, tag: str, photo: Happening, claimed: datetime) -> str:
    """Return in what the claim and the sheet differ; nothing where they agree."""
    covered = hidden.covered(tag)
    taken = f"{claimed:%Y-%m-%d %H:%M}"
    if claimed.date().isoformat() != photo.on:
        order = "after" if claimed.date().isoformat() > photo.on else "before"
        return f"its camera claims {taken}, {order} the day of its sheet, {photo.on}"
    # What is of the very moment shows the covering itself go on.
    said_before = covered is not None and when(photo).latest < when(covered).earliest
    if covered is not None and said_before and claimed > when(covered).latest:
        return f"its camera claims {taken}, after {tag} was covered {covered.moment}"
    return ""


def _finding(tag: str, photo: Happening, said: str) -> Finding:
    return RULE.finding(
        tag,
        f"photo {photo.text('file') or photo.entry.number}: {said}",
        clears=(
            "look at the picture and at the camera's clock; if the sheet is wrong, withdraw",
            f"{photo.entry.number} and post the picture on a sheet of its own day",
        ),
        entries=photo.entries(),
        sure=CANNOT_BE_TOLD,
        stops=False,
    )


RULE = Rule(
    word="camera agrees with its sheet",
    why=(
        "A photo proves only what was so when it was taken. A camera's clock may be wrong and a "
        "sheet may be late; where the two differ, somebody should look while both can be asked."
    ),
    find=find,
)
