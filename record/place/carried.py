"""Levels in a hull that was lifted or lowered: they go with it, from the day it was.

A level is told on the site's datum, but what is fixed in a hull goes where the hull goes. So a
level that was taken before the hull's floor was stated anew, from a later day, is carried by as
much as the floor was. A mend of the floor carries nothing: the hull was never where it said, and
the level was taken on the datum. What was taken on the day of the move is taken as after it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from decimal import Decimal

from record.facts.values import Level, Value
from record.fold import AsBuilt, Held, Thing
from record.place.bygone import Bygone
from record.units import Quantity
from record.words import tell

FLOOR = "floor_level"
LEVELS = ("bottom", "level")


def carried(built: AsBuilt) -> AsBuilt:
    """Return the shelter with the levels of what stands in a moved hull as they are since."""
    return replace(built, things=_Carried(built))


class _Carried(Mapping[str, Thing]):
    """Things, each looked at when it is asked for: most stand in no hull, or in one at rest."""

    def __init__(self, built: AsBuilt) -> None:
        self._built, self._bygone = built, Bygone(built)
        self._made: dict[str, Thing] = {}

    def __getitem__(self, tag: str) -> Thing:
        if tag not in self._made:
            self._made[tag] = self._carry(self._built.things[tag])
        return self._made[tag]

    def __contains__(self, tag: object) -> bool:
        return tag in self._built.things

    def __iter__(self) -> Iterator[str]:
        return iter(self._built.things)

    def __len__(self) -> int:
        return len(self._built.things)

    def of_kind(self, word: str) -> Iterator[Thing]:
        yield from (self[thing.tag] for thing in self._built.of_kind(word))

    def _carry(self, thing: Thing) -> Thing:
        parts = tuple(map(self._carry, thing.parts))
        own = thing.kind.word == "hull"
        hull = thing if own else self._built.thing(thing.text("hull"))
        if hull is None or hull.kind.word != "hull" or hull.si(FLOOR) is None:
            return replace(thing, parts=parts) if parts else thing
        names = ("walking_floor",) if own else LEVELS
        fields = {name: self._since(thing, name, hull) for name in names if thing.held(name)}
        return replace(thing, fields={**thing.fields, **fields}, parts=parts)

    def _since(self, thing: Thing, name: str, hull: Thing) -> tuple[Held, ...]:
        return tuple(each for held in thing.held(name) for each in self._held(held, hull))

    def _held(self, held: Held, hull: Thing) -> tuple[Held, ...]:
        """Return what a level is since its hull was moved, resting on what says that it was."""
        then = self._bygone.thing(hull.tag, held.on, (FLOOR,))
        before, now = then.si(FLOOR) if then else None, hull.si(FLOOR)
        value = None if before is None or now is None else _raised(held.value, now - before)
        if value is None or now is None or before is None or now == before:
            return (held,)
        way = "lifted" if now > before else "lowered"
        worked = tell(f"place.before.{way}", tag=hull.tag, metres=f"{abs(now - before):.3f}")
        own = Held(value, held.entry, held.on, held.at, worked, held.shared)
        moves = (Held(value, m.entry, m.on, m.at, worked, held.shared) for m in hull.held(FLOOR))
        return (own, *moves)


def _raised(value: Value, by_m: Decimal) -> Value | None:
    if isinstance(value, Level):
        return Level(value.part, _higher(value.height, by_m))
    return _higher(value, by_m) if isinstance(value, Quantity) else None


def _higher(level: Quantity, by_m: Decimal) -> Quantity:
    said = f"{level.si + by_m:.3f} m"
    if level.tol is not None:
        said += f" ± {1000 * level.tol:.0f} mm"
    return Quantity(level.si + by_m, level.unit, said, level.tol, level.estimated)
