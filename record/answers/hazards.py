"""Hazards of opening or drilling a panel, each with what it is about and what it rests on."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from record.answers.behind_values import Hazard, Layer, Reserved
from record.facts.values import Absent, Why
from record.fold import AsBuilt, Thing
from record.place import Shape
from record.words import tell, tell_how_many, term

DANGER, WARNING, CAUTION, NOTICE = "DANGER", "WARNING", "CAUTION", "NOTICE"
SIGNALS = (DANGER, WARNING, CAUTION, NOTICE)

# Wording: engulfment, NIOSH and MSHA fatality reports; foam, EPA on spray foam; voids,
# 29 CFR 1910.146; the shell, common practice, no source.
SAND = (
    "loose fill under load. It runs and buries. Never open, cut or drill here from below or "
    "from inside. If anything moves, stop, stand clear and leave."
)
FOAM = "foam. No hot work and no cutting without controls: its dust and its smoke are toxic."
FOAM_UNKNOWN = (
    "what lies behind the board is not recorded. Treat it as foam: No hot work and no cutting "
    "without controls: its dust and its smoke are toxic."
)
LIVE = "electricity. Treat every wire as live until a licensed electrician has proved it dead."
LIVE_UNKNOWN = "what it carries is not recorded. Treat it as live and under pressure."
PRESSURE = "water, may be under pressure. Shut it off and let it run out first."
VOID = (
    "may be a permit-required confined space; your employer's competent person decides before "
    "anybody reaches or goes in."
)
SHELL = (
    "the steel shell. Do not cut, drill or load it and add no opening without the engineer of "
    "record. A hole voids the tests of tightness until they are done again."
)
#: What is said of a hazard, as it stands in a translation's terms.
WORDS = (SAND, FOAM, FOAM_UNKNOWN, LIVE, LIVE_UNKNOWN, PRESSURE, VOID, SHELL)
WIRES = re.compile(
    r"\b(conduit|cable|wir(e|es|ing)|socket|switch|lamp|light(s|ing)?|electric)", re.I
)
POWERED = (
    *("air unit", "pump", "alarm", "generator", "lighting"),
    *("fan", "heater", "battery", "charger", "radio"),
)
WATER = ("drinking water", "pumped water")


def hazards(
    built: AsBuilt,
    panel: Thing,
    shapes: Iterable[Shape],
    layers: Iterable[Layer],
    zones: Iterable[Reserved],
) -> tuple[Hazard, ...]:
    """Return the hazards of a panel, of its layers and of what may lie behind it, worst first."""
    things = {shape.thing.tag: shape.thing for shape in shapes}
    found = [*_sand(built, panel, things.values()), *_of_panel(panel), *_shell(layers)]
    found.extend(_of_zone(zone) for zone in zones)
    for thing in things.values():
        found.extend(of_thing(built, thing))
    whole = {(h.signal, h.words, h.about): h for h in found}
    return tuple(sorted(whole.values(), key=lambda h: SIGNALS.index(h.signal)))


def _hazard(signal: str, words: str, *about: Thing) -> Hazard:
    entries = {e.hash: e.number for thing in about for e in thing.entries()}
    return Hazard(
        signal=signal,
        words=words,
        about=tuple(thing.tag for thing in about),
        entries=tuple(entries.values()),
    )


def _sand(built: AsBuilt, panel: Thing, things: Iterable[Thing]) -> Iterator[Hazard]:
    met = {thing.tag: thing for thing in things if thing.kind.word == "way out"}
    for way_out in built.of_kind("way out"):
        if way_out.text("hull") == panel.text("hull") and way_out.text("face") in (
            None,
            panel.text("face"),
        ):
            met[way_out.tag] = way_out
    for way_out in met.values():
        found = filled(way_out)
        if found is not None:
            yield found


def _none(stated: Thing, name: str) -> bool:
    """Return whether it is written that there is none: "not recorded" is not that."""
    value = stated.value(name)
    return isinstance(value, Absent) and value.why in (Why.NONE, Why.NOT_APPLICABLE)


def _of_panel(panel: Thing) -> Iterator[Hazard]:
    for held in panel.held("hazard"):
        if isinstance(held.value, str):
            yield _hazard(WARNING, f"{panel.tag}: {held.value}", panel)
    packing = panel.text("packing")
    if packing is not None and "foam" in packing.casefold():
        yield _hazard(WARNING, term(FOAM), panel)
    elif packing is None and not _none(panel, "packing"):
        yield _hazard(WARNING, term(FOAM_UNKNOWN), panel)
    coats = panel.count("coats")
    if coats:
        yield _hazard(NOTICE, tell_how_many("answers.coated", coats), panel)
    elif coats is None and not _none(panel, "coats"):
        yield _hazard(NOTICE, tell("answers.whether_board_coated_not"), panel)


def _of_zone(zone: Reserved) -> Hazard:
    """Say a zone's own words; the crew starts them with the signal word where it is one."""
    first, _, rest = zone.hazard.partition(",")
    signal = first.strip().upper()
    known = signal in SIGNALS and rest
    return Hazard(
        signal=signal if known else WARNING,
        words=f"{zone.tag}: {rest.strip() if known else zone.hazard}",
        about=(zone.tag,),
        entries=zone.entries,
    )


