"""Water seals against the pressure in the room, and a trunk of air against its branches."""

from __future__ import annotations

from collections.abc import Iterator

from record.figures.feeding import derived, field, lengths_in
from record.figures.of_air import fittings_of, pipe, site_altitude
from record.figures.of_doors import opening_pressure
from record.figures.worked import Fed, Missing, Part, Worked, work
from record.fold import Thing
from record.readers import View
from record.words import tell


def of_traps(view: View) -> Iterator[Worked]:
    """Yield the seal that every drain with a trap must have at the overpressure valve's opening."""
    for drain in view.built.of_kind("drain"):
        said = drain.text("trap")
        if said is None:
            continue
        seal, found = None, lengths_in(said)
        if len(found) == 1:
            how = tell("figures.one_length_in", said=said)
            seal = Fed(key="seal", value=found[0], rests=drain.held("trap"), how=how)
        notes = () if seal else (tell("figures.trap_no_one_depth", said=said),)
        margin = field(drain, "seal_margin", "margin", how=drain.words("seal_margin_from"))
        yield work("trap-seal", drain.tag, (*opening_pressure(view), margin, seal), notes=notes)


def of_trunks(view: View) -> Iterator[Worked]:
    """Yield the size of every run that branches state they belong to, losing what they lose."""
    branches: dict[str, list[Thing]] = {}
    for run in view.built.of_kind("run"):
        for tag in run.tags("branch_of"):
            branches.setdefault(tag, []).append(run)
    for tag, found in branches.items():
        trunk = view.built.thing(tag)
        if trunk is not None:
            yield _trunk(view, trunk, found)


def _trunk(view: View, trunk: Thing, branches: list[Thing]) -> Worked:
    flows = [field(one, "design_flow", "branch", how=_by(one)) for one in branches]
    parts: list[Part] = [
        *flows,
        *_loss(view, branches),
        *_wall(view, trunk),
        field(trunk, "inside_diameter", "size", how=tell("figures.built")),
        site_altitude(view),
    ]
    return work(
        "trunk",
        trunk.tag,
        parts,
        what=tell("figures.of_4", branches=", ".join(one.tag for one in branches)),
    )


def _by(run: Thing) -> str:
    return f"{run.tag}, {run.words('design_flow_by')}"


def _wall(view: View, trunk: Thing) -> Iterator[Part]:
    for one in pipe(trunk, fittings_of(view, trunk)):
        if isinstance(one, Missing) or one.key == "roughness":
            yield one
        else:
            yield Fed(key="wall", value=one.value["wall"], rests=trunk.held("material"))


def _loss(view: View, branches: list[Thing]) -> Iterator[Part]:
    """Yield what the branch that loses most a metre loses at its flow, over its own length."""
    worked = [_drop(view, run) for run in branches]
    missing = [one for drop in worked for one in drop.missing]
    yield from missing
    rates = [
        (_rate(drop, run), drop, run)
        for drop, run in zip(worked, branches, strict=True)
        if drop.figures
    ]
    if missing or not rates:
        return
    _, drop, run = max(rates, key=lambda one: one[0])
    how = tell("figures.straight_pipe_at_its", tag=run.tag)
    yield Fed(key="loss", value=drop.number("straight pipe"), rests=drop.rests, how=how)
    yield from derived(
        "over", run, ("pipe_length",), lambda m: m["pipe_length"], tell("figures.pipe", tag=run.tag)
    )


def _drop(view: View, run: Thing) -> Worked:
    parts = (
        field(run, "design_flow", "flow"),
        *pipe(run, fittings_of(view, run)),
        site_altitude(view),
    )
    return work("air-drop", run.tag, parts)


def _rate(drop: Worked, run: Thing) -> float:
    return drop.number("straight pipe") / float(run.si("pipe_length") or 1)
