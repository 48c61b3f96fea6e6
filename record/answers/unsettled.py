"""What is told in two ways, neither written knowing the other: shown until an entry names both."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from record.fold import AsBuilt, Stated


@dataclass(frozen=True, slots=True)
class Unsettled:
    """One field that holds statements which differ."""

    tag: str
    field: str
    said: str

    @property
    def words(self) -> str:
        return f"{self.tag}, {self.field}: {self.said}"


def unsettled(built: AsBuilt, tag: str | None = None) -> tuple[Unsettled, ...]:
    """Return what is not settled of a thing, its parts and what happened to it; None is all."""
    return tuple(_found(built, tag))


def _found(built: AsBuilt, tag: str | None) -> Iterator[Unsettled]:
    for name in [tag.partition("/")[0]] if tag else sorted(built.things):
        thing = built.thing(name)
        for one in (thing, *thing.parts) if thing else ():
            if tag in (None, name, one.tag):
                yield from _of(one.tag, one)
    for happening in built.about(tag) if tag else built.happened():
        yield from _of(f"{happening.about}, {happening.kind.word} {happening.moment}", happening)


def _of(tag: str, stated: Stated) -> Iterator[Unsettled]:
    for name in stated.unsettled():
        yield Unsettled(tag, name.replace("_", " "), stated.words(name))
