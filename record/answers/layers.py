"""The layers behind a panel, in order from the room face, each with its depth as far as known."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from record.answers.behind_values import Layer
from record.answers.saying import key, length, value
from record.facts.values import Absent, Why
from record.fold import AsBuilt, Thing
from record.place import FaceFrame, shell_m, thickness_m
from record.words import tell, term


@dataclass(frozen=True, slots=True)
class _Raw:
    side: str
    what: str
    stated: Thing
    field: str


def layers_behind(
    built: AsBuilt, panel: Thing, frame: FaceFrame | None = None
) -> tuple[Layer, ...]:
    """
    Return board, packing, plate, the hull's outside build-up and the earth.

    Depths add up from the room face; one thickness not recorded makes every deeper depth None.
    """
    hull = built.thing(panel.text("hull"))
    raws = [
        _Raw("lining", _named(panel, "board"), panel, "thickness"),
        _Raw("lining", _named(panel, "packing"), panel, "packing_thickness"),
    ]
    if hull is None:
        return tuple(_stacked(raws, 0.0))
    shell = [
        _Raw("shell", tell("answers.shell_plate_steel", tag=hull.tag), hull, "steel_thickness")
    ]
    lining = tuple(_stacked(raws, 0.0))
    void = tuple(_void(hull, frame, lining[-1].to_m))
    inner = (*lining, *void, *_stacked(shell, (*lining, *void)[-1].to_m))
    outer = build_up(built, hull, inner[-1].to_m)
    end = outer[-1].to_m if outer else inner[-1].to_m
    return (*inner, *outer, _earth(end))


def _void(hull: Thing, frame: FaceFrame | None, start_m: float | None) -> Iterator[Layer]:
    """
    Yield the void between a flat panel and a round shell: √(R² − y²) − c, least at its edges.

    Its depth differs over the panel, so no deeper layer has one depth of its own.
    """
    if frame is None or not (frame.faced or frame.adrift):
        return
    said = term("not recorded")
    if frame.faced and start_m is not None:
        least, most = (max(0.0, each - start_m) for each in shell_m(frame))
        said = tell("answers.at_least_at_most", least=length(least), most=length(most))
    yield Layer(
        side="void",
        what=tell("answers.void_to_round_shell", tag=hull.tag),
        thickness=said,
        thickness_m=None,
        from_m=start_m,
        to_m=None,
        entries=tuple(held.entry.number for held in hull.held("inside_diameter")),
    )


def build_up(built: AsBuilt, of: Thing, start_m: float | None) -> tuple[Layer, ...]:
    """Return the outside layers of a hull or a seam, outward from the plate's outside."""
    said = of.value("build-up")
    if isinstance(said, Absent) and said.why in (Why.NONE, Why.NOT_APPLICABLE):
        return ()
    found = built.thing(of.text("build-up"))
    if found is None or found.text("side") == "inside":
        return (_unknown(tell("answers.outside_build_up", tag=of.tag), of),)
    raws = [
        _Raw("outside", _named(part, "material"), part, "thickness")
        for part in found.parts
        if not _no_film(part)
    ]
    if not raws:
        return (_unknown(tell("answers.layers", tag=found.tag), found),)
    return tuple(_stacked(raws, start_m))


def _no_film(part: Thing) -> bool:
    """A step of the build-up that leaves nothing behind, such as cleaning the steel."""
    said = part.value("thickness")
    return isinstance(said, Absent) and said.why in (Why.NONE, Why.NOT_APPLICABLE)


def _named(stated: Thing, field: str) -> str:
    return (
        f"{term(key(field))}, {stated.words(field)}" if field != "material" else stated.words(field)
    )


def _stacked(raws: Iterable[_Raw], start_m: float | None) -> Iterator[Layer]:
    for raw in raws:
        thick = thickness_m(raw.stated, raw.field)
        end = None if start_m is None or thick is None else start_m + thick
        yield Layer(
            side=raw.side,
            what=raw.what,
            thickness=value(raw.stated.kind, raw.field, raw.stated.value(raw.field)),
            thickness_m=thick,
            from_m=start_m,
            to_m=end,
            entries=tuple(held.entry.number for held in raw.stated.held(raw.field)),
        )
        start_m = end


def _unknown(what: str, of: Thing) -> Layer:
    return Layer(
        side="outside",
        what=what,
        thickness=term("not recorded"),
        thickness_m=None,
        from_m=None,
        to_m=None,
        entries=tuple(held.entry.number for held in of.held("build-up")),
    )


def _earth(start_m: float | None) -> Layer:
    return Layer(
        side="earth",
        what="earth",
        thickness=term("n/a"),
        thickness_m=None,
        from_m=start_m,
        to_m=None,
        entries=(),
    )
