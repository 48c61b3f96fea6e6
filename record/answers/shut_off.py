"""What a shut valve or a dead breaker isolates, and where the water in a run goes by its levels."""

from __future__ import annotations

from collections.abc import Iterator

from record.accounts.left import BY_ITSELF
from record.answers.network import on_run, runs_of
from record.answers.profile import drained
from record.calc.falls import low_points, sags
from record.fold import Thing
from record.place import stations
from record.place.shots import label, levelled, levels
from record.readers import View
from record.words import tell, term


def closed(view: View, thing: Thing) -> Iterator[str]:
    """Yield what a valve or a breaker isolates, in the crew's words and by the run."""
    if thing.kind.word == "cable":
        yield tell("answers.switched_off_takes_with", isolates=thing.words("isolates"))
    if thing.kind.word != "valve":
        return
    if thing.text("type") in BY_ITSELF:
        yield (tell("answers.works_by_itself_lets", tag=thing.tag, flow=thing.words("flow")))
        return
    if thing.held("isolates"):
        yield tell("answers.shut_isolates_written", isolates=thing.words("isolates"))
    for run in runs_of(view, thing):
        carries = run.words("carries")
        yield (
            tell(
                "answers.shut_no_goes_on",
                carries=carries if run.text("carries") else term("flow"),
                tag=run.tag,
                from_=run.words("from"),
                to=run.words("to"),
                tag_2=thing.tag,
            )
        )
        others = [on.thing.tag for on in on_run(view, run) if on.thing.kind.word == "valve"]
        rest = [tag for tag in others if tag != thing.tag]
        if rest:
            yield tell("answers.also_on", tag=run.tag, rest=", ".join(rest))
    turns = "; ".join(
        f"{name.replace('_', ' ')}: {thing.words(name)}"
        for name in ("turns_to_close", "closes", "reached_by", "looks_like")
    )
    yield tell("answers.to_shut", turns=turns)


def water(view: View, run: Thing) -> Iterator[str]:
    """Yield where water in a run goes by its levels, what stands in it, and what drains it."""
    if run.text("carries") in ("power", "signal", "spare"):
        return
    placed = stations(run, view.hulls)
    shots = levelled(placed)
    if len(placed) < 2 or len(shots) != len(placed):
        yield tell("answers.where_water_in_runs", tag=run.tag)
        return
    line = levels(shots)
    by_chainage = {level.chainage_m: shot for shot, level in zip(shots, line, strict=True)}
    inverts = {level.chainage_m: level.invert_m for level in line}
    for low in low_points(line):
        shot = by_chainage[low]
        yield (
            tell(
                "answers.water_in_runs_to",
                tag=run.tag,
                shot=label(shot),
                inverts=f"{inverts[low]:.3f}",
                view=drained(view, run, shot),
            )
        )
    for sag in sags(line):
        yield (
            tell(
                "answers.water_stands_in_from",
                tag=run.tag,
                from_m=f"{sag.from_m:.2f}",
                to_m=f"{sag.to_m:.2f}",
                depth_m=f"{sag.depth_m * 1000:.0f}",
                chainage_m=f"{sag.chainage_m:.2f}",
            )
        )
