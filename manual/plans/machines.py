"""Machines that move air or water, each told with the parts that belong to it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from manual.languages import say
from record.answers.network import names
from record.fold import Thing
from record.readers import View

AIR_MACHINES = ("air unit", "fan", "hand crank", "filter set", "gas filter", "heater")
WATER_MACHINES = ("pump", "sump")


@dataclass(frozen=True, slots=True, kw_only=True)
class Machine:
    """A machine, what is said to be part of it, and the hulls it is said to serve."""

    root: Thing
    parts: tuple[Thing, ...]
    hulls_served: tuple[Thing, ...]
    drains: bool

    @property
    def key(self) -> str:
        return self.root.tag

    @property
    def things(self) -> tuple[Thing, ...]:
        return (self.root, *self.parts)

    @property
    def head(self) -> str:
        return f"{self.root.tag} {self.root.text('name') or self.root.words('type')}"

    def words(self) -> Iterator[str]:
        """Yield how it is worked, its parts, and that nobody wrote which comes first."""
        yield from _worked(self.root)
        for part in self.parts:
            said = [part.text("name") or part.words("type"), *_worked(part)]
            yield f"{part.tag} {', '.join(said)}"
        if len(self.parts) > 1:
            yield say("flow.order_of_parts")


def machines(view: View, types: Sequence[str], carried: Sequence[str]) -> tuple[Machine, ...]:
    """Return machines of some types, and whatever serves a run that carries one of ``carried``."""
    runs = [run for run in view.built.of_kind("run") if run.text("carries") in carried]
    every = list(view.built.of_kind("equipment"))
    roots = {thing.tag: _root(view, thing) for thing in every}
    wanted: dict[str, Thing] = {}
    for thing in every:
        if thing.text("type") in types or any(names(thing.text("serves"), run) for run in runs):
            wanted.setdefault(roots[thing.tag].tag, roots[thing.tag])
    return tuple(_machine(view, root, every, roots, types) for root in wanted.values())


def _machine(
    view: View, root: Thing, every: list[Thing], roots: dict[str, Thing], types: Sequence[str]
) -> Machine:
    parts = tuple(t for t in every if t.tag != root.tag and roots[t.tag].tag == root.tag)
    tokens = [token.strip() for token in (root.text("serves") or "").split(",")]
    hulls = (
        hull
        for hull in view.built.of_kind("hull")
        if hull.tag in tokens or names(root.text("serves"), hull)
    )
    return Machine(
        root=root,
        parts=parts,
        hulls_served=tuple(hulls),
        drains=tuple(types) == WATER_MACHINES,
    )


def _root(view: View, thing: Thing) -> Thing:
    """What a machine is part of in the end; a circle of parts ends where it closes."""
    met = {thing.tag}
    while (over := view.built.thing(thing.text("part_of"))) is not None and over.tag not in met:
        met.add(over.tag)
        thing = over
    return thing


def _worked(thing: Thing) -> Iterator[str]:
    if (by_hand := thing.text("hand_operation")) is not None:
        yield by_hand
    if (normal := thing.text("normal_position")) is not None:
        yield say("flow.normally", normal=normal)
