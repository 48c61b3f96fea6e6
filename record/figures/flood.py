"""Flood watch while the pit is open: at which water each hull begins to float, and the last dip."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from record.entry import Entry
from record.figures.of_hulls import Read, of_float_levels, readings
from record.figures.worked import Worked
from record.fold import Happening, Thing
from record.readers import View

#: What a hull no longer floats from under unseen: earth beside it and over it.
EARTH = ("backfill", "fill")
#: The limit on what may be claimed of any mark, in one line.
LIMIT = (
    "A mark for the pit wall, not a promise: below it suction, mud, rain and a low corner still "
    "move a hull. Use the lightest mass. Pump before it; nobody in the pit. The engineer confirms."
)
AT_MARK, BELOW, NO_READING, NO_MARK = "at the mark", "below it", "no reading", "no mark"


@dataclass(frozen=True, slots=True, kw_only=True)
class FloatMark:
    """
    The water level at which one hull in the open pit begins to float, metres on the datum.

    ``worked_m`` is worked from mass and plan, ``given_m`` was stated by somebody; the lower of the
    two is the mark. ``water`` is the newest reading of the dip pipe that then stood highest.
    """

    hull: Thing
    worked: Worked | None
    worked_m: float | None
    given_m: float | None
    pipe: str = ""
    water: Read | None = None

    @property
    def mark_m(self) -> float | None:
        return min((m for m in (self.worked_m, self.given_m) if m is not None), default=None)

    @property
    def room_m(self) -> float | None:
        """How far the last reading stood below the mark; negative above it."""
        if self.mark_m is None or self.water is None:
            return None
        return self.mark_m - self.water[1]

    @property
    def state(self) -> str:
        """Return at the mark, below it, no reading, or no mark. None of them is "safe"."""
        if self.mark_m is None:
            return NO_MARK
        if self.room_m is None:
            return NO_READING
        return BELOW if self.room_m > 0 else AT_MARK

    @property
    def wants(self) -> tuple[str, ...]:
        """What must be recorded before it can be worked."""
        if self.worked is None:
            return ("its float level from the engineer: the sum is for upright sides",)
        return tuple(one.words for one in self.worked.missing) or (
            (self.worked.refused,) if self.worked.refused else ()
        )

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Every entry mark and reading rest on, once each."""
        rests = [held.entry for held in self.worked.rests] if self.worked else []
        rests += [held.entry for held in self.hull.held("floats_in_open_pit_at")]
        rests += self.water[0].entries() if self.water else ()
        return tuple({entry.hash: entry for entry in rests or self.hull.entries()[:1]}.values())

    @property
    def mark_words(self) -> str:
        """Return the mark, or what it lacks, as it is told."""
        if self.mark_m is None:
            return f"float mark NOT WORKED: {'; '.join(self.wants)}"
        said = f"empty, it begins to float with water at {self.mark_m:.3f} m: mark the pit wall"
        if self.worked_m is None:
            return f"{said} (as stated, not worked: {'; '.join(self.wants)})"
        if self.given_m is not None and abs(self.given_m - self.worked_m) > SAME_M:
            return f"{said} (stated {self.given_m:.3f} m, worked {self.worked_m:.3f} m; the lower)"
        return said

    @property
    def water_words(self) -> str:
        """Return how the last reading stands to the mark; it never says that it is enough."""
        if self.water is None:
            return "no water level is recorded: dip before dark"
        happening, level = self.water
        said = f"last dip {self.pipe} {level:.3f} m, {happening.moment} ({happening.entry.number})"
        if self.room_m is None:
            return said
        if self.room_m <= 0:
            return f"WATER AT OR OVER THE MARK: {said}, {-self.room_m * 1000:.0f} mm over"
        return f"{said}, {self.room_m * 1000:.0f} mm below the mark"


SAME_M = 0.0005  # two levels that read the same to the millimetre


def float_marks(view: View) -> tuple[FloatMark, ...]:
    """Return a mark for every hull that is set while earth beside it is not recorded as on."""
    worked = {one.about: one for one in of_float_levels(view)}
    pipe, water = _last_water(view)
    return tuple(
        _mark(hull, worked.get(hull.tag), pipe, water)
        for hull in view.built.of_kind("hull")
        if not _filled_round(view, hull.tag)
    )


def _mark(hull: Thing, worked: Worked | None, pipe: str, water: Read | None) -> FloatMark:
    given = hull.si("floats_in_open_pit_at")
    return FloatMark(
        hull=hull,
        worked=worked,
        worked_m=worked.number("begins to float at") if worked and worked.figures else None,
        given_m=None if given is None else float(given),
        pipe=pipe,
        water=water,
    )


def _filled_round(view: View, hull: str) -> bool:
    """Return whether a covering of earth over this hull is recorded as on."""
    return any(_names(view, one, hull) for one in view.built.happened("covered"))


def _names(view: View, covered: Happening, hull: str) -> bool:
    covering = view.built.thing(covered.about)
    if covering is None or covering.text("what") not in EARTH:
        return False
    return hull in (covered.tags("tags") or covering.tags("hides"))


def _last_water(view: View) -> tuple[str, Read | None]:
    """Return of the newest readings of all dip pipes the highest, and its pipe."""
    newest: dict[str, Read] = {
        pipe.tag: read[-1]
        for pipe in view.built.of_kind("dip pipe")
        if (read := readings(view, pipe))
    }
    if not newest:
        return "", None
    return max(newest.items(), key=lambda pair: pair[1][1])


def form(marks: tuple[FloatMark, ...]) -> Iterator[dict[str, object]]:
    """Yield the JSON form of each mark; levels in metres on the datum."""
    for one in marks:
        yield {
            "hull": one.hull.tag,
            "mark_m": one.mark_m,
            "worked_m": one.worked_m,
            "given_m": one.given_m,
            "state": one.state,
            "missing": list(one.wants) if one.worked_m is None else [],
            "water_m": one.water[1] if one.water else None,
            "water_at": one.water[0].moment if one.water else None,
            "pipe": one.pipe or None,
            "below_mark_m": one.room_m,
            "limit": LIMIT,
            "entries": [entry.number for entry in one.entries],
        }
