"""`asburied` as a person types it, each time a process of its own, many times over.

A server with the program imported forks for each command; one is started for each core that runs
tests, when the first command is asked for, and ends with it. What start-up itself does is tested in
processes that start from nothing.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[1]
MOST_S = 120


def asburied(
    *words: str | Path, cwd: Path | None = None, **more: str
) -> subprocess.CompletedProcess[str]:
    """Run a command with this process's environment and ``more``."""
    asked = {
        "words": [str(word) for word in words],
        "folder": str(cwd or Path.cwd()),
        "environment": {**os.environ, **more},
    }
    server = _server()
    assert server.stdin is not None and server.stdout is not None
    server.stdin.write(f"{json.dumps(asked)}\n")
    server.stdin.flush()
    status, out, err = json.loads(server.stdout.readline())
    return subprocess.CompletedProcess(asked["words"], status, out, err)


@cache
def _server() -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "tests.typed"],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )


def _serve() -> None:
    from demo.typed import typed

    for line in sys.stdin:
        asked = json.loads(line)
        done = typed(asked["words"], Path(asked["folder"]), asked["environment"], most_s=MOST_S)
        print(json.dumps([done.returncode, done.stdout, done.stderr]), flush=True)


if __name__ == "__main__":
    _serve()
