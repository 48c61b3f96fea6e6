"""What a flow diagram says of a thing: one node each, with how it was left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from manual.drawings.flow import Node, Sort
from manual.languages import say, term
from manual.plans.drawn import sort_of
from record.accounts.left import BY_ITSELF, positions
from record.answers.network import titled
from record.answers.stream_walk import SHUT
from record.fold import Thing
from record.readers import View


@dataclass(frozen=True)
class Nodes:
    """The nodes that the things of one record become."""

    view: View

    def pipe(self, run: Thing) -> Node:
        return Node(run.tag, Sort.PIPE, run.tag, tuple(_pipe_words(run)))

    def served(self, drain: Thing, run: Thing) -> Node:
        """A run of another diagram, which a drain of this one empties."""
        at = say("flow.its_low_water", station=drain.words("at_station"))
        return Node(run.tag, Sort.PIPE, run.tag, (titled(run), at))

    def spot(self, run: Thing, things: Sequence[Thing], along_m: float | None) -> Node:
        """What sits at one place of a run; of several the order is not known."""
        key = " ".join(thing.tag for thing in things)
        words = [w for thing in things for w in self._worked(thing, alone=len(things) == 1)]
        if along_m is None:
            words.append(say("flow.where_on_run", run=run.tag))
        if len(things) > 1:
            words.append(say("flow.which_first"))
        sorts = [_sort(thing) for thing in things]
        sort = Sort.HAND if Sort.HAND in sorts else sorts[0]
        head = " + ".join(f"{thing.tag} {_called(thing)}" for thing in things)
        return Node(key, sort, head, tuple(words))

    def drain(self, drain: Thing) -> Node:
        words = (
            say("flow.lets_go", discharges=drain.words("discharges")),
            say("flow.trap", trap=drain.words("trap")),
        )
        return Node(drain.tag, Sort.DRAIN, f"{drain.tag} {term(drain.kind.word)}", words)

    def hull(self, hull: Thing) -> Node:
        rooms = [
            r.words("name") for r in self.view.built.of_kind("room") if r.text("hull") == hull.tag
        ]
        opens = [
            say("flow.opening", tag=o.tag, leads_to=o.words("leads_to"))
            for o in self.view.built.of_kind("opening")
            if o.text("hull") == hull.tag
        ]
        name = ", ".join(rooms) or hull.text("name")
        name = name or say("flow.room_not_named")
        head = say("flow.hull", tag=hull.tag, name=name)
        return Node(f"hull {hull.tag}", Sort.ROOM, head, tuple(opens))

    def stops(self, key: str) -> bool:
        """Whether a hand valve at a place was left shut, as far as that was written."""
        for tag in key.split(" "):
            thing = self.view.built.thing(tag)
            if thing is None or thing.kind.word != "valve" or thing.text("type") in BY_ITSELF:
                continue
            if SHUT.search(self._left_as.get(thing.tag) or ""):
                return True
        return False

    def _worked(self, thing: Thing, *, alone: bool) -> Iterator[str]:
        lead = "" if alone else f"{thing.tag}: "
        if thing.kind.word != "valve":
            if (what := thing.text("what")) is not None:
                yield lead + what
            return
        yield lead + say("flow.lets_through", flow=thing.words("flow"))
        if thing.text("type") in BY_ITSELF:
            if thing.quantity("opens_at") is not None:
                yield lead + say("flow.opens_at", opens_at=thing.words("opens_at"))
            yield lead + say("flow.no_isolation")
        else:
            yield lead + say("flow.isolates", isolates=thing.words("isolates"))
            turn = f"{thing.words('turns_to_close')}, {thing.words('closes')}"
            yield lead + say("flow.to_shut", turn=turn)
        yield lead + self._state(thing)

    def _state(self, thing: Thing) -> str:
        """How a valve was left last; else what is normal, which is not how it stands."""
        if thing.tag not in self._left:
            return say("flow.normally", normal=thing.words("normal_position"))
        return self._left[thing.tag]

    @cached_property
    def _left_as(self) -> dict[str, str | None]:
        """How a valve was left, in the words of whoever left it."""
        return {one.thing.tag: one.left_words for one in positions(self.view)}

    @cached_property
    def _left(self) -> dict[str, str]:
        """What was written of how a thing was left; a valve that nobody touches has nothing."""
        held = (one for one in positions(self.view) if one.state != "by itself")
        return {one.thing.tag: one.words for one in held}


def _sort(thing: Thing) -> Sort:
    if thing.kind.word != "valve":
        return Sort.PIPE
    return Sort.ITSELF if thing.text("type") in BY_ITSELF else Sort.HAND


def _called(thing: Thing) -> str:
    if thing.kind.word == "valve":
        return sort_of(thing)
    sort = thing.text("type")
    return term(thing.kind.word if sort in (None, "other") else sort)


def _pipe_words(run: Thing) -> Iterator[str]:
    name = run.text("name")
    yield ", ".join(filter(None, (name, run.words("carries"))))
    yield say("flow.falls_to", falls_to=run.words("falls_to"))
