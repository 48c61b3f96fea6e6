"""A command as it is typed, forked from a process that has the program imported already.

Nearly all of a short command is its start; a hundred of them are answered in the time of twenty.
Each is a process of its own, with its own words, folder and environment, and ends as it would end.
"""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import tempfile
import traceback
from collections.abc import Mapping, Sequence
from pathlib import Path

# Everything a command may import, once.
from manual.cli import main as main_of_asburied


def typed(
    words: Sequence[str], folder: Path, environment: Mapping[str, str], *, most_s: int = 0
) -> subprocess.CompletedProcess[str]:
    """
    Run `asburied` in a folder; ``environment`` is all it has.

    After ``most_s`` seconds, if any are told, it is ended by SIGALRM, whose status is -14.
    """
    with tempfile.TemporaryFile("w+") as out, tempfile.TemporaryFile("w+") as err:
        sys.stdout.flush()
        child = os.fork()
        if child == 0:
            signal.alarm(most_s)
            for stream, to in ((0, os.open(os.devnull, os.O_RDONLY)), (1, out), (2, err)):
                os.dup2(to if isinstance(to, int) else to.fileno(), stream)
            os._exit(_status(words, folder, environment))
        _, waited = os.waitpid(child, 0)
        out.seek(0)
        err.seek(0)
        status = os.waitstatus_to_exitcode(waited)
        return subprocess.CompletedProcess(words, status, out.read(), err.read())


def _status(words: Sequence[str], folder: Path, environment: Mapping[str, str]) -> int:
    try:
        os.chdir(folder)
        os.environ.clear()
        os.environ.update(environment)
        sys.argv = ["asburied", *words]
        main_of_asburied()
    except SystemExit as ended:
        if isinstance(ended.code, str):
            print(ended.code, file=sys.stderr)
        return ended.code if isinstance(ended.code, int) else int(ended.code is not None)
    except BaseException:
        traceback.print_exc()
        return 70
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
    return 0
