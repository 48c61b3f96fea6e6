"""What lies upstream and downstream of a thing, what it isolates when shut, where water goes.

Flow goes from a run's first station to its last: that is what a run is recorded as. Water that
got in goes by the levels, whatever the run carries.
"""

from __future__ import annotations

from collections.abc import Iterator

from record.accounts.left import positions
from record.answers.behind_panel import further
from record.answers.found import find_thing
from record.answers.network import ON_A_RUN, runs_of, titled
from record.answers.refused import CannotAnswer
from record.answers.shut_off import closed, water
from record.answers.stream_values import Stream
from record.answers.stream_walk import END, Walk
from record.answers.told import swap_marks
from record.fold import Thing
from record.readers import View
from record.words import tell

KINDS = ("run", *ON_A_RUN, "equipment", "hull", "cable")


def stream(view: View, tag: str, way: str) -> Stream:
    """
    Return what lies ``way``, "upstream" or "downstream", of a thing or a station.

    Raises NotFound where nothing has that tag, CannotAnswer where it is on no run.
    """
    thing = find_thing(view, tag)
    whole = view.built.things[tag.partition("/")[0]]
    if whole.kind.word not in KINDS:
        raise CannotAnswer(
            f"{tag} is a {whole.kind.word}: ask of a run, a station, a valve, a drain, a machine, "
            "a hull or a cable"
        )
    walk = Walk(view, way, {one.thing.tag: one.words for one in positions(view)})
    steps = tuple(walk.start(whole, thing))
    runs = (whole,) if whole.kind.word == "run" else runs_of(view, whole)
    return Stream(
        tag=tag,
        kind=whole.kind.word,
        words=titled(whole),
        way=way,
        state=walk.state(whole),
        steps=steps,
        closed=tuple(closed(view, whole)),
        water=tuple(line for run in runs for line in water(view, run)),
        not_recorded=tuple(_not_recorded(whole, runs, way)),
        swapped=tuple(
            dict.fromkeys(
                f"{one.tag}: {mark}"
                for one in (whole, *(view.built.thing(s.tag) for s in steps))
                if one is not None
                for entry in one.entries()
                for mark in swap_marks(entry)
            )
        ),
        reader=view.reader,
        as_of=view.built.as_of,
        further_entries=further(view),
    )


def _not_recorded(thing: Thing, runs: tuple[Thing, ...], way: str) -> Iterator[str]:
    if thing.kind.word == "valve" and not thing.text("flow"):
        yield tell("answers.which_way_lets_through", tag=thing.tag)
    for run in runs:
        for name in dict.fromkeys((END[way], "carries")):
            if not run.text(name):
                yield f"{run.tag}: {name}"
        if not run.parts:
            yield tell("answers.its_stations_so_nothing", tag=run.tag)
