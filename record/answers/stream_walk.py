"""One walk along the runs, upstream or downstream: what is met, in order, each thing once.

Flow goes from a run's first station to its last: that is what a run is recorded as.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from record.accounts.left import BY_ITSELF
from record.answers.network import ON_A_RUN, On, ends_at, named_in, names, on_run, runs_of, titled
from record.answers.network import place_on as where_on
from record.answers.stream_values import Step
from record.facts.pipes import AIR
from record.fold import Thing
from record.place import PlacedStation, stations
from record.place.shots import label
from record.readers import View
from record.words import tell, term

UP, DOWN = "upstream", "downstream"
END = {UP: "from", DOWN: "to"}
SHUT = re.compile(r"\b(shut|closed)\b", re.IGNORECASE)
SAME_M = 0.01  # along a run: nearer than this, which comes first is not told by a length


@dataclass
class Walk:
    """A walk under way: ``left`` is how valves and machines were left, ``met`` what was told."""

    view: View
    way: str
    left: dict[str, str]
    met: set[str] = field(default_factory=set)

    def start(self, whole: Thing, thing: Thing) -> Iterator[Step]:
        self.met.add(whole.tag)
        word = whole.kind.word
        if word == "run":
            yield from self._along(whole, self._chainage(whole, thing), 0)
        elif word in ON_A_RUN:
            if word == "drain" and self.way == DOWN:
                yield from self._out_of(whole, 0)
                return
            for run in runs_of(self.view, whole):
                yield from self._along(run, where_on(self.view, whole, run).along_m, 0)
        elif word == "cable":
            yield from self._wired(whole)
        else:
            yield from self._at(whole, 0)
            yield from self._fed(whole)

    def _chainage(self, run: Thing, thing: Thing) -> float | None:
        """Of a station its chainage; of a whole run its far end on the side that is asked for."""
        for station in stations(run, self.view.hulls):
            if station.thing.tag == thing.tag:
                return station.chainage_m
        return float("inf") if self.way == UP else float("-inf")

    def _along(self, run: Thing, start_m: float | None, level: int) -> Iterator[Step]:
        """Yield what sits on a run beyond a place, its end, and what joins it there."""
        self.met.add(run.tag)
        for on in self._ordered(run, start_m):
            if on.thing.tag in self.met:
                continue
            yield self._on(on, level, start_m)
            self.met.add(on.thing.tag)
            if on.thing.kind.word == "drain" and self.way == DOWN:
                yield from self._out_of(on.thing, level + 1)
        yield from self._branches(run, level + 1)
        yield from self._end(run, level)

    def _ordered(self, run: Thing, start_m: float | None) -> list[On]:
        """What has no place on the run may lie on either side, so it is told on both."""
        found = [
            on
            for on in on_run(self.view, run)
            if start_m is None
            or on.along_m is None
            or (on.along_m >= start_m if self.way == DOWN else on.along_m <= start_m)
        ]
        return found if self.way == DOWN else [*reversed(found)]

    def _on(self, on: On, level: int, start_m: float | None) -> Step:
        words = titled(on.thing)
        if start_m is None or on.along_m is None:
            words += tell("answers.where_on_before_or", tag=on.run.tag)
        elif abs(on.along_m - start_m) < SAME_M:
            words += tell("answers.at_same_place_before")
        return self._step(on.thing, words, on.run.tag, level, on.along_m, on.off_m)

    def _step(
        self,
        thing: Thing,
        words: str,
        run: str,
        level: int,
        along_m: float | None = None,
        off_m: float | None = None,
    ) -> Step:
        state = self.state(thing)
        return Step(
            tag=thing.tag,
            kind=thing.kind.word,
            words=words,
            on_run=run,
            along_m=along_m,
            off_m=off_m,
            state=state,
            stops=_shuts(thing) and bool(SHUT.search(state.partition("; normally")[0])),
            level=level,
            entries=tuple(entry.number for entry in thing.entries()),
        )

    def state(self, thing: Thing) -> str:
        """Return how a valve or a machine was left; else its normal position."""
        if thing.kind.word == "run":
            return ""
        if thing.tag in self.left:
            return self.left[thing.tag]
        normal = thing.text("normal_position") if thing.kind.field("normal_position") else None
        return tell("answers.normally", normal=normal) if normal else ""

    def _branches(self, run: Thing, level: int) -> Iterator[Step]:
        """Yield runs that say they come from this one; upstream, those that run into it."""
        yield from self._joining(run, level)
        if self.way == UP:
            for drain in self.view.built.of_kind("drain"):
                if drain.text("through") == run.tag and drain.tag not in self.met:
                    yield self._drain(drain, level)

    def _whole(self) -> float:
        return float("-inf") if self.way == DOWN else float("inf")

    def _drain(self, drain: Thing, level: int) -> Step:
        self.met.add(drain.tag)
        return self._step(
            drain,
            tell("answers.serves", drain=titled(drain), serves=drain.words("serves")),
            "",
            level,
        )

    def _out_of(self, drain: Thing, level: int) -> Iterator[Step]:
        yield self._step(
            drain, tell("answers.lets_go", discharges=drain.words("discharges")), "", level
        )
        through = self.view.built.thing(drain.text("through"))
        if through is not None and through.tag not in self.met:
            yield self._step(through, titled(through), through.tag, level)
            yield from self._along(through, self._whole(), level)

    def _end(self, run: Thing, level: int) -> Iterator[Step]:
        end = END[self.way]
        water = run.text("outlet") and run.text("carries") not in AIR
        outlet = tell("answers.outlet", outlet=run.words("outlet")) if water else ""
        placed = stations(run, self.view.hulls)
        last = _end_station(placed, self.way)
        at = tell("answers.at", last=last) if last else ""
        which = "end" if self.way == DOWN else "start"
        words = tell(f"answers.its.{which}", at=at, field=term(end), words=run.words(end))
        yield self._step(run, words + (outlet if self.way == DOWN else ""), run.tag, level)
        for thing in named_in(self.view, run.text(end)):
            if thing.tag in self.met or thing.kind.word == "hull":
                continue
            yield self._step(thing, titled(thing), "", level + 1)
            if thing.kind.word == "run":
                yield from self._along(thing, self._whole(), level + 1)
            else:
                yield from self._at(thing, level + 1)

    def _at(self, thing: Thing, level: int) -> Iterator[Step]:
        """Yield the runs that leave a machine or a hull, or come to it."""
        self.met.add(thing.tag)
        yield from self._joining(thing, level)

    def _joining(self, thing: Thing, level: int) -> Iterator[Step]:
        """Yield the runs that say they leave it or come to it, each with what is along it."""
        end = END[UP if self.way == DOWN else DOWN]
        for run in ends_at(self.view, thing, end):
            if run.tag not in self.met:
                said = f"{titled(run)}; {end}: {run.words(end)}"
                yield self._step(run, said, run.tag, level)
                yield from self._along(run, self._whole(), level)

    def _fed(self, thing: Thing) -> Iterator[Step]:
        """Yield the cables that feed a machine, and where each is switched off."""
        if self.way != UP:
            return
        for cable in self.view.built.of_kind("cable"):
            if thing.tag in cable.tags("isolates") or names(cable.text("to"), thing):
                yield self._step(cable, _breaker(cable), cable.words("in_run"), 0)

    def _wired(self, cable: Thing) -> Iterator[Step]:
        if self.way == UP:
            yield self._step(cable, _breaker(cable), cable.words("in_run"), 0)
            return
        for tag in cable.tags("isolates"):
            thing = self.view.built.thing(tag)
            if thing is not None:
                yield self._step(
                    thing, tell("answers.goes_dead_with_its", thing=titled(thing)), "", 0
                )


def _shuts(thing: Thing) -> bool:
    """A valve that works by itself hangs shut and opens again; it stops nothing for good."""
    return thing.kind.word != "valve" or thing.text("type") not in BY_ITSELF


def _end_station(placed: tuple[PlacedStation, ...], way: str) -> str:
    if not placed:
        return ""
    return tell("answers.station", placed=label(placed[-1] if way == DOWN else placed[0]))


def _breaker(cable: Thing) -> str:
    return tell(
        "answers.switched_off_at_breaker",
        cable=titled(cable),
        breaker=cable.words("breaker"),
        breaker_at=cable.words("breaker_at"),
    )
