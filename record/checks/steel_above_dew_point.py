"""The surface was at least 3 °C above the dew point when a coat went on."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from record.checks.coats import coat_words
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.facts.values import Absent, Why
from record.fold import Happening

#: 3 °C (5 °F) is common coating practice, no source; a maker's sheet may ask for more.
SPARE_DEG_C = Decimal(3)
NAMES = {"surface": "surface temperature", "dew_point": "dew point"}


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find coats on what will be hidden that went on near the dew point, or without readings."""
    seen: set[str] = set()
    for thing in hidden.things:
        for coat in hidden.built.about(thing.tag, "coat applied"):
            if coat.entry.hash not in seen:
                seen.add(coat.entry.hash)
                yield from _coat(coat)


def _coat(coat: Happening) -> Iterator[Finding]:
    values = {name: coat.value(name) for name in NAMES}
    if any(isinstance(v, Absent) and v.why is Why.NOT_APPLICABLE for v in values.values()):
        return
    surface, dew_point = coat.quantity("surface"), coat.quantity("dew_point")
    if surface is None or dew_point is None:
        said = " and ".join(f"{NAMES[name]} {v}" for name, v in values.items() if _lacks(v))
        yield _finding(coat, said, certain=False)
        return
    spare = surface.si - dew_point.si
    if spare < SPARE_DEG_C:
        said = (
            f"surface {surface.text}, dew point {dew_point.text}: {spare:f} °C above it, "
            f"{SPARE_DEG_C} °C (5 °F) asked"
        )
        yield _finding(coat, said, certain=True)


def _lacks(value: object) -> bool:
    return isinstance(value, Absent)


def _finding(coat: Happening, said: str, *, certain: bool) -> Finding:
    clears = (
        ("take the coat off, wait until the steel is warm and dry, and record the coat anew",)
        if certain
        else (
            f"- mends: {coat.entry.number}",
            "- surface: as read then",
            "- dew point: as worked from air and humidity then",
        )
    )
    return RULE.finding(
        coat.about,
        f"{coat_words(coat)}: {said}",
        clears=clears,
        entries=coat.entries(),
        sure=CERTAIN if certain else CANNOT_BE_TOLD,
    )


RULE = Rule(
    word="steel 3 °C above dew point",
    why=(
        "Near the dew point a film of water lies on the steel that no eye sees. What is put on it "
        "sticks to the water and peels. 3 °C (5 °F) is common coating practice; the maker's "
        "sheet goes before it."
    ),
    figures=("dew-point",),
    find=find,
)
