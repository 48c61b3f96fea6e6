"""A close photo from before cover has something in it to measure by."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.photo_before_cover import in_time, too_late
from record.checks.sealed_inside_and_out import FROM_INSIDE


def find(hidden: Hidden) -> Iterator[Finding]:
    """
    Find things whose close photos from before cover all lack a scale.

    Before a lining or a board it stops: what is behind one is fixed through by measure. Where
    there is no close photo at all, the rule for photos holds it.
    """
    inside = hidden.covering.text("what") in (*FROM_INSIDE, None)
    for thing in hidden.things:
        photos = [
            photo
            for photo in hidden.built.about(thing.tag, "photographed")
            if photo.text("view") == "close" and in_time(hidden, thing.tag, photo) is not False
        ]
        if not photos or any(photo.text("scale") for photo in photos):
            continue
        yield RULE.finding(
            thing.tag,
            "no rule, staff or tape is said to be in view in its close photo: "
            + ", ".join(photo.text("file") or photo.entry.number for photo in photos),
            clears=too_late(hidden, thing.tag)
            or (f"![close, looking which way, what it is, rule in view, shows {thing.tag}](file)",),
            entries=(entry for photo in photos for entry in photo.entries()),
            sure=CANNOT_BE_TOLD,
            stops=inside,
        )


RULE = Rule(
    word="photo with a scale",
    why=(
        "A picture with a rule in it can be measured in thirty years; without one it shows that "
        "something is there and never how far from the edge. (Common practice, no source.)"
    ),
    find=find,
)
