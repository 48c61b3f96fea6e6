"""A seam's build-up beside the coats that went on it, as the seam rules need them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from record.checks.hidden import Hidden
from record.checks.moments import Moment, started
from record.fold import AsBuilt, Happening, Thing


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer a seam must get, and every record of a coat of it, in order of their start."""

    thing: Thing
    coats: tuple[Happening, ...]

    @property
    def name(self) -> str:
        """The layer's words without its number: "tar" of "3 tar"."""
        return layer_name(self.thing)

    @property
    def needed(self) -> int | None:
        """How many coats it must get; None is not recorded."""
        return self.thing.count("coats")

    def of(self, number: int) -> tuple[Happening, ...]:
        """Return the records of one coat; work in two areas is two records."""
        return tuple(coat for coat in self.coats if coat.count("coat") == number)


@dataclass(frozen=True, slots=True)
class Step:
    """One coat of one layer in the order they must go on, with the records of it."""

    layer: Layer
    number: int
    coats: tuple[Happening, ...]

    @property
    def words(self) -> str:
        needed = self.layer.needed
        return self.layer.name if needed == 1 else f"{self.layer.name} coat {self.number}"


def layer_name(layer: Thing) -> str:
    words = layer.text("layer") or layer.key
    return words.partition(" ")[2] or words


def build_up(built: AsBuilt, seam: Thing) -> Thing | None:
    """Return the build-up a seam must get, or None where it is not recorded."""
    return built.thing(seam.text("build-up"))


def layers(hidden: Hidden, seam: Thing) -> tuple[Layer, ...]:
    """Return every layer of a seam's build-up, with the coats recorded on the seam."""
    found = build_up(hidden.built, seam)
    if found is None:
        return ()
    coats = sorted(
        hidden.built.about(seam.tag, "coat applied"),
        key=lambda coat: (started(coat).earliest, coat.entry.order),
    )
    return tuple(
        Layer(part, tuple(coat for coat in coats if _is_of(coat, part))) for part in found.parts
    )


def _is_of(coat: Happening, layer: Thing) -> bool:
    said = (coat.text("layer") or "").casefold()
    whole = (layer.text("layer") or layer.key).casefold()
    return said in (layer.key.casefold(), layer_name(layer).casefold(), whole)


def is_a_layer(hidden: Hidden, seam: Thing) -> bool:
    """Return whether the covering is itself a layer of the seam's build-up, such as its tar."""
    return len(under(hidden, seam)) < len(layers(hidden, seam))


def under(hidden: Hidden, seam: Thing) -> tuple[Layer, ...]:
    """
    Return the layers that must be on before the covering goes over the seam.

    A covering that is a layer of the build-up itself (tar, foam, wrap) needs those before it;
    any other, or one of which it is not recorded what it is, needs all.
    """
    every = layers(hidden, seam)
    what = hidden.covering.text("what")
    if what is None:
        return every
    for place, layer in enumerate(every):
        if what in layer.name.casefold().split():
            return every[:place]
    return every


def steps(every: Sequence[Layer]) -> tuple[Step, ...]:
    """Return all coats of all layers, in the order they must go on."""
    return tuple(
        Step(layer, number, layer.of(number))
        for layer in every
        for number in range(1, max(layer.needed or 1, 1) + 1)
    )


def first_start(coats: Sequence[Happening]) -> Moment | None:
    """Return when the first of the coats was begun."""
    return min((started(coat) for coat in coats), key=lambda m: m.earliest, default=None)


def coat_words(coat: Happening) -> str:
    """Return which coat a record is of, and when: "foam coat 1 of 2022-05-19 10:30"."""
    return f"{coat.words('layer')} coat {coat.words('coat')} of {started(coat)}"
