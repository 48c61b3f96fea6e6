"""How air or water goes from one thing to the next: a diagram while it is put together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise

from manual.drawings.flow import Edge, Flow, Join, Node, Sort
from manual.languages import say, term
from manual.plans.flow_nodes import Nodes
from manual.plans.machines import Machine
from record.answers.network import On, ends_at, named_in, names, on_run
from record.answers.saying import FURTHER
from record.answers.stream_walk import SAME_M
from record.facts.kind import OWNER
from record.facts.pipes import AIR
from record.fold import Thing
from record.readers import View

#: Pieces of pipe; the flow passes them, and nobody works them.
PASSED = ("bend", "tee", "wye", "coupling", "union", "reducer", "flange")


@dataclass
class Net:
    """The nodes and edges of one diagram while it is put together: runs, then machines."""

    view: View
    carried: tuple[Thing, ...]
    groups: tuple[Machine, ...]
    nodes: dict[str, Node] = field(default_factory=dict)
    edges: list[Edge] = field(default_factory=list)

    @cached_property
    def nodes_of(self) -> Nodes:
        return Nodes(self.view)

    def flow(self, name: str, *notes: str) -> Flow:
        further = () if self.view.reader == OWNER and not self.view.lacking else (term(FURTHER),)
        return Flow(
            name=name,
            nodes=tuple(self.nodes.values()),
            edges=tuple(self.edges),
            notes=(*notes, say("flow.not_recorded_is_not"), *further),
        )

    def run(self, run: Thing) -> None:
        """Put in a run with what sits on it in order, and what is at both its ends."""
        drained = self._drained_into(run)
        chain = [*self._along(run)]
        for one, other in pairwise(chain):
            self._edge(one, other)
        start, end = chain[0], chain[-1]
        for key, join in self._ends(run, "from", bare=not drained):
            self._edge(key, start, join)
        for key, join in self._ends(run, "to"):
            self._edge(end, key, join)
        for drain in drained:
            self._edge(self._put(self.nodes_of.drain(drain)), start)

    def drain(self, drain: Thing) -> None:
        """Put in a drain: from the pipe it serves to where it lets the water go."""
        key = self._put(self.nodes_of.drain(drain))
        run = self.view.built.thing(drain.text("serves"))
        if run is None:
            source = self._gap(f"{drain.tag} serves", say("flow.what_it_drains"))
        elif run in self.carried:
            source = run.tag
        else:
            source = self._put(self.nodes_of.served(drain, run))
        self._edge(source, key)
        through = self.view.built.thing(drain.text("through"))
        if through is None or through not in self.carried:
            said = drain.text("discharges")
            end = f"{drain.tag}>"
            if said is None:
                self._edge(key, self._gap(end, say("flow.where_it_lets_go")))
            else:
                self._edge(key, self._put(Node(end, Sort.END, said)))

    def machines(self) -> None:
        """Put in what the machines serve, and those that no pipe came to."""
        for group in self.groups:
            if group.key not in self.nodes and not self._shown_alone(group):
                continue
            self._machine(group)
            for hull in group.hulls_served:
                if group.drains:
                    self._edge(self._hull(hull), group.key)
                else:
                    self._edge(group.key, self._hull(hull))

    def _shown_alone(self, group: Machine) -> bool:
        return group.drains or bool(group.hulls_served)

    def _along(self, run: Thing) -> Iterator[str]:
        """Yield the keys of a run and of what sits on it, in the order of the flow."""
        held = [on for on in on_run(self.view, run) if on.thing.text("type") not in PASSED]
        held = [on for on in held if on.thing.kind.word != "drain"]
        at_start = [on for on in held if on.along_m is not None and on.along_m < SAME_M]
        yield from self._spots(run, at_start)
        yield self._put(self.nodes_of.pipe(run))
        yield from self._spots(run, [on for on in held if on not in at_start])

    def _spots(self, run: Thing, held: Sequence[On]) -> Iterator[str]:
        """Yield one key a place on the run: of what sits at one place the order is not known."""
        spots: list[list[On]] = []
        for on in held:
            last = spots[-1][-1].along_m if spots else None
            alike = spots and on.along_m is None and last is None
            if on.along_m is not None and last is not None:
                alike = abs(on.along_m - last) < SAME_M
            if alike:
                spots[-1].append(on)
            else:
                spots.append([on])
        for spot in spots:
            yield self._put(self.nodes_of.spot(run, [on.thing for on in spot], spot[0].along_m))

    def _edge(self, start: str, end: str, join: Join | None = None) -> None:
        if join is None:
            join = Join.SHUT if self.nodes_of.stops(start) else Join.RECORDED
        edge = Edge(start, end, join)
        if all((each.start, each.end) != (start, end) for each in self.edges):
            self.edges.append(edge)

    def _put(self, node: Node) -> str:
        self.nodes.setdefault(node.key, node)
        return node.key

    def _gap(self, key: str, head: str) -> str:
        return self._put(Node(key, Sort.GAP, head))

    def _ends(self, run: Thing, end: str, *, bare: bool = True) -> Iterator[tuple[str, Join]]:
        """Yield what a run comes from or goes to; ``bare`` words alone make an end of their own."""
        said = run.text(end)
        group = self._joined(run, end)
        if group is not None:
            yield self._machine(group), Join.RECORDED
            return
        found = [t for t in named_in(self.view, said) if t.tag != run.tag]
        others = [t for t in found if t in self.carried]
        if others:
            yield from ((other.tag, Join.RECORDED) for other in others)
            return
        hull = next((t for t in found if t.kind.word == "hull"), None)
        near = self._standing(hull, run, end) if hull is not None else None
        if near is not None:
            yield self._machine(near), Join.NOT_RECORDED
        elif hull is not None and bare:
            yield self._hull(hull), Join.RECORDED
        elif said is not None and bare:
            words = (run.words("outlet"),) if end == "to" and run.text("outlet") else ()
            yield self._put(Node(f"{run.tag} {end}", Sort.END, said, words)), Join.RECORDED
        elif bare and not any(True for _ in ends_at(self.view, run, _OTHER[end])):
            yield self._gap(f"{run.tag} {end}", say(f"flow.gap_{end}", run=run.tag)), Join.RECORDED

    def _joined(self, run: Thing, end: str) -> Machine | None:
        """The machine that a run is said to lead to, or that is said to serve it."""
        for group in self.groups:
            named = any(names(run.text(end), thing) for thing in group.things)
            served = any(names(t.text("serves"), run) for t in group.things)
            way = "from" if group.drains or run.text("carries") == AIR[1] else "to"
            if named or (served and end == way):
                return group
        return None

    def _standing(self, hull: Thing, run: Thing, end: str) -> Machine | None:
        """A machine of the same hull, of which nobody wrote that the run joins it."""
        pumped, comes = run.text("carries") == "pumped water", run.text("carries") == AIR[0]
        if (end == "from" and not pumped) or (end == "to" and not comes):
            return None
        return next((g for g in self.groups if hull.tag == g.root.text("hull")), None)

    def _machine(self, group: Machine) -> str:
        return self._put(Node(group.key, Sort.MACHINE, group.head, tuple(group.words())))

    def _hull(self, hull: Thing) -> str:
        return self._put(self.nodes_of.hull(hull))

    def _drained_into(self, run: Thing) -> tuple[Thing, ...]:
        return tuple(d for d in self.view.built.of_kind("drain") if d.text("through") == run.tag)


_OTHER = {"from": "to", "to": "from"}
