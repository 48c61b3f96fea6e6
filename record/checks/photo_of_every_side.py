"""A photo of every side of a finished seam, taken before it was covered for good."""

from __future__ import annotations

import re
from collections.abc import Iterator

from record.checks.coats import is_a_layer
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.photo_before_cover import in_time, late_words, too_late
from record.facts.captions import read_caption
from record.facts.values import Absent, Why, in_words
from record.fold import Happening, Thing


def find(hidden: Hidden) -> Iterator[Finding]:
    """
    Find seams of which a side was not photographed before the fill or lining went on.

    A seam names its sides; a photo's caption names those it shows. A covering that is a layer
    of the seam's own build-up is held to one wide and one close photo only.
    """
    for seam in hidden.seams:
        if is_a_layer(hidden, seam):
            continue
        sides = seam.value("sides")
        if isinstance(sides, Absent):
            if sides.why is not Why.NOT_APPLICABLE:
                yield _unnamed(seam)
            continue
        photos = list(hidden.built.about(seam.tag, "photographed"))
        for side in sides_of(str(sides)):
            shown = [photo for photo in photos if _shows(photo, side)]
            if not any(in_time(hidden, seam.tag, photo) for photo in shown):
                yield _unseen(hidden, seam, side, shown)


def sides_of(words: str) -> tuple[str, ...]:
    """
    Return the sides a seam names.

    >>> sides_of("east, west and top")
    ('east', 'west', 'top')
    """
    return tuple(side.strip() for side in re.split(r",|\band\b", words) if side.strip())


def _shows(photo: Happening, side: str) -> bool:
    """Return whether a caption names a side; "looking west" is where the camera looked."""
    said = read_caption(photo.text("caption") or "")
    pieces = (*said.words, said.scale or "")
    return any(re.search(rf"\b{re.escape(side)}\b", piece, re.IGNORECASE) for piece in pieces)


def _unseen(hidden: Hidden, seam: Thing, side: str, shown: list[Happening]) -> Finding:
    said, doubtful = late_words(hidden, seam.tag, shown)
    before = "" if hidden.covered(seam.tag) is None else " from before it was covered"
    return RULE.finding(
        seam.tag,
        f"no photo of its {side} side{before}{said}",
        clears=too_late(hidden, seam.tag)
        or (
            f"![close, {seam.tag} wrapped, {side} side, rule in view, shows {seam.tag}](the file)",
        ),
        entries=(
            *(held.entry for held in seam.held("sides")),
            *(entry for photo in shown for entry in photo.entries()),
        ),
        sure=CANNOT_BE_TOLD if doubtful else CERTAIN,
    )


def _unnamed(seam: Thing) -> Finding:
    return RULE.finding(
        seam.tag,
        f"which sides it has is {in_words(seam.value('sides'))}, so whether each was "
        "photographed cannot be told",
        clears=(f"## seam {seam.tag}", "- sides: east, west, top"),
        entries=seam.entries(),
        sure=CANNOT_BE_TOLD,
    )


RULE = Rule(
    word="photo of every side of a seam before cover",
    why=(
        "A seam leaks where nobody looked. A photo of each side, with the wrap on it, is the only "
        "thing left to look at once the fill is in."
    ),
    find=find,
)
