"""What a covering hides: the things it names, and what belongs to them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from record.checks.moments import when
from record.fold import AsBuilt, Happening, Thing
from record.place import PlacedStation, stations
from record.readers import View

#: What else goes under with a run: its kind, and the field that names the run.
ALONG = (
    ("fitting", "on_run"),
    ("insulation", "on_run"),
    ("marker", "follows"),
    ("cable", "in_run"),
)
BELONGS = {
    **{kind: (field,) for kind, field in ALONG},
    "valve": ("on_run",),
    "drain": ("serves",),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Hidden:
    """
    Everything one covering hides, as one reader may see it.

    ``named`` are the tags the covering names, ``things`` those of them that are recorded. A run
    brings the valves on it and the drains that serve it.
    """

    view: View
    covering: Thing
    named: tuple[str, ...]
    things: tuple[Thing, ...]
    valves: tuple[Thing, ...]
    drains: tuple[Thing, ...]
    along: tuple[Thing, ...] = ()  # fittings, insulation, markers and cables of what is named

    @property
    def built(self) -> AsBuilt:
        return self.view.built

    @property
    def runs(self) -> tuple[Thing, ...]:
        return tuple(thing for thing in self.things if thing.kind.word == "run")

    @property
    def seams(self) -> tuple[Thing, ...]:
        return tuple(thing for thing in self.things if thing.kind.word == "seam")

    def everything(self) -> tuple[Thing, ...]:
        """Return things, valves, drains and what else belongs to a run, once each."""
        every = (*self.things, *self.valves, *self.drains, *self.along)
        found = {thing.tag: thing for thing in every}
        return tuple(found.values())

    def placed(self, run: Thing) -> tuple[PlacedStation, ...]:
        return stations(run, self.view.hulls)

    def on_run(self, run: Thing) -> tuple[Thing, ...]:
        return tuple(valve for valve in self.valves if run.tag in valve.tags("on_run"))

    def serving(self, run: Thing) -> tuple[Thing, ...]:
        return tuple(drain for drain in self.drains if run.tag in drain.tags("serves"))

    def coverings_of(self, tag: str) -> Iterator[Happening]:
        """
        Yield every time this covering went over ``tag``; one that names no tag hides all.

        What belongs to a run without being named goes under with the run.
        """
        goes_with = {tag} if tag in self.named else {tag, *self._belongs_to(tag)}
        for covered in self.built.happened("covered"):
            over = covered.tags("tags") or self.named
            if covered.about == self.covering.tag and not goes_with.isdisjoint(over):
                yield covered

    def _belongs_to(self, tag: str) -> Iterator[str]:
        thing = self.built.thing(tag)
        if thing is not None:
            for field in BELONGS.get(thing.kind.word, ()):
                yield from (str(held.value) for held in thing.held(field))

    def covered(self, tag: str) -> Happening | None:
        """Return the first time this covering went over ``tag``."""
        return min(self.coverings_of(tag), key=lambda c: when(c).earliest, default=None)

    def after_cover(self, tag: str, happening: Happening) -> bool:
        """Return whether something surely happened after this covering first hid ``tag``."""
        covered = self.covered(tag)
        return covered is not None and when(happening).by(when(covered)) is False


def what_it_hides(view: View, covering: Thing) -> Hidden:
    """Return what ``covering`` hides."""
    built = view.built
    named = covering.tags("hides")
    things = tuple(built.things[tag] for tag in named if tag in built.things)
    return Hidden(
        view=view,
        covering=covering,
        named=named,
        things=things,
        valves=_belonging(built, "valve", "on_run", named),
        drains=_belonging(built, "drain", "serves", named),
        along=tuple(
            thing for word, field in ALONG for thing in _belonging(built, word, field, named)
        ),
    )


def bare(view: View, covering: Thing) -> Hidden:
    """Return what a covering names, without what belongs to it: quick, for when it went on."""
    named = covering.tags("hides")
    return Hidden(
        view=view, covering=covering, named=named, things=(), valves=(), drains=(), along=()
    )


def _belonging(built: AsBuilt, kind: str, field: str, named: tuple[str, ...]) -> tuple[Thing, ...]:
    """Return things of a kind that are named, or sit on something named, as far as is said.

    Where two statements differ on which run it is, it belongs to both.
    """
    return tuple(
        thing
        for thing in built.of_kind(kind)
        if thing.tag in named or any(held.value in named for held in thing.held(field))
    )
