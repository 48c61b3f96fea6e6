"""The record → the plain values of the diagrams of air and of water."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from manual.drawings.flow import Flow
from manual.languages import say
from manual.plans.flow_net import Net
from manual.plans.machines import AIR_MACHINES, WATER_MACHINES, machines
from record.answers.stream_walk import DOWN
from record.answers.streams import stream
from record.facts.pipes import AIR, DRAINAGE
from record.fold import Thing
from record.readers import View

GONE = ("left in the ground", "taken out")


def air_flow(view: View) -> Flow | None:
    """Return how the air goes, or None while no pipe for air is recorded."""
    runs = _runs(view, AIR)
    if not runs:
        return None
    net = Net(view, runs, machines(view, AIR_MACHINES, AIR))
    for run in runs:
        net.run(run)
    net.machines()
    return net.flow(say("flow.air"))


def water_flow(view: View) -> Flow | None:
    """Return where water goes, or None while no drain and no pipe for it is recorded."""
    runs = _runs(view, DRAINAGE)
    drains = tuple(view.built.of_kind("drain"))
    if not runs and not drains:
        return None
    net = Net(view, runs, machines(view, WATER_MACHINES, DRAINAGE))
    for run in runs:
        net.run(run)
    for drain in drains:
        net.drain(drain)
    net.machines()
    wet = dict.fromkeys(run.tag for run in (*runs, *_served(view, drains)))
    stands = (line for tag in wet for line in stream(view, tag, DOWN).water)
    return net.flow(say("flow.water"), *stands)


def _runs(view: View, carried: Sequence[str]) -> tuple[Thing, ...]:
    return tuple(
        run
        for run in view.built.of_kind("run")
        if run.text("carries") in carried and run.text("state") not in GONE
    )


def _served(view: View, drains: Iterable[Thing]) -> Iterator[Thing]:
    for drain in drains:
        run = view.built.thing(drain.text("serves"))
        if run is not None:
            yield run
