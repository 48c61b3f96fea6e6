"""A wide and a close photo of each thing, taken before it was covered."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.moments import when
from record.fold import Happening, Thing

VIEWS = ("wide", "close")


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find things without a wide and a close photo from before the covering first went on."""
    for thing in hidden.things:
        photos = list(hidden.built.about(thing.tag, "photographed"))
        lacks = [
            view
            for view in VIEWS
            if not any(in_time(hidden, thing.tag, p) for p in photos if p.text("view") == view)
        ]
        if lacks:
            yield _lacking(hidden, thing, lacks, photos)


def in_time(hidden: Hidden, tag: str, photo: Happening) -> bool | None:
    """Return whether a photo was taken before this covering hid ``tag``; None is not known."""
    covered = hidden.covered(tag)
    return True if covered is None else when(photo).by(when(covered))


def late_words(hidden: Hidden, tag: str, photos: list[Happening]) -> tuple[str, bool]:
    """Return what is said of photos that do not prove it, and whether one might."""
    covered = hidden.covered(tag)
    if covered is None or not photos:
        return "", False
    doubtful = [photo for photo in photos if in_time(hidden, tag, photo) is None]
    late = [photo for photo in photos if in_time(hidden, tag, photo) is False]
    said = ""
    if doubtful:
        numbers = ", ".join(photo.entry.number for photo in doubtful)
        said += f"; {numbers}: the same day, before or after is not known"
    if late:
        numbers = ", ".join(photo.entry.number for photo in late)
        said += f"; {numbers}: after cover"
    return said, bool(doubtful)


def too_late(hidden: Hidden, tag: str) -> tuple[str, ...]:
    """Return what is left to do for a photo of what is covered; nothing where it is open."""
    if hidden.covered(tag) is None:
        return ()
    return (
        "post one from before, if anybody has it, with the day and hour it was taken; else dig",
        f"a window and photograph that, or let it be waived: ## hold waived {hidden.covering.tag}",
    )


def _lacking(hidden: Hidden, thing: Thing, lacks: list[str], photos: list[Happening]) -> Finding:
    said, doubtful = late_words(hidden, thing.tag, [p for p in photos if p.text("view") in lacks])
    before = "" if hidden.covered(thing.tag) is None else " from before it was covered"
    return RULE.finding(
        thing.tag,
        f"no {' and no '.join(lacks)} photo of it{before}{said}",
        clears=too_late(hidden, thing.tag)
        or tuple(
            f"![{view}, looking which way, what it is, rule in view, shows {thing.tag}](the file)"
            for view in lacks
        ),
        entries=(*thing.entries()[:1], *(e for photo in photos for e in photo.entries())),
        sure=CANNOT_BE_TOLD if doubtful else CERTAIN,
    )


RULE = Rule(
    word="photo wide and close before cover",
    why=(
        "Words and levels can be wrong; a picture with a rule in it can be measured in thirty "
        "years. A wide one says where it is, a close one what it is. Neither can be taken later."
    ),
    find=find,
)
