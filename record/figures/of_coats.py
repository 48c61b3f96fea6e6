"""Coatings as they went on: how far they go, what a coat takes against what was used, batches."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from record.figures.feeding import derived, field, lacks, nothing, numbers, perhaps
from record.figures.worked import Fed, Missing, Worked, work
from record.fold import Happening, Held, Thing
from record.readers import View
from record.words import tell, tell_how_many

Parts = tuple[Fed | Missing | None, ...]


@dataclass(frozen=True, slots=True)
class Coat:
    """One coat of a layer on one thing: every record of it that was not done again."""

    about: str
    layer: str
    number: int
    rows: tuple[Happening, ...]
    again: bool  # some rows were done again, and some of what they covered was not


def of_coats(view: View) -> Iterator[Worked]:
    """Yield the spread of every layer of paint, and litres of every coat against those used."""
    coats = coats_by_litres(view)
    told: set[str] = set()
    for coat in coats:
        layer = layer_of(view, coat)
        if isinstance(layer, Thing) and layer.tag not in told:
            told.add(layer.tag)
            yield work("spread", layer.tag, _film(layer))
            wet = tuple(one for one in _film(layer) if one is None or _key(one) != "yield")
            yield work("wet-film", layer.tag, wet, notes=_thinned(view, coat))
    for coat in coats:
        layer = layer_of(view, coat)
        film: Parts = (layer,) if isinstance(layer, Missing) else _film(layer)
        parts = (*_area(view, coat), *film, *_used(coat))
        yield work(
            "litres",
            coat.about,
            parts,
            what=tell("figures.coat", layer=coat.layer, number=coat.number),
        )


def _key(one: Fed | Missing) -> str:
    return one.key if isinstance(one, Fed) else ""


def _thinned(view: View, coat: Coat) -> Iterator[str]:
    """Yield what was written of thinner in the batches of a coat: words, which are not fed."""
    for row in coat.rows:
        batch = view.built.thing(row.text("batch"))
        if batch is not None and batch.text("thinner"):
            yield tell("figures.thinner_in_not_in", tag=batch.tag, thinner=batch.words("thinner"))


def coats_by_litres(view: View) -> tuple[Coat, ...]:
    """Return the coats of which somebody wrote how much was used, or tried to."""
    rows: dict[tuple[str, str, int], list[Happening]] = {}
    for one in view.built.happened("coat applied"):
        number = one.count("coat")
        if number is not None:
            key = (one.about, (one.text("layer") or "").casefold(), number)
            rows.setdefault(key, []).append(one)
    return tuple(
        Coat(about, layer, number, *_standing(view, found))
        for (about, layer, number), found in rows.items()
        if any(one.held("used") for one in found)
    )


def _standing(view: View, rows: Sequence[Happening]) -> tuple[tuple[Happening, ...], bool]:
    """Leave out what was wholly done again later; say if anything was done again in part."""
    kept: list[Happening] = []
    for one in rows:
        done = _panels(view, one)
        kept = [k for k in kept if not (_panels(view, k) and _panels(view, k) <= done)]
        kept.append(one)
    sets = [_panels(view, one) for one in kept]
    return tuple(kept), sum(map(len, sets)) > len(set().union(*sets))


def _panels(view: View, coat: Happening) -> set[str]:
    batch = view.built.thing(coat.text("batch"))
    return set() if batch is None else set(batch.tags("used_on"))


def layer_of(view: View, coat: Coat) -> Thing | Missing:
    """Return the layer of a build-up that a coat is of, or what is missing to find it."""
    thing = view.built.thing(coat.about)
    if thing is None:
        return nothing(
            tell("figures.what", about=coat.about), tell("figures.room", about=coat.about)
        )
    hull = view.built.thing(thing.text("hull"))
    own = thing.text("build-up") or (hull.text("build-up") if hull and not _seam(thing) else None)
    built = view.built.thing(own)
    if built is None:
        return lacks(thing, "build-up")
    layer = next((one for one in built.parts if _names(one, coat.layer)), None)
    if layer is None:
        words = tell("figures.layer_build_up", layer=coat.layer, tag=built.tag)
        return nothing(words, tell("figures.its_row_under_build", tag=built.tag))
    return layer


def _seam(thing: Thing) -> bool:
    return thing.kind.word == "seam"


def _names(layer: Thing, said: str) -> bool:
    whole = (layer.text("layer") or layer.key).casefold()
    return said in (whole, whole.partition(" ")[2], layer.key.casefold())


def _film(layer: Thing) -> Parts:
    dry = derived(
        "dry",
        layer,
        ("thickness", "coats"),
        lambda m: m["thickness"] / m["coats"] if m["coats"] else m["thickness"],
        tell("figures.in_coats", thickness=layer.words("thickness"), coats=layer.words("coats")),
    )
    return (*dry, field(layer, "solids", "solids"), perhaps(layer, "yield", "yield"))


def _area(view: View, coat: Coat) -> Iterator[Fed | Missing]:
    """Yield the area of the panels that the batches of a coat were used on."""
    if coat.again:
        yield Missing(
            words=tell("figures.which_panels_each_batch", layer=coat.layer, number=coat.number),
            record=tell("figures.mend_used_on_batches"),
        )
        return
    area, rests, missing, panels = 0.0, [], [], set()
    for row in coat.rows:
        batch = view.built.thing(row.text("batch"))
        if batch is None or not batch.tags("used_on"):
            missing.append(lacks(row, "batch") if batch is None else lacks(batch, "used_on"))
            continue
        rests += [*row.held("batch"), *batch.held("used_on")]
        panels |= set(batch.tags("used_on"))
    for tag in sorted(panels):
        size, held, lacking = _panel(view, tag)
        area += size
        rests += held
        missing += lacking
    if missing:
        yield from missing
    else:
        yield Fed(
            key="area",
            value=area,
            rests=tuple(rests),
            how=tell_how_many("figures.panels", len(panels)),
        )


def _panel(view: View, tag: str) -> tuple[float, tuple[Held, ...], tuple[Missing, ...]]:
    panel = view.built.thing(tag)
    if panel is None:
        return (
            0.0,
            (),
            (nothing(tell("figures.measures", tag=tag), tell("figures.panel", tag=tag)),),
        )
    found, rests, missing = numbers(panel, ("width", "height"))
    return (0.0 if missing else found["width"] * found["height"]), rests, missing


def _used(coat: Coat) -> Iterator[Fed | Missing]:
    missing = [lacks(one, "used") for one in coat.rows if one.si("used") is None]
    yield from missing
    if not missing:
        total = sum(float(one.si("used") or 0) for one in coat.rows)
        rests = tuple(held for one in coat.rows for held in one.held("used"))
        yield Fed(
            key="used",
            value=total,
            rests=rests,
            how=tell_how_many("figures.batches", len(coat.rows)),
        )


def of_batches(view: View) -> Iterator[Worked]:
    """Yield, for every batch, after what time it may have been going off, and when it was used."""
    for batch in view.built.of_kind("batch"):
        warm = "material" if batch.si("material") is not None else "air"
        parts = (
            field(batch, "workable_time", "stated", how=batch.words("workable_time_from")),
            field(batch, "workable_time_at", "stated-at"),
            field(batch, warm, "air", how="" if warm == "material" else tell("figures.air_about")),
            _last_used(batch),
        )
        yield work("workable-time", batch.tag, parts)


def _last_used(batch: Thing) -> Fed | Missing:
    mixed, last = batch.text("mixed"), batch.text("last_used")
    if mixed is None or last is None:
        return lacks(batch, "mixed" if mixed is None else "last_used")
    minutes = (_minutes(last) - _minutes(mixed)) % (24 * 60)  # past midnight is the next day
    rests = (*batch.held("mixed"), *batch.held("last_used"))
    return Fed(
        key="used-after",
        value=60.0 * minutes,
        rests=rests,
        how=tell("figures.to", mixed=mixed, last=last),
    )


def _minutes(clock: str) -> int:
    hours, _, minutes = clock.partition(":")
    return 60 * int(hours) + int(minutes)
