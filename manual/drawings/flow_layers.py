"""Which row of a flow diagram a node stands in, and in what order: downward, few lines crossed.

Rows follow Sugiyama, Tagawa and Toda (1981): layers by the longest way from a start, no wider
than the paper, then each row in the order of the middles of what it is joined to. A way round is
cut where it closes; an edge past a row takes a place in it, so that no line runs through a box.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

MOST_WIDE = 3
_SWEEPS = 6
Pair = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Rows:
    """
    Rows of keys from the top, each left to right; every link joins two rows that follow.

    ``passing`` are the places where an edge only passes; ``way`` has the keys that each edge
    goes through, from its start to its end; ``closing`` are edges that would lead back up.
    """

    rows: tuple[tuple[str, ...], ...]
    passing: frozenset[str]
    way: Mapping[Pair, tuple[str, ...]]
    closing: tuple[Pair, ...]


def rows(keys: Sequence[str], pairs: Sequence[Pair], *, most_wide: int = MOST_WIDE) -> Rows:
    """Lay keys out. Pairs name two keys each, and none twice; a key joined to itself closes."""
    down, closing = _cut(keys, pairs)
    row_of = _layers(keys, down, most_wide)
    count = max(row_of.values(), default=-1) + 1
    laid: list[list[str]] = [[k for k in keys if row_of[k] == r] for r in range(count)]
    way: dict[Pair, tuple[str, ...]] = {}
    passing: list[str] = []
    for start, end in down:
        between = [f"{start} > {end} @{r}" for r in range(row_of[start] + 1, row_of[end])]
        for r, key in enumerate(between, row_of[start] + 1):
            laid[r].append(key)
        passing += between
        way[start, end] = (start, *between, end)
    ordered = _ordered(laid, way)
    return Rows(tuple(map(tuple, ordered)), frozenset(passing), way, tuple(closing))


def _cut(keys: Sequence[str], pairs: Sequence[Pair]) -> tuple[list[Pair], list[Pair]]:
    """Edges that lead down, and those that close a way round, found in the order given."""
    onward: dict[str, list[str]] = {key: [] for key in keys}
    down: list[Pair] = []
    closing: list[Pair] = []
    for start, end in pairs:
        if start == end or _reaches(onward, end, start):
            closing.append((start, end))
        else:
            onward[start].append(end)
            down.append((start, end))
    return down, closing


def _reaches(onward: Mapping[str, Sequence[str]], start: str, goal: str) -> bool:
    met, left = {start}, [start]
    while left:
        for each in onward[left.pop()]:
            if each == goal:
                return True
            if each not in met:
                met.add(each)
                left.append(each)
    return False


def _layers(keys: Sequence[str], down: Sequence[Pair], most_wide: int) -> dict[str, int]:
    """Take keys as soon as all before them are laid, the first given first, into a row with room.

    What follows nothing stands right above what it leads to, not at the very top.
    """
    before: dict[str, list[str]] = {key: [] for key in keys}
    for start, end in down:
        before[end].append(start)
    row_of: dict[str, int] = {}
    held: dict[int, int] = {}
    while len(row_of) < len(keys):
        for key in keys:
            if key in row_of or any(each not in row_of for each in before[key]):
                continue
            row = max((row_of[each] + 1 for each in before[key]), default=0)
            while held.get(row, 0) >= most_wide:
                row += 1
            row_of[key] = row
            held[row] = held.get(row, 0) + 1
    _lower_starts(keys, down, row_of, held, most_wide)
    return row_of


def _lower_starts(
    keys: Sequence[str],
    down: Sequence[Pair],
    row_of: dict[str, int],
    held: dict[int, int],
    most_wide: int,
) -> None:
    ends = {end for _, end in down}
    for key in keys:
        after = [row_of[end] for start, end in down if start == key]
        if key in ends or not after:
            continue
        row = min(after) - 1
        while row > row_of[key] and held.get(row, 0) >= most_wide:
            row -= 1
        held[row_of[key]] -= 1
        held[row] = held.get(row, 0) + 1
        row_of[key] = row
    used = {row: k for k, row in enumerate(sorted(set(row_of.values())))}
    for key in keys:
        row_of[key] = used[row_of[key]]


def _ordered(laid: list[list[str]], way: Mapping[Pair, tuple[str, ...]]) -> list[list[str]]:
    above: dict[str, list[str]] = {}
    below: dict[str, list[str]] = {}
    for path in way.values():
        for one, other in pairwise(path):
            below.setdefault(one, []).append(other)
            above.setdefault(other, []).append(one)
    best, least = [list(row) for row in laid], _crossings(laid, below)
    now = [list(row) for row in laid]
    for sweep in range(_SWEEPS):
        up = sweep % 2 == 1
        order = range(len(now) - 2, -1, -1) if up else range(1, len(now))
        for r in order:
            beside = now[r + 1] if up else now[r - 1]
            now[r] = _by_middle(now[r], beside, below if up else above)
        crossed = _crossings(now, below)
        if crossed < least:
            best, least = [list(row) for row in now], crossed
    return best


def _by_middle(row: list[str], beside: list[str], joined: Mapping[str, list[str]]) -> list[str]:
    at = {key: (k + 0.5) / len(beside) for k, key in enumerate(beside)}
    middles = {}
    for k, key in enumerate(row):
        found = [at[each] for each in joined.get(key, ()) if each in at]
        own = (k + 0.5) / len(row)
        middles[key] = math.fsum(found) / len(found) if found else own
    return sorted(row, key=lambda key: middles[key])


def _crossings(laid: Sequence[Sequence[str]], below: Mapping[str, list[str]]) -> int:
    crossed = 0
    for top, bottom in pairwise(laid):
        at = {key: k for k, key in enumerate(bottom)}
        lines = [(k, at[e]) for k, key in enumerate(top) for e in below.get(key, ()) if e in at]
        crossed += sum(
            1 for i, (a, b) in enumerate(lines) for c, d in lines[i + 1 :] if (a - c) * (b - d) < 0
        )
    return crossed
