"""How every valve on what goes under was left is written."""

from __future__ import annotations

from collections.abc import Iterator

from record.accounts.left import positions
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find valves of which nobody knows how they stand, or that do not stand as they should."""
    valves = {valve.tag: valve for valve in hidden.valves}
    places = {place.thing.tag: place for place in positions(hidden.view)}
    for tag, valve in valves.items():
        place = places.get(tag)
        if place is None or place.state not in ("not known", "not normal"):
            continue
        last = place.touched or place.left
        if last is not None and hidden.after_cover(tag, last):
            continue  # moved since it went under: another visit's business
        yield RULE.finding(
            tag,
            place.words,
            clears=(f"## left as {tag}", "- at: the hour", "- state: open or shut"),
            entries=(last.entry,) if last else valve.entries(),
            sure=CANNOT_BE_TOLD if place.state == "not known" else CERTAIN,
            stops=False,
        )


RULE = Rule(
    word="valves in a stated position",
    why=(
        "Once it is covered a valve is reached by its handle alone, and what passes it is not "
        "seen. A valve nobody wrote the position of is taken to be normal by whoever needs it."
    ),
    find=find,
)
