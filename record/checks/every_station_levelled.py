"""Every station of a run has its place and a level, and there are at least two."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import Finding, Rule
from record.checks.hidden import Hidden
from record.facts.values import Level, in_words
from record.fold import Thing
from record.place import PlacedStation
from record.place.shots import carries_water, label


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find runs with fewer than two stations, or stations without place or level."""
    for run in hidden.runs:
        placed = hidden.placed(run)
        lacks = [f"{label(one)}: {what}" for one in placed for what in _lacks(run, one)]
        if len(placed) < 2:
            count = "one station is" if placed else "no station is"
            lacks.insert(0, f"{count} recorded, and a run needs one at each end")
        if lacks:
            yield RULE.finding(
                run.tag,
                "; ".join(lacks),
                clears=(
                    f"## run {run.tag}",
                    "| station | x [m] | y [m] | invert [m] | ground [m] | how |",
                    "|---|---|---|---|---|---|",
                    "and a row for each end, bend and low point, while the trench is open",
                ),
                entries=run.all_entries(),
            )


def _lacks(run: Thing, station: PlacedStation) -> Iterator[str]:
    if station.x is None or station.y is None:
        yield "its place is not recorded"
    level = station.thing.value("level")
    if not isinstance(level, Level):
        yield f"its level is {in_words(level)}"
    elif station.invert_m is None and carries_water(run):
        yield (
            f"its invert cannot be worked from its {level.part}: the run's outside or inside "
            "diameter is not recorded"
        )


RULE = Rule(
    word="every station levelled",
    why=(
        "A level can be shot in a minute while the trench is open. Afterwards nobody can say "
        "whether the pipe falls, how deep it lies, or how near a later hole may come."
    ),
    find=find,
)
