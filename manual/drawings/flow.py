"""What flows where: plain values, and the same in words.

A node is something met on the way, an edge that what flows goes on from one to the other.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from manual.languages import say


class Sort(StrEnum):
    """What a node is; each has a mark of its own, so that none is told by colour."""

    END = "end"
    PIPE = "pipe"
    HAND = "hand"  # a valve that somebody shuts
    ITSELF = "itself"  # a valve that lets through one way, or at a pressure, by itself
    MACHINE = "machine"
    ROOM = "room"
    DRAIN = "drain"
    GAP = "gap"  # nobody recorded what is there


class Join(StrEnum):
    """How sure it is that a flow goes on, and whether it can."""

    RECORDED = "recorded"
    NOT_RECORDED = "gap"
    SHUT = "shut"


@dataclass(frozen=True, slots=True)
class Node:
    key: str
    sort: Sort
    head: str
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Edge:
    start: str
    end: str
    join: Join = Join.RECORDED


@dataclass(frozen=True, slots=True, kw_only=True)
class Flow:
    """Everything of one diagram, in the order in which it is told; edges name keys of nodes."""

    name: str
    nodes: tuple[Node, ...]
    edges: tuple[Edge, ...] = ()
    notes: tuple[str, ...] = ()


def sort_words() -> Mapping[Sort, str]:
    return {sort: say(f"flow.is_{sort.value}") for sort in Sort}


def join_words() -> Mapping[Join, str]:
    return {join: say(f"flow.join_{join.value}") for join in Join}


def flow_words(flow: Flow) -> str:
    """The alt text: every node with its words and where the flow goes on from it."""
    return " ".join((say("flow.diagram_of", name=flow.name), *_nodes(flow), *flow.notes))


def _nodes(flow: Flow) -> Iterator[str]:
    heads, kinds = {node.key: node.head for node in flow.nodes}, sort_words()
    for node in flow.nodes:
        said = ". ".join((say("flow.node", head=node.head, kind=kinds[node.sort]), *node.words))
        onward = [edge for edge in flow.edges if edge.start == node.key]
        for join, words in join_words().items():
            ends = [heads[edge.end] for edge in onward if edge.join is join]
            if ends:
                said += ". " + say("flow.goes_on_to", ends=" / ".join(ends), how=words)
        yield f"{said}."
