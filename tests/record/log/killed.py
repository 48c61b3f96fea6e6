"""A process that is killed without warning at chosen calls of its own, and what it leaves.

    python -m tests.record.log.killed COMMAND POINTS SEED FOLDER

A fork does the work and counts every call that Python makes, into C as well; at the chosen one it
sends itself SIGKILL. Half the points are anywhere, half at calls that touch the disk. What was left
is then looked at, and the same command is given again. Prints what was wrong, a line each.
"""

from __future__ import annotations

import os
import pickle
import random
import shutil
import signal
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from types import FrameType
from typing import Any

TOUCHING = frozenset(
    [
        "open",
        "write",
        "flush",
        "fsync",
        "execute",
        "executemany",
        "mkdir",
        "rename",
        "replace",
        "link",
        "unlink",
        "close",
    ]
)
Work = Callable[[Path], None]
State = Any


def forked(work: Callable[[], None], at: int | None) -> tuple[int, tuple[int, list[int]] | None]:
    """Do the work in a fork that dies at its call number ``at``; return its status and calls."""
    mine, its = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(mine)
        _done_there(work, at, its)
    os.close(its)
    with os.fdopen(mine, "rb") as told:
        data = told.read()
    _, status = os.waitpid(child, 0)
    return status, pickle.loads(data) if data else None


def _done_there(work: Callable[[], None], at: int | None, its: int) -> None:
    calls, touching = 0, []

    def count(_: FrameType, event: str, what: Any) -> None:
        nonlocal calls
        if event not in ("call", "c_call"):
            return
        calls += 1
        if event == "c_call" and what.__name__ in TOUCHING:
            touching.append(calls)
        if calls == at:
            os.kill(mine, signal.SIGKILL)

    status, mine = 1, os.getpid()
    os.getpid = lambda: 7  # after a start of the machine the next has the number of the last
    try:
        sys.setprofile(count)
        work()
        sys.setprofile(None)
        os.write(its, pickle.dumps((calls, touching[-1000:])))
        status = 0
    finally:
        os._exit(status)


def faults(name: str, points: int, seed: int, place: Path) -> Iterator[str]:
    """Yield what was wrong after each kill, and once what is wrong with the trying itself."""
    from tests.record.log.to_kill import COMMANDS

    start, work, state = COMMANDS[name](place / "made")
    before = state(start)
    turn = _copy(start, place / "whole")
    status, told = forked(lambda: work(turn), None)
    if status or told is None:
        yield f"{name}: it does not even work undisturbed"
        return
    calls, touching = told
    after = state(turn)
    if after == before:
        yield f"{name}: it changes nothing"
    chance, lived = random.Random(seed), 0
    for n in range(points):
        at = chance.choice(touching) + chance.choice((0, 1)) if n % 2 else chance.randint(1, calls)
        turn = _copy(start, place / f"{n}")
        status, _ = forked(lambda turn=turn, at=at: work(turn), at)  # type: ignore[misc]
        where = f"{name}, killed at call {at} of {calls}"
        lived += status != signal.SIGKILL  # calls differ a little from one time to the next
        if (left := state(turn)) not in (before, after):
            yield f"{where}: it left {left if isinstance(left, str) else 'a part'}"
        status, _ = forked(lambda turn=turn: work(turn), None)  # type: ignore[misc]
        if left == before and status:
            yield f"{where}: the same command then failed"
        if state(turn) != after:
            yield f"{where}: after the same command once more it is not as it should be"
        shutil.rmtree(turn)
    if lived > 1 + points // 4:
        yield f"{name}: {lived} of {points} were not killed"


def _copy(start: Path, to: Path) -> Path:
    return Path(shutil.copytree(start, to))


if __name__ == "__main__":
    command, points, seed, folder = sys.argv[1:]
    for fault in faults(command, int(points), int(seed), Path(folder)):
        print(fault)