def _shell(layers: Iterable[Layer]) -> Iterator[Hazard]:
    entries = [e for layer in layers if layer.side == "shell" for e in layer.entries]
    yield Hazard(signal=WARNING, words=term(SHELL), about=(), entries=tuple(entries))


def filled(way_out: Thing) -> Hazard | None:
    """Return the hazard of a way out that is filled, or may be."""
    if _none(way_out, "fill"):
        return None
    return _hazard(DANGER, f"{way_out.tag}: {term(SAND)}", way_out)


def of_thing(built: AsBuilt, thing: Thing) -> Iterator[Hazard]:
    """Yield the hazards of one thing, whichever side one comes from."""
    tag, word = thing.tag, thing.kind.word
    for held in thing.held("hazard"):
        if isinstance(held.value, str):
            yield _hazard(WARNING, f"{tag}: {held.value}", thing)
    if word == "run":
        yield from _of_run(thing)
    if is_electric(thing) and word != "run":
        yield _hazard(WARNING, f"{tag}: {term(LIVE)}", thing)
    if word in ("store", "way out") or thing.text("type") == "sump":
        yield _hazard(WARNING, f"{tag}: {term(VOID)}", thing)
    if word == "seam" and _has_foam(built, thing):
        yield _hazard(WARNING, tell("answers.sealed_outside_with", tag=tag, foam=term(FOAM)), thing)
    if word == "fit-out" and not _none(thing, "sealed") and thing.held("sealed"):
        words = tell("answers.sealed_seal_again_and", tag=tag, sealed=thing.words("sealed"))
        yield _hazard(NOTICE, words, thing)
    if word == "penetration":
        words = tell(
            "answers.sealed_inside_outside_never",
            tag=tag,
            sealed_inside=thing.words("sealed_inside"),
            sealed_outside=thing.words("sealed_outside"),
        )
        yield _hazard(WARNING, words, thing)


def _of_run(run: Thing) -> Iterator[Hazard]:
    carries = run.text("carries")
    if carries is None:
        yield _hazard(WARNING, f"{run.tag}: {term(LIVE_UNKNOWN)}", run)
    elif carries in ("power", "signal"):
        yield _hazard(WARNING, f"{run.tag}: {term(LIVE)}", run)
    elif carries in WATER:
        yield _hazard(CAUTION, f"{run.tag}: {term(PRESSURE)}", run)


def _has_foam(built: AsBuilt, seam: Thing) -> bool:
    """A build-up that cannot be looked up counts as foam."""
    found = built.thing(seam.text("build-up"))
    if found is None:
        return not _none(seam, "build-up")
    said = (f"{part.stored('layer')} {part.stored('material')}" for part in found.parts)
    return any("foam" in words.casefold() for words in said)


def is_electric(thing: Thing) -> bool:
    """Return whether something has, or may have, electricity in it."""
    if thing.kind.word == "run":
        return thing.text("carries") in (None, "power", "signal")
    if thing.kind.word == "equipment":
        return thing.text("type") in (None, *POWERED)
    if thing.kind.word == "penetration":
        return bool(WIRES.search(thing.stored("passes")))
    wired = thing.kind.word == "fit-out" and bool(WIRES.search(thing.stored("what")))
    return wired or thing.kind.word == "cable"
