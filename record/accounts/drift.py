"""Later readings beside those of day one, and by how much they have moved.

Day one is the reading marked as the baseline, else the first. It is said what moved and by how
much, never whether that is safe; a limit is shown only where somebody recorded one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from record.accounts.readings import read_reading
from record.calc.combine import root_sum_square
from record.facts.faults import plain
from record.facts.looks import LOOKS
from record.fold import Happening
from record.fold.looks import found, title
from record.readers import View
from record.units import Dimension, Quantity, in_both


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading as it was written, with what it says where that can be read."""

    words: str
    quantity: Quantity | None
    of: Dimension | None
    happening: Happening

    @property
    def entry(self) -> str:
        return self.happening.entry.number


@dataclass(frozen=True, slots=True)
class Series:
    """The readings of one thing by one name, in the order taken; ``first`` is day one's."""

    about: str
    name: str
    first: Reading
    later: tuple[Reading, ...]
    limit: str

    def change(self, later: Reading) -> Decimal | None:
        """Return how much later a reading is more than day one, in SI; None if not comparable."""
        if later.quantity is None or self.first.quantity is None or later.of is not self.first.of:
            return None
        return later.quantity.si - self.first.quantity.si

    def certain(self, later: Reading) -> bool:
        """Return whether a change is more than what both readings are good for."""
        change, one, two = self.change(later), self.first.quantity, later.quantity
        if change is None or one is None or two is None:
            return False
        known = [float(each.tol) for each in (one, two) if each.tol is not None]
        return abs(float(change)) > (root_sum_square(*known) if known else 0.0)

    def words(self, later: Reading) -> str:
        """Return what a later reading is beside day one, in words."""
        change = self.change(later)
        of = later.of
        if change is None or of is None or self.first.quantity is None:
            return "not to be compared by number"
        if change == 0:
            return "as on day one"
        if not self.certain(later):
            return "no change that these readings could tell"
        more = "more" if change > 0 else "less"
        # A difference of temperatures has no zero of its own.
        kind = Dimension.DIFFERENCE if of is Dimension.TEMPERATURE else of
        share = ""
        base = self.first.quantity.si
        if of not in (Dimension.TEMPERATURE, Dimension.LENGTH) and base:
            share = f", {abs(change / base) * 100:.1f} %"
        return f"{in_both(abs(change), kind)} {more} than on day one{share}"


def series(view: View, tag: str | None = None) -> tuple[Series, ...]:
    """Return every series of readings, of one thing or of all, in the order first read."""
    groups: dict[tuple[str, str], list[Reading]] = {}
    for happening in view.built.happened("reading taken", "cover measured", "serviced", *LOOKS):
        name, said = _said(happening)
        if name and said and (tag is None or happening.about.partition("/")[0] == tag):
            groups.setdefault((happening.about, plain(name)), []).append(_reading(happening, said))
    return tuple(_series(about, readings) for (about, _), readings in groups.items())


def _said(happening: Happening) -> tuple[str, str]:
    """Return what was read, and the reading as it was written; blank where there is none."""
    match happening.kind.word:
        case "reading taken":
            return happening.text("what") or "", happening.text("reading") or ""
        case "cover measured":
            point = happening.text("point")
            cover = happening.quantity("cover")
            return (f"cover at {point}" if point else "cover"), cover.text if cover else ""
        case "serviced":
            reading = happening.text("reading") or ""
            return (happening.text("task") or "") if reading else "", reading
    words = found(happening)
    return title(happening), "" if words == "not recorded" else words


def _reading(happening: Happening, said: str) -> Reading:
    quantity = happening.quantity("cover") if happening.kind.word == "cover measured" else None
    if quantity is not None:
        return Reading(said, quantity, Dimension.LENGTH, happening)
    read = read_reading(said)
    return Reading(said, read[0] if read else None, read[1] if read else None, happening)


def _series(about: str, readings: Sequence[Reading]) -> Series:
    marked = [one for one in readings if plain(one.happening.text("baseline") or "") == "yes"]
    first = (marked or list(readings))[0]
    limits = [w for one in readings if (w := one.happening.text("limit"))]
    last = readings[-1].happening
    said = _said(last)[0]
    return Series(
        about=about,
        name=said,
        first=first,
        later=tuple(one for one in readings if one is not first),
        limit=limits[-1] if limits else "not recorded",
    )
