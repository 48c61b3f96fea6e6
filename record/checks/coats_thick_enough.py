"""The films of a layer's coats add up to the thickness asked of it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from decimal import Decimal

from record.checks.coats import Layer, under
from record.checks.finding import CANNOT_BE_TOLD, Finding, Rule
from record.checks.hidden import Hidden
from record.entry import Entry
from record.facts.values import Absent, Why, in_words
from record.fold import Happening, Thing
from record.place.shots import millimetres


def find(hidden: Hidden) -> Iterator[Finding]:
    """
    Find layers thinner than asked, and layers of which one or the other was not written.

    Of work in several areas the thinnest reading of each coat counts. A gauge reads at points:
    enough film where it was read proves nothing between.
    """
    for seam in hidden.seams:
        unasked: list[Layer] = []
        for layer in under(hidden, seam):
            asked = layer.thing.value("thickness")
            if not isinstance(asked, Absent):
                if layer.coats:
                    yield from _measured(seam, layer)
            elif asked.why not in (Why.NONE, Why.NOT_APPLICABLE):
                unasked.append(layer)
        if unasked:
            yield _unasked(seam, unasked)


def _measured(seam: Thing, layer: Layer) -> Iterator[Finding]:
    asked = layer.thing.si("thickness")
    unread = [coat for coat in layer.coats if coat.si("film") is None]
    if asked is None or unread:
        yield _unread(seam, layer, unread)
        return
    total = _total(layer)
    if total < asked:
        films = " + ".join(coat.words("film") for coat in layer.coats)
        yield RULE.finding(
            seam.tag,
            f"{layer.name} is {millimetres(float(total))} thick ({films}), "
            f"{layer.thing.words('thickness')} asked",
            clears=(
                f"## coat applied {seam.tag}",
                f"- layer: {layer.name}",
                "put on what is missing and record it with its film",
            ),
            entries=_entries(layer, layer.coats),
        )


def _total(layer: Layer) -> Decimal:
    films: dict[int | None, list[Decimal]] = defaultdict(list)
    for coat in layer.coats:
        film = coat.si("film")
        if film is not None:
            films[coat.count("coat")].append(film)
    return sum((min(readings) for readings in films.values()), Decimal(0))


def _unread(seam: Thing, layer: Layer, unread: list[Happening]) -> Finding:
    said = ", ".join(f"coat {coat.words('coat')} {coat.words('film')}" for coat in unread)
    return RULE.finding(
        seam.tag,
        f"{layer.name} must be {layer.thing.words('thickness')} thick, and its film is: {said}",
        clears=("- mends: " + ", ".join(coat.entry.number for coat in unread), "- film: as read"),
        entries=_entries(layer, unread),
        sure=CANNOT_BE_TOLD,
    )


def _unasked(seam: Thing, unasked: Sequence[Layer]) -> Finding:
    said = "; ".join(f"{one.name} {in_words(one.thing.value('thickness'))}" for one in unasked)
    return RULE.finding(
        seam.tag,
        f"how thick each layer must be: {said}",
        clears=(
            f"## build-up {unasked[0].thing.tag.partition('/')[0]}",
            "| layer | thickness |",
            "|---|---|",
            *(
                f"| {one.thing.text('layer')} | engineer's figure, or n/a and why |"
                for one in unasked
            ),
        ),
        entries=(entry for one in unasked for entry in one.thing.entries()),
        sure=CANNOT_BE_TOLD,
    )


def _entries(layer: Layer, coats: Sequence[Happening]) -> list[Entry]:
    return [*layer.thing.entries(), *(entry for coat in coats for entry in coat.entries())]


RULE = Rule(
    word="coats thick enough",
    why=(
        "A thin film has pores, and a thin foam lets the steel behind it sweat. Thickness can be "
        "read with a gauge until the next layer is on."
    ),
    find=find,
)
