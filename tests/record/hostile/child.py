"""Commands in a process of their own, with little memory, little disk, and a minute each.

python -m tests.record.hostile.child     commands as JSON on stdin, what each said on stdout
"""

from __future__ import annotations

import contextlib
import io
import json
import resource
import signal
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

ROOT = Path(__file__).parents[3]
MEMORY, FILE = 2 << 30, 256 << 20  # bytes: of addresses, of which Python and its libraries take 0.5
AT_MOST_S = 60


def told(home: Path, *commands: Sequence[str | Path]) -> list[tuple[int, str]]:
    """
    Return each command's exit status and what it said on stderr.

    A signal, a hang, a traceback or "a fault of the program" is a failure of the test.
    """
    done = subprocess.run(
        [sys.executable, "-m", "tests.record.hostile.child"],
        cwd=ROOT,
        env={
            "PATH": "/usr/bin:/bin",
            "HOME": str(home),
            "PYTHONPATH": str(ROOT),
            "ASBURIED_NOW": "2031-06-01T12:00:00Z",
        },
        input=json.dumps([[str(word) for word in words] for words in commands]),
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    answers = [(status, said) for status, said in json.loads(done.stdout)]
    assert len(answers) == len(commands)
    for status, said in answers:
        assert status in (0, 1, 2), said
        assert "Traceback" not in said and "fault of the program" not in said, said
    return answers


def _given(words: list[str]) -> tuple[int, str]:
    from manual.cli import main

    sys.argv = ["asburied", *words]
    said, status = io.StringIO(), 0
    signal.alarm(AT_MOST_S)  # nothing catches it: the whole process ends, and the test fails
    with contextlib.redirect_stderr(said), contextlib.redirect_stdout(io.StringIO()):
        try:
            main()
        except SystemExit as ended:
            status = ended.code if isinstance(ended.code, int) else 0
    signal.alarm(0)
    return status, said.getvalue()


if __name__ == "__main__":
    commands = json.load(sys.stdin)
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_FSIZE, (FILE, FILE))
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    print(json.dumps([_given(words) for words in commands]))
