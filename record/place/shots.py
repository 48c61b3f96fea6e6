"""The levels of a run as the rules need them: shots in order, stretches, the end it falls to."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from record.calc.falls import Fall, Level, falls
from record.facts.pipes import AIR, DRAINAGE
from record.facts.values import Absent, Why
from record.fold import Thing
from record.place.runs import PlacedStation
from record.words import tell

STEP_M = 0.001  # two stations at one place are a drop pipe: kept apart by this much
WATER = (*AIR, *DRAINAGE)


def label(station: PlacedStation) -> str:
    """Return a station's key and its words: "2 bend"."""
    return station.key if station.name == station.key else f"{station.key} {station.name}"


def carries_water(run: Thing) -> bool:
    """Return whether water can gather in the run: drains, and air pipes where air condenses.

    What is not recorded is taken as if it could.
    """
    carries = run.text("carries")
    return carries is None or carries in WATER


def said_not_to_fall(run: Thing) -> bool:
    """Return whether somebody stated, with a reason, that this run need not fall."""
    value = run.value("falls_to")
    return isinstance(value, Absent) and value.why is Why.NOT_APPLICABLE


def levelled(placed: Sequence[PlacedStation]) -> tuple[PlacedStation, ...]:
    """Return the stations with a chainage and an invert, in order."""
    return tuple(s for s in placed if s.chainage_m is not None and s.invert_m is not None)


def levels(shots: Sequence[PlacedStation]) -> tuple[Level, ...]:
    """
    Return the shots as calc takes them, chainages and levels in metres.

    The tolerance is each level's own: shots from one benchmark share it, and what is shared
    cancels in a difference. Levels worked from two benchmarks keep those of both.
    """
    found: list[Level] = []
    one_mark = len({shot.accuracy.mark for shot in shots}) == 1
    for shot in shots:
        chainage = shot.chainage_m or 0.0
        if found and chainage <= found[-1].chainage_m:
            chainage = found[-1].chainage_m + STEP_M
        # A level worked from the crown carries the rounding of binary; a nanometre is none.
        sure = shot.accuracy.vertical_m - (shot.accuracy.mark_m if one_mark else 0.0)
        found.append(Level(chainage, round(shot.invert_m or 0.0, 9), sure))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Stretch:
    """One length of pipe between shots. ``drop_m`` counts toward the end the run falls to."""

    here: PlacedStation
    there: PlacedStation
    fall: Fall
    forward: bool

    @property
    def length_m(self) -> float:
        return self.fall.to_m - self.fall.from_m

    @property
    def drop_m(self) -> float:
        return self.fall.drop_m if self.forward else -self.fall.drop_m

    @property
    def slope(self) -> float:
        return self.drop_m / self.length_m

    @property
    def verdict(self) -> str:
        """ "falls", "level", "rises" toward the low end, or "cannot be told"."""
        verdict = self.fall.verdict
        if self.forward or verdict not in ("falls", "rises"):
            return verdict
        return "rises" if verdict == "falls" else "falls"

    @property
    def words(self) -> str:
        return tell("place.from_to", start=label(self.here), end=label(self.there))


def falls_to(run: Thing, placed: Sequence[PlacedStation]) -> PlacedStation | None:
    """Return the station the run is said to fall to: by its key, else by its words."""
    said = run.text("falls_to")
    if said is None:
        return None
    words = _plain(said)
    for fits in (_same, _named, _part_of, _holds):
        found = [station for station in placed if fits(station, words)]
        if len(found) == 1:
            return found[0]
    return None


def _same(station: PlacedStation, words: str) -> bool:
    return words in (_plain(station.key), _plain(label(station)))


def _named(station: PlacedStation, words: str) -> bool:
    return _plain(station.name) == words


def _part_of(station: PlacedStation, words: str) -> bool:
    return station.name != station.key and _within(_plain(station.name), words)


def _holds(station: PlacedStation, words: str) -> bool:
    return station.name != station.key and _within(words, _plain(station.name))


def _plain(words: str) -> str:
    return " ".join(re.findall(r"[\w.]+", words.casefold()))


def _within(less: str, more: str) -> bool:
    return f" {less} " in f" {more} "


def stretches(
    placed: Sequence[PlacedStation], low_end: PlacedStation | None
) -> tuple[Stretch, ...]:
    """Return the stretches between levelled stations, signed toward ``low_end``; fewer than two
    shots have none. Without a low end, drops count in the order of the stations."""
    shots = levelled(placed)
    if len(shots) < 2:
        return ()
    order = [station.key for station in placed]
    turn = len(order) if low_end is None else order.index(low_end.key)
    worked = falls(levels(shots))
    return tuple(
        Stretch(here, there, fall, order.index(there.key) <= turn)
        for here, there, fall in zip(shots, shots[1:], worked, strict=False)
    )


def fall_table(found: Sequence[Stretch]) -> tuple[str, ...]:
    """Return the stretches as lines: from, to, length, drop with its tolerance, slope."""
    rows = [("length of pipe", "length", "drop", "slope", "")]
    for one in found:
        tolerance = one.fall.tolerance_m
        known = "" if tolerance is None else f" ± {millimetres(tolerance)}"
        rows.append(
            (
                one.words,
                f"{one.length_m:.2f} m",
                f"{millimetres(one.drop_m)}{known}",
                f"{one.slope * 100:.3f} %",
                one.verdict,
            )
        )
    widths = [max(len(row[column]) for row in rows) for column in range(5)]
    return tuple(
        "  ".join(
            cell.ljust(width) if column in (0, 4) else cell.rjust(width)
            for column, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    )


def millimetres(metres: float) -> str:
    """
    Return a length in millimetres, to a tenth where that says more.

    >>> millimetres(0.056), millimetres(-0.0042), millimetres(-0.0)
    ('56 mm', '-4.2 mm', '0 mm')
    """
    value = round(metres * 1000, 1) + 0.0
    return f"{value:.0f} mm" if value == round(value) else f"{value:.1f} mm"
